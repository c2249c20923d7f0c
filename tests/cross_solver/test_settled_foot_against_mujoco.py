"""The whole loaded foot, settled under gravity in a second engine, against the product's equilibrium.

Problem: eleven freedoms, every bond, tendon, ligament and ground contact of one foot. Referee: the same foot in MuJoCo
(`hoofsim.verify.referees.settled_foot`), with its own kinematics, tendon paths and time stepping, and the tissues' laws
written a second time; it falls from the unloaded pose until nothing moves. Asked: 0.05 mm, 0.05 deg, 0.5 % of the tendon's
tension and of the ground's force. Both end at the same balance of forces to rounding, so anything above 1e-5 mm would
already be a difference of models; the tolerance is what a reader would ever notice. Feet whose bonds let go are left
out: tearing depends on the path.
"""

import numpy as np
import pytest

from hoofsim.mechanics import stations as places
from hoofsim.model import Foot
from hoofsim.verify.referees.settled_foot import Settling

TURNS = [2, 3, 6, 9, 10]
CASES = {
    "sound, standing": (Foot("sound"), "standing", None),
    "heels raised 8 mm, standing": (Foot("sound", heel_change_mm=8), "standing", None),
    "long toe, low heel, at walk's breakover": (Foot("long_toe_low_heel"), "walk", 84),
    "pony, other foot lifted": (Foot("pony"), "other_lifted", None),
    "wedge of 6 deg, trot": (Foot("sound", wedge_deg=6), "trot", 50),
    "rotated foot, standing": (Foot("failed_laminae"), "standing", None),
    "a quarter of the laminae left": (Foot("sound", laminae_percent=25, quarters_percent=40), "other_lifted", None),
    "tendon cut": (Foot("sound", tendon_cut=1), "standing", None),
}  # fmt: skip


def agree(loaded, settled):
    """Raise AssertionError unless poses, tension and ground agree within what is asked."""
    difference = settled.freedoms() - loaded.equilibrium.freedoms[:, 0]
    difference[TURNS] = np.degrees(difference[TURNS])
    np.testing.assert_allclose(difference, 0.0, atol=0.05)
    tension = loaded.measures()["tendon_tension"]
    assert settled.tension(0) == pytest.approx(tension, rel=0.005, abs=0.5)
    ground = loaded.forces["ground"]
    force, moment = settled.ground()
    size = np.linalg.norm(ground.force)
    np.testing.assert_allclose(force, ground.force, atol=0.005 * size)
    own = ground.at[0] * ground.force[1] - ground.at[1] * ground.force[0]
    assert moment == pytest.approx(own, abs=0.05 * size)


@pytest.mark.parametrize("name", CASES)
def test_the_settled_foot_is_the_equilibrium(name):
    foot, case, percent = CASES[name]
    loaded = foot.load(case, percent)
    assert loaded.status == "converged"
    settled = Settling(loaded.model)
    settled.settle()
    agree(loaded, settled)


def lose_the_sole_junction(settled):
    gone = next(place for place in settled.stations if len(place.local) == places.COUNTS["junction"])
    gone.law = lambda n, t: (0.0 * n, 0.0 * t)


def turn_a_sign(settled):
    laminae = next(place for place in settled.stations if len(place.local) == places.COUNTS["laminae"])
    right = laminae.law
    laminae.law = lambda n, t: (right(n, t)[0], -right(n, t)[1])


def shorten_a_lever(settled):
    site = settled.engine.site("insertion").id
    settled.engine.site_pos[site, 2] += 4.0


def soften_the_tendon(settled):
    stiffness, slack, tone = settled.lines[0]
    settled.lines[0] = (0.8 * stiffness, slack, tone)


@pytest.mark.parametrize("mutate", [lose_the_sole_junction, turn_a_sign, shorten_a_lever, soften_the_tendon])
def test_the_check_sees_a_wrong_foot(mutate):
    loaded = Foot("sound").load("other_lifted")
    settled = Settling(loaded.model)
    mutate(settled)
    settled.settle(rounds=4)
    with pytest.raises(AssertionError):
        agree(loaded, settled)
