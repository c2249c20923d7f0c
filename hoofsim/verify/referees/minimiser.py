"""The program's own minimiser against SciPy's, on the same energy, from fifty random starts.

Problem: the least potential energy of a loaded foot over its eleven freedoms. Referees: the trust region with exact
subproblems (35 starts), and L-BFGS with the gradient (15 starts, which is slower). Starts are spread 1.2 mm and 2.3 deg
(standard deviations) about the program's own first guess. Both work in coordinates in which the Hessian at rest is the
identity, which changes the way there and not the place.
"""

import numpy as np

from hoofsim.frames import Array
from hoofsim.mechanics import bodies
from hoofsim.mechanics.assembly import evaluate, no_history, slope
from hoofsim.mechanics.equilibrium import first_guess
from hoofsim.model import Foot, LoadedFoot

STARTS = {"trust-exact": 35, "L-BFGS-B": 15}
SCALE = bodies.scales()


def ends(loaded: LoadedFoot, method: str, twist: Array | float = 0.0) -> tuple[Array, Array]:
    """Energies (starts,) above the program's in N mm, and distances (starts,) from its pose in mm; radians count 30 mm.

    `twist` (11,) moves the program's pose first, so that a test can show the referee a wrong one.
    """
    from scipy.optimize import minimize

    model, worst = loaded.model, no_history(loaded.model)
    own = loaded.equilibrium.freedoms[:, 0] + twist
    curvature = evaluate(model, own[:, None], worst).hessian
    to_pose = np.linalg.inv(np.linalg.cholesky(curvature[:, :, 0])).T

    def energy(z: Array) -> tuple[float, Array]:
        value, gradient = slope(model, (own + to_pose @ z)[:, None], worst)
        return float(value[0]), np.asarray(to_pose.T @ gradient[:, 0], dtype=np.float64)

    def hessian(z: Array) -> Array:
        found = evaluate(model, (own + to_pose @ z)[:, None], worst).hessian
        return np.asarray(to_pose.T @ found[:, :, 0] @ to_pose, dtype=np.float64)

    random = np.random.default_rng(STARTS[method])
    spread = random.normal(0.0, 1.2, (STARTS[method], bodies.COUNT)) * SCALE
    starts = np.linalg.solve(to_pose, (first_guess(model)[:, 0] + spread - own).T).T
    quasi = method == "L-BFGS-B"
    more = {"maxfun": 500, "ftol": 1e-15, "maxcor": 30} if quasi else {}
    options = {"maxiter": 300, "gtol": 1e-6, **more}
    found = [
        minimize(energy, start, jac=True, hess=None if quasi else hessian, method=method, options=options)
        for start in starts
    ]
    base = energy(np.zeros(bodies.COUNT))[0]
    away = [float(np.abs(to_pose @ one.x / SCALE).max()) for one in found]
    return np.array([one.fun - base for one in found]), np.array(away)


def deepest_valley() -> float:
    """How far below the program's energy any of 35 trust-region runs on the standing sound foot ended, N mm."""
    return max(0.0, -float(ends(Foot("sound").load("standing"), "trust-exact")[0].min()))
