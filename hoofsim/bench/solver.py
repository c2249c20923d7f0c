"""The equilibrium: one foot cold and warm, batches of growing size, and a general-purpose minimiser on the same energy."""

from collections.abc import Iterator
from functools import partial
from typing import Any

import numpy as np

from hoofsim.bench.timing import Row, best_seconds, peak_megabytes, times
from hoofsim.foot.presets import preset
from hoofsim.mechanics import bodies
from hoofsim.mechanics.assembly import evaluate, no_history, slope
from hoofsim.mechanics.equilibrium import CONVERGED, first_guess, solve
from hoofsim.mechanics.loads import load_case
from hoofsim.mechanics.model import Model, build

NAME = "solver"
HEELS_MM = (-10.0, 20.0)


def feet(count: int) -> Model:
    """Sound standing feet whose heels run over a range, so that no two are alike."""
    values = {name: np.full(count, value) for name, value in preset("sound").values.items()}
    values["heel_change_mm"] = np.linspace(*HEELS_MM, count)
    return build(values, load_case("standing"))


def minimise(model: Model, method: str) -> Any:
    """The same energy given to SciPy's minimiser, one foot; freedoms scaled as the program scales them."""
    from scipy.optimize import minimize

    scale, history = bodies.scales(), no_history(model)

    def energy(x: Any) -> float:
        return float(slope(model, (x * scale)[:, None], history)[0][0])

    def gradient(x: Any) -> Any:
        return slope(model, (x * scale)[:, None], history)[1][:, 0] * scale

    def hessian(x: Any) -> Any:
        return evaluate(model, (x * scale)[:, None], history).hessian[:, :, 0] * np.outer(scale, scale)

    start = first_guess(model)[:, 0] / scale
    return minimize(energy, start, jac=gradient, hess=hessian, method=method, options={"gtol": 1e-3})


def run(quick: bool) -> Iterator[Row]:
    """Rows of this bench; `quick` is the short form that the tests run."""
    one = feet(1)
    rest = solve(one)
    nearby = rest.freedoms * 1.02
    repeats = 1 if quick else 15
    cold = best_seconds(lambda: solve(one), repeats)
    warm = best_seconds(lambda: solve(one, start=nearby), repeats)
    yield Row(NAME, "one foot, from the usual guess", cold * 1e3, "ms")
    yield Row(
        NAME,
        "one foot, warm (from a pose 2 % away)",
        warm * 1e3,
        "ms",
        f"{times(cold / warm)} faster than cold",
    )
    for count in (8, 64) if quick else (8, 64, 500, 2000, 20000):
        batch = feet(count)
        found = solve(batch)
        seconds = best_seconds(partial(solve, batch), 1 if quick or count > 5000 else 4) / count
        share = 100 * float(np.mean(found.status == CONVERGED))
        words = (
            f"{times(cold / seconds)} one at a time; {share:.0f} % converged, {found.steps.mean():.1f} steps"
        )
        yield Row(NAME, f"batch of {count} feet, equilibria per second", 1.0 / seconds, "1/s", words)
    try:
        slow = best_seconds(partial(minimise, one, "trust-exact"), 1 if quick else 3)
    except ModuleNotFoundError:
        yield Row(
            NAME, "SciPy's minimiser", float("nan"), "ms", "left out: SciPy is not installed (test extra)"
        )
    else:
        answer = minimise(one, "trust-exact")
        apart = np.abs(answer.x * bodies.scales() - rest.freedoms[:, 0]).max()
        words = f"the batch is {times(slow / seconds)} faster; answers within {apart:.1e} mm or rad"
        yield Row(NAME, "SciPy trust-exact, one foot at a time", slow * 1e3, "ms", words)
    count = 64 if quick else 2000
    yield Row(NAME, f"peak memory of {count} feet", peak_megabytes(lambda: solve(feet(count))), "MB")
