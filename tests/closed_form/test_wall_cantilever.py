"""The dorsal wall as a cantilever.

Problem: a strip of horn of length L clamped at its root carries P at its end, square to it. Solution (Euler and Bernoulli):
deflection P L^3 / (3 E I). The program gives the wall one hinge; a hinge of stiffness K and arm L deflects P L / K * L, so K
must be 3 E I / L. A strip bent across its width to a shallow parabola of rise f gains w t times the mean square height about
its own mean, 4 f^2 / 45 of the rise squared; the flat strip is w t^3 / 12.
"""

import numpy as np
import pytest

from hoofsim.mechanics.elements.spring import cantilever_stiffness, curved_strip
from tests.closed_form.seen_red import must_fail

MODULUS, WIDTH, THICKNESS, RISE, LENGTH, FORCE = 762.0, 64.0, 8.5, 12.0, 74.0, 100.0


def program(modulus, width, thickness, rise, length):
    second = curved_strip(np.array(width), np.array(thickness), np.array(rise))
    return float(cantilever_stiffness(np.array(modulus), second, np.array(length)))


def by_beam(modulus, width, thickness, rise, length, segments=2000):
    """End deflection by integrating the curvature P (L - x) / (E I) twice, and I by summing over the section's width."""
    across = (np.arange(4000) + 0.5) / 4000 * 2 - 1
    height = rise * (1 - across**2)
    second = width * (thickness**3 / 12 + thickness * height.var())
    x = (np.arange(segments) + 0.5) * length / segments
    step = length / segments
    return float((FORCE * (length - x) / (modulus * second) * (length - x)).sum() * step)


def check(law):
    for rise in (0.0, RISE):
        for length in (LENGTH, 1.5 * LENGTH):
            hinge = law(MODULUS, WIDTH, THICKNESS, rise, length)
            deflection = FORCE * length / hinge * length
            assert deflection == pytest.approx(by_beam(MODULUS, WIDTH, THICKNESS, rise, length), rel=1e-4)


def test_a_hinge_deflects_as_the_beam_does():
    check(program)


def test_the_summed_beam_converges_at_second_order():
    """Rate: the midpoint rule's error falls fourfold when the segments double."""
    hinge = program(MODULUS, WIDTH, THICKNESS, 0.0, LENGTH)
    exact = FORCE * LENGTH**2 / hinge
    errors = [abs(by_beam(MODULUS, WIDTH, THICKNESS, 0.0, LENGTH, n) - exact) for n in (10, 20, 40)]
    np.testing.assert_allclose(np.log2(np.array(errors[:-1]) / errors[1:]), 2.0, atol=0.05)


MUTANTS = {
    "stiffness of a beam without its third": lambda e, w, t, f, length: program(e, w, t, f, length) / 3,
    "lever lost": lambda e, w, t, f, length: program(e, w, t, f, length) * length,
    "curve of the strip lost": lambda e, w, t, f, length: program(e, w, t, 0.0, length),
    "wrong sign": lambda e, w, t, f, length: -program(e, w, t, f, length),
}


@pytest.mark.parametrize("name", MUTANTS)
def test_seen_red(name):
    must_fail(check, MUTANTS[name])
