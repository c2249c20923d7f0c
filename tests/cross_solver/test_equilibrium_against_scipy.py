"""The product's own minimiser against SciPy's, on the same energy, from fifty random starts.

Problem: the least potential energy of a loaded foot over its eleven freedoms. Referees: L-BFGS with the gradient, and the
trust region with exact subproblems with gradient and Hessian. Starts are spread 1.5 mm and 2 deg (standard deviations) about
the product's own first guess, 35 for the trust region and 15 for L-BFGS, which is slower. Asked: no referee ends lower than the product by more than 1e-6 of the energy scale (a lower
valley would mean the product reports a state that is not the one of least energy), and at least nine in ten trust-region
runs end within 1e-3 mm of it. L-BFGS stops on its own gradient test and is held to 0.05 mm and the same energy.
"""

import numpy as np
import pytest
from scipy.optimize import minimize

from hoofsim.mechanics import bodies
from hoofsim.mechanics.assembly import evaluate, no_history, slope
from hoofsim.mechanics.equilibrium import first_guess
from hoofsim.model import Foot

STARTS = {"trust-exact": 35, "L-BFGS-B": 15}
SCALE = bodies.scales()
CASES = {
    "sound foot standing": (Foot("sound"), "standing", None),
    "half the laminae, trot": (Foot("sound", laminae_percent=50), "trot", 50),
}


def problem(model):
    """Energy, gradient and Hessian over scaled freedoms (11,), all in N mm and mm."""
    worst = no_history(model)

    def both(x):
        energy, gradient = slope(model, (x * SCALE)[:, None], worst)
        return float(energy[0]), gradient[:, 0] * SCALE

    def hessian(x):
        return evaluate(model, (x * SCALE)[:, None], worst).hessian[:, :, 0] * np.outer(SCALE, SCALE)

    return both, hessian


def starts(model, method):
    count = STARTS[method]
    random = np.random.default_rng(count)
    return first_guess(model)[:, 0] / SCALE + random.normal(0.0, 1.2, (count, bodies.COUNT))


def ends(loaded, method, twist=None):
    """Energies (starts,) above the product's, and distances (starts,) mm from its pose."""
    both, hessian = problem(loaded.model)
    own = loaded.equilibrium.freedoms[:, 0] / SCALE
    if twist is not None:
        own = own + twist
    base = both(own)[0]
    quasi = method == "L-BFGS-B"
    options = {"maxiter": 3000, "gtol": 1e-7} | (
        {"maxfun": 6000, "ftol": 1e-16, "maxcor": 30} if quasi else {}
    )
    found = [
        minimize(both, start, jac=True, hess=None if quasi else hessian, method=method, options=options)
        for start in starts(loaded.model, method)
    ]
    return np.array([one.fun - base for one in found]), np.array([np.abs(one.x - own).max() for one in found])


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize(("method", "near"), [("trust-exact", 1e-3), ("L-BFGS-B", 0.05)])
def test_no_minimiser_finds_another_state_of_rest(name, method, near):
    foot, case, percent = CASES[name]
    loaded = foot.load(case, percent)
    above, away = ends(loaded, method)
    size = float(loaded.model.force[0])
    assert above.min() > -1e-6 * size
    assert np.mean(away < near) >= 0.9


def test_the_check_sees_a_state_that_is_not_the_least():
    loaded = Foot("sound").load("standing")
    twist = np.zeros(bodies.COUNT)
    twist[2] = 0.1
    above, away = ends(loaded, "trust-exact", twist)
    assert above.min() < -1e-6 * float(loaded.model.force[0])
    assert not np.mean(away < 1e-3) >= 0.9
