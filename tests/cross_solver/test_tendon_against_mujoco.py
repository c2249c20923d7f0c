"""The wrapped tendon against MuJoCo's: both are exact constructions in double precision, so they should agree to rounding.
Asked: 1e-4 mm of length and 1e-4 mm/rad of lever over 300 random poses; 1e-13 is usual. See the referee for the problem.
"""

import numpy as np
import pytest

from hoofsim.verify.referees.wrapped_tendon import POSES, by_engine, by_program, random_cases

TOLERANCE_MM = 1e-4


def test_length_and_levers_agree_over_300_random_poses():
    wrapped, poses = 0, 0
    for one, turns in random_cases():
        mine, wrap = by_program(one, turns)
        wrapped += np.count_nonzero(wrap > 0)
        poses += len(turns)
        np.testing.assert_allclose(mine, by_engine(one, turns), rtol=0, atol=TOLERANCE_MM)
    assert poses == POSES
    assert wrapped > 200


def wrong_sign(one, turns):
    return by_program(one, turns)[0] * [1.0, 1.0, -1.0]


def lost_navicular_lever(one, turns):
    return by_program(one, turns)[0] * [1.0, 0.0, 1.0]


def surface_instead_of_centre_line(one, turns):
    return by_program(one._replace(radius=one.radius - 3.0), turns)[0]


def arc_left_out(one, turns):
    rows, wrap = by_program(one, turns)
    return rows - np.stack([one.radius * wrap, 0 * wrap, 0 * wrap], axis=-1)


@pytest.mark.parametrize(
    "mutant", [wrong_sign, lost_navicular_lever, surface_instead_of_centre_line, arc_left_out]
)
def test_the_check_sees_a_wrong_path(mutant):
    one, turns = next(random_cases())
    with pytest.raises(AssertionError):
        np.testing.assert_allclose(mutant(one, turns), by_engine(one, turns), rtol=0, atol=TOLERANCE_MM)
