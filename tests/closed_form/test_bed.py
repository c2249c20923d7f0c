"""A rigid body on an elastic bed.

Problem: a rigid plank of length L on n equal springs (stations) of stiffness k each, pressed by P at a distance e from its
middle. Solution (Winkler's bed, any text on beams on elastic foundations): settlement P / (n k), tilt P e / (k sum x^2), the
push of each station k (settlement + x tilt); as n grows, sum x^2 tends to n L^2 / 12 with an error of order 1 / n^2, and the
edge pressure to (P / L) (1 + 6 e / L). The program's contact law is linear with that stiffness once it is pressed by more
than its touching width, whose half it lags behind.
"""

import numpy as np
import pytest

from hoofsim.mechanics.elements.contact import TOUCH_WIDTH_MM, ContactConstants, contact
from tests.closed_form.seen_red import must_fail

LENGTH, FORCE, OFFSET, TOTAL = 140.0, 1422.0, 12.0, 9000.0


def middles(count):
    return LENGTH * ((np.arange(count) + 0.5) / count - 0.5)


def settle(push, count):
    """Depth and tilt at which `push(depth)` (stations,) balances P at e, by Newton with a numeric slope."""
    x, at = middles(count), np.array([1.0, 0.0])

    def unbalanced(at):
        force = push(at[0] + x * at[1])
        return np.array([force.sum() - FORCE, (force * x).sum() - FORCE * OFFSET])

    for _ in range(40):
        slope = np.array([unbalanced(at + step) - unbalanced(at) for step in 1e-6 * np.eye(2)]).T / 1e-6
        at = at - np.linalg.solve(slope, unbalanced(at))
    return at


def program(count):
    constants = ContactConstants(np.full(count, TOTAL / count), np.zeros(count))
    return lambda depth: -contact(-depth, np.zeros(count), constants).d_n


def check(law, count=7):
    x, stiffness = middles(count), TOTAL / count
    depth, tilt = settle(law(count), count)
    assert depth - 0.5 * TOUCH_WIDTH_MM == pytest.approx(FORCE / TOTAL, rel=1e-6)
    assert tilt == pytest.approx(FORCE * OFFSET / (stiffness * (x**2).sum()), rel=1e-6)
    wanted = stiffness * (FORCE / TOTAL + x * tilt)
    np.testing.assert_allclose(law(count)(depth + x * tilt), wanted, rtol=1e-6)


def test_settlement_tilt_and_push_of_every_station():
    check(program)


def test_the_lumped_bed_tends_to_the_continuous_one_at_second_order():
    """Rate: the tilt's error falls fourfold when the stations double."""
    exact = 12.0 * FORCE * OFFSET / (TOTAL * LENGTH**2)
    errors = [abs(settle(program(count), count)[1] / exact - 1.0) for count in (8, 16, 32, 64)]
    np.testing.assert_allclose(np.log2(np.array(errors[:-1]) / errors[1:]), 2.0, atol=0.05)


def test_edge_pressure():
    count = 400
    depth, tilt = settle(program(count), count)
    edge = program(count)(depth + middles(count) * tilt)[-1] * count / LENGTH
    assert edge == pytest.approx(FORCE / LENGTH * (1.0 + 6.0 * OFFSET / LENGTH), rel=2e-3)


def test_a_lifted_station_does_not_pull():
    assert (program(3)(np.array([-1.0, -0.1, 0.0])) == 0.0).all()


MUTANTS = {
    "wrong sign of the tilt": lambda count: lambda depth: program(count)(depth)[::-1],
    "half the stiffness": lambda count: lambda depth: 0.5 * program(count)(depth),
    "one station lost": lambda count: lambda depth: program(count)(depth) * (np.arange(count) != 0),
    "stiffening bed": lambda count: lambda depth: program(count)(depth) * (1.0 + 0.05 * depth),
}


@pytest.mark.parametrize("name", MUTANTS)
def test_seen_red(name):
    must_fail(check, MUTANTS[name])
