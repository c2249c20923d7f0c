"""A tendon round a pulley.

Problem: a cable runs from a fixed point at distance a from the centre of a circle of radius r, round the circle, to a point
at distance b from it; the angle between the two directions, on the side of the cable, is theta. Solution (elementary
geometry): length sqrt(a^2 - r^2) + sqrt(b^2 - r^2) + r (theta - arccos(r / a) - arccos(r / b)); when the circle's centre is
the joint and the far point turns about it, the lever is r exactly, whatever the pose; about another joint it is the distance
of the far tangent's line from it, and in every case -dL/dq. Source: wrapping of muscles round cylinders, any text on
biomechanics.
"""

import numpy as np
import pytest

from hoofsim.mechanics.wrapping import path
from tests.closed_form.seen_red import must_fail

RADIUS = 11.5


def turned(point, turn):
    c, s = np.cos(turn), np.sin(turn)
    return np.array([c * point[0] + s * point[1], -s * point[0] + c * point[1]])


def program(origin, centre, insertion, turn):
    """Length and its derivative by the insertion's turn."""
    found = path(
        np.array(origin),
        np.array(centre),
        np.array(insertion),
        np.array(RADIUS),
        np.array(0.0),
        np.array(turn),
    )
    return float(found.length), float(found.d_p3)


def by_hand(origin, centre, insertion, turn):
    upper, lower = np.array(origin) - centre, turned(insertion, turn) - centre
    a, b = np.hypot(*upper), np.hypot(*lower)
    theta = (np.arctan2(lower[1], lower[0]) - np.arctan2(upper[1], upper[0])) % (2 * np.pi)
    arc = theta - np.arccos(RADIUS / a) - np.arccos(RADIUS / b)
    assert arc > 0
    return np.sqrt(a**2 - RADIUS**2) + np.sqrt(b**2 - RADIUS**2) + RADIUS * arc


ANATOMY = ((-60.0, 43.6), (-13.0, -18.4), (6.1, -31.8))
TURNS = np.linspace(-0.35, 0.2, 12)


def check(law):
    for turn in TURNS:
        assert law(*ANATOMY, turn)[0] == pytest.approx(by_hand(*ANATOMY, turn), abs=1e-10)
        step = 1e-5
        slope = (by_hand(*ANATOMY, turn + step) - by_hand(*ANATOMY, turn - step)) / (2 * step)
        assert law(*ANATOMY, turn)[1] == pytest.approx(slope, abs=1e-6)
    for turn in (-0.3, -0.1, 0.1):
        # The circle is the joint itself: the lever is its radius, and a turn that flexes (positive) shortens the path.
        assert law((-60.0, 43.6), (0.0, 0.0), (25.0, -30.0), turn)[1] == pytest.approx(-RADIUS, abs=1e-10)


def test_length_and_lever():
    check(program)


def test_the_difference_quotient_converges_on_the_lever_at_second_order():
    """Rate: a central difference's error falls fourfold when its step halves."""
    lever, errors = program(*ANATOMY, 0.05)[1], []
    for step in (0.08, 0.04, 0.02):
        high, low = program(*ANATOMY, 0.05 + step)[0], program(*ANATOMY, 0.05 - step)[0]
        errors.append(abs((high - low) / (2 * step) - lever))
    np.testing.assert_allclose(np.log2(np.array(errors[:-1]) / errors[1:]), 2.0, atol=0.1)


def test_a_path_that_clears_the_arc_is_straight():
    length, _ = program((-60.0, 43.6), (40.0, 30.0), (6.1, -31.8), 0.0)
    assert length == pytest.approx(np.hypot(66.1, 75.4), abs=1e-12)


MUTANTS = {
    "wrong sign of the lever": lambda *a: (program(*a)[0], -program(*a)[1]),
    "lever of the straight line": lambda o, c, i, t: (
        program(o, c, i, t)[0],
        program(o, (60.0, 60.0), i, t)[1],
    ),
    "arc lost": lambda o, c, i, t: (program(o, c, i, t)[0] - 5.0, program(o, c, i, t)[1]),
    "turned the wrong way": lambda o, c, i, t: program(o, c, i, -t),
}


@pytest.mark.parametrize("name", MUTANTS)
def test_seen_red(name):
    must_fail(check, MUTANTS[name])
