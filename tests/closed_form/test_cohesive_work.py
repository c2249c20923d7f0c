"""Tearing a bond takes the area under its curve.

Problem: a bond of unit area is pulled open until it carries nothing. Solution: the energy that the law has taken up equals
the integral of its traction, in pieces: the J-shaped rise to the peak, then the cubic fall, whose mean is half the strength
over its span (the integral of 1 - 3 x^2 + 2 x^3 from 0 to 1 is 1/2); after tearing nothing is given back, and unloading on
the way follows the damaged rise. Source: cohesive-zone models, work of separation (any text on fracture mechanics).
"""

import numpy as np
import pytest
from scipy.integrate import quad

from hoofsim.mechanics.elements.bond import BondConstants, bond, damage, peak_strain
from tests.closed_form.seen_red import must_fail

SMALL, LARGE, KNEE, STRENGTH, RUPTURE, THICKNESS = (np.array(v) for v in (0.15, 7.58, 0.12, 2.2, 0.6, 7.0))
PEAK = peak_strain(SMALL, LARGE, KNEE, STRENGTH)
C = BondConstants(SMALL, LARGE, KNEE, STRENGTH, RUPTURE, THICKNESS, np.array(1.0), np.array(1.0), PEAK)
FRESH = np.array(0.0)


def program(opening, worst=FRESH):
    """Energy and traction at an opening in mm."""
    law = bond(np.asarray(opening), np.zeros_like(opening), worst, C, two_sided=True)
    return law.energy, law.d_n


def rising(strain):
    """The rise by hand: both moduli, and the knee's smooth step integrated twice over its width."""
    t = np.clip((strain - KNEE / 2) / KNEE, 0.0, 1.0)
    ramp = KNEE * (t**3 - 0.5 * t**4) + max(float(strain - 1.5 * KNEE), 0.0)
    return SMALL * strain + (LARGE - SMALL) * ramp


def check(law):
    rise = quad(lambda e: float(rising(e)), 0.0, float(PEAK), epsabs=1e-12)[0]
    fall = 0.5 * STRENGTH * (RUPTURE - PEAK)
    for opening in (0.5 * PEAK * THICKNESS, PEAK * THICKNESS):
        by_area = (
            THICKNESS * quad(lambda e: float(rising(e)), 0.0, float(opening / THICKNESS), epsabs=1e-12)[0]
        )
        assert law(opening)[0] == pytest.approx(float(by_area), rel=1e-7)
    torn = law(RUPTURE * THICKNESS * 1.2)
    assert torn[0] == pytest.approx(float(THICKNESS * (rise + fall)), rel=1e-7)
    assert abs(torn[1]) < 1e-9
    own_area = quad(lambda n: float(law(n)[1]), 0.0, float(RUPTURE * THICKNESS), epsabs=1e-10, limit=400)[0]
    assert torn[0] == pytest.approx(own_area, rel=1e-6)


def test_work_of_separation_is_the_area_under_the_curve():
    check(program)


def test_the_trapezium_rule_converges_on_that_area_at_second_order():
    """Rate: halving the step quarters the error, since the curve's slope is continuous but for the peak."""
    work = float(program(RUPTURE * THICKNESS)[0])
    errors = []
    for count in (200, 400, 800):
        openings = np.linspace(0.0, float(RUPTURE * THICKNESS), count + 1)
        errors.append(abs(np.trapezoid([float(program(n)[1]) for n in openings], openings) - work))
    assert np.log2(errors[0] / errors[2]) / 2 > 1.5


def test_unloading_follows_the_damaged_rise_and_gives_back_only_that():
    worst = np.array(0.5 * (PEAK + RUPTURE))
    left = 1.0 - damage(worst, C)
    half = 0.5 * PEAK
    assert program(half * THICKNESS, worst)[1] == pytest.approx(float(left * rising(half)), rel=1e-9)


MUTANTS = {
    "wrong sign": lambda n: tuple(-part for part in program(n)),
    "softening lost from the energy": lambda n: (program(min(n, PEAK * THICKNESS))[0], program(n)[1]),
    "thickness lost": lambda n: (program(n)[0] / THICKNESS, program(n)[1]),
    "a tenth too strong": lambda n: (1.1 * program(n)[0], 1.1 * program(n)[1]),
}


@pytest.mark.parametrize("name", MUTANTS)
def test_seen_red(name):
    must_fail(check, MUTANTS[name])
