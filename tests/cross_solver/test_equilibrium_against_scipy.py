"""The product's own minimiser against SciPy's, on the same energy, from fifty random starts.

Problem: the least potential energy of a loaded foot over its eleven freedoms. Referees: L-BFGS with the gradient, and the
trust region with exact subproblems with gradient and Hessian. Starts are spread 1.2 mm and 2.3 deg (standard deviations)
about the product's own first guess, 35 for the trust region and 15 for L-BFGS. Both work in coordinates in which the
Hessian at rest is the identity, which changes the way there and not the place.

Asked: no referee ends lower than the product by more than 1e-6 of the energy scale (a lower valley would mean that the
product reports a state that is not the one of least energy), and at least nine in ten end beside it: within 1e-3 mm by the
trust region, and within 0.05 mm by L-BFGS, which stops on its own test of the gradient.
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


def ends(loaded, method, twist=0.0):
    """Energies (starts,) above the product's in N mm, and distances (starts,) from its pose in mm; radians count 30 mm."""
    model, worst = loaded.model, no_history(loaded.model)
    own = loaded.equilibrium.freedoms[:, 0] + twist
    to_pose = np.linalg.inv(np.linalg.cholesky(evaluate(model, own[:, None], worst).hessian[:, :, 0])).T

    def energy(z):
        value, gradient = slope(model, (own + to_pose @ z)[:, None], worst)
        return float(value[0]), to_pose.T @ gradient[:, 0]

    def hessian(z):
        return to_pose.T @ evaluate(model, (own + to_pose @ z)[:, None], worst).hessian[:, :, 0] @ to_pose

    random = np.random.default_rng(STARTS[method])
    spread = random.normal(0.0, 1.2, (STARTS[method], bodies.COUNT)) * SCALE
    starts = np.linalg.solve(to_pose, (first_guess(model)[:, 0] + spread - own).T).T
    quasi = method == "L-BFGS-B"
    options = {"maxiter": 2000, "gtol": 1e-8} | (
        {"maxfun": 4000, "ftol": 1e-16, "maxcor": 30} if quasi else {}
    )
    found = [
        minimize(energy, start, jac=True, hess=None if quasi else hessian, method=method, options=options)
        for start in starts
    ]
    base = energy(np.zeros(bodies.COUNT))[0]
    away = [np.abs(to_pose @ one.x / SCALE).max() for one in found]
    return np.array([one.fun - base for one in found]), np.array(away)


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize(("method", "near"), [("trust-exact", 1e-3), ("L-BFGS-B", 0.05)])
def test_no_minimiser_finds_another_state_of_rest(name, method, near):
    foot, case, percent = CASES[name]
    loaded = foot.load(case, percent)
    above, away = ends(loaded, method)
    assert above.min() > -1e-6 * float(loaded.model.force[0])
    assert np.mean(away < near) >= 0.9


def test_the_check_sees_a_state_that_is_not_the_least():
    loaded = Foot("sound").load("standing")
    twist = np.zeros(bodies.COUNT)
    twist[2] = 0.1 * SCALE[2]
    above, away = ends(loaded, "trust-exact", twist)
    assert above.min() < -1e-6 * float(loaded.model.force[0])
    assert not np.mean(away < 1e-3) >= 0.9
