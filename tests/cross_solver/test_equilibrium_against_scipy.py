"""The program's minimiser against SciPy's, from fifty random starts; see the referee for the problem.

Asked: no run ends lower than the program by more than 1e-6 of the energy scale (a lower valley would mean that the program
reports a state that is not the one of least energy), and at least nine in ten end beside it: within 1e-3 mm by the trust
region, and within 0.05 mm by L-BFGS, which stops on its own test of the gradient.
"""

import numpy as np
import pytest

from hoofsim.mechanics import bodies
from hoofsim.model import Foot
from hoofsim.verify.referees.minimiser import SCALE, STARTS, ends

CASES = {
    "sound foot standing": (Foot("sound"), "standing", None),
    "half the laminae, trot": (Foot("sound", laminae_percent=50), "trot", 50),
}


def agree(loaded, method, near, twist=0.0):
    above, away = ends(loaded, method, twist)
    assert above.size == STARTS[method]
    assert above.min() > -1e-6 * float(loaded.model.force[0])
    assert np.mean(away < near) >= 0.9


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize(("method", "near"), [("trust-exact", 1e-3), ("L-BFGS-B", 0.05)])
def test_no_minimiser_finds_another_state_of_rest(name, method, near):
    foot, case, percent = CASES[name]
    agree(foot.load(case, percent), method, near)


def test_fifty_starts_in_all():
    assert sum(STARTS.values()) == 50


def test_the_check_sees_a_state_that_is_not_the_least():
    twist = np.zeros(bodies.COUNT)
    twist[2] = 0.1 * SCALE[2]
    with pytest.raises(AssertionError):
        agree(Foot("sound").load("standing"), "trust-exact", 1e-3, twist)
