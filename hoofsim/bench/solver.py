"""The equilibrium: one foot cold and warm, batches of growing size, and a general-purpose minimiser on the same energy."""

import math
from collections.abc import Iterator
from functools import partial
from typing import Any

import numpy as np

from hoofsim.bench.timing import Row, best_of_each, best_seconds, memory_row, times
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


def minimise(model: Model, method: str, start: Any) -> Any:
    """The same energy given to SciPy's minimiser, one foot from pose `start` (11, 1); freedoms scaled as here."""
    from scipy.optimize import minimize

    scale, history = bodies.scales(), no_history(model)

    def energy(x: Any) -> float:
        return float(slope(model, (x * scale)[:, None], history)[0][0])

    def gradient(x: Any) -> Any:
        return slope(model, (x * scale)[:, None], history)[1][:, 0] * scale

    def hessian(x: Any) -> Any:
        return evaluate(model, (x * scale)[:, None], history).hessian[:, :, 0] * np.outer(scale, scale)

    begin = start[:, 0] / scale
    return minimize(energy, begin, jac=gradient, hess=hessian, method=method, options={"gtol": 1e-3})


def run(quick: bool) -> Iterator[Row]:
    """Rows of this bench; `quick` is the short form that the tests run."""
    one = feet(1)
    rest = solve(one)
    nearby = rest.freedoms * 1.02
    repeats = 1 if quick else 15
    cold, warm = best_of_each((lambda: solve(one), lambda: solve(one, start=nearby)), repeats)
    yield Row(NAME, "one foot, from the usual guess", cold * 1e3, "ms")
    yield Row(
        NAME,
        "one foot, warm (from a pose 2 % away)",
        warm * 1e3,
        "ms",
        f"{times(cold / warm)} faster than cold",
    )
    before: tuple[int, float] | None = None
    for count in (1, 8, 64) if quick else (1, 8, 64, 500, 2000, 20000):
        batch = feet(count)
        found = solve(batch)
        seconds = best_seconds(partial(solve, batch), 1 if quick or count > 5000 else 4) / count
        share = 100 * float(np.mean(found.status == CONVERGED))
        words = (
            f"{times(cold / seconds)} one at a time; {share:.0f} % converged, {found.steps.mean():.1f} steps"
        )
        if before is not None:
            power = 1.0 + math.log(seconds / before[1]) / math.log(count / before[0])
            words += f"; time grows as the number to the power {power:.2f}"
        before = count, seconds
        yield Row(NAME, f"batch of {count} feet, equilibria per second", 1.0 / seconds, "1/s", words)
    try:
        slow, slow_warm = (
            best_seconds(partial(minimise, one, "trust-exact", start), 1 if quick else 3)
            for start in (first_guess(one), nearby)
        )
    except ModuleNotFoundError:
        yield Row(
            NAME, "SciPy's minimiser", float("nan"), "ms", "left out: SciPy is not installed (test extra)"
        )
    else:
        answer = minimise(one, "trust-exact", first_guess(one))
        apart = np.abs(answer.x * bodies.scales() - rest.freedoms[:, 0]).max()
        words = (
            f"one foot here is {times(slow / cold)} faster, the batch {times(slow / seconds)}; "
            f"answers within {apart:.1e} mm or rad"
        )
        yield Row(NAME, "SciPy trust-exact, one foot at a time", slow * 1e3, "ms", words)
        words = f"one foot here, as warm, is {times(slow_warm / warm)} faster"
        yield Row(NAME, "SciPy trust-exact, from the pose 2 % away", slow_warm * 1e3, "ms", words)
    count = 64 if quick else 2000

    def whole() -> object:
        model = feet(count)
        return model, solve(model)

    yield memory_row(NAME, f"{count} feet", whole, "their constants and answers")
