"""The lumped laminae against finite elements; see the referee for the problem and its solutions.

Asked: square to 1e-9; along to half a thickness of strip (the free ends, 7 % here), from above; turning to 18 points instead
of a line (1 / 18^2 = 0.3 %) and the strip's own shear, which is bounded by G L t / 3, from below: 5 % here. What lumping
leaves out is stated too: tissue that cannot shrink sideways is stiffer.
"""

import numpy as np
import pytest

from hoofsim.verify.referees.lamellar_strip import by_finite_elements, by_program, slide, stretch, turn


@pytest.fixture(scope="module")
def parts():
    return by_program()


def check_normal(strip, stations):
    assert stations.sum() == pytest.approx(by_finite_elements(strip, stretch), rel=1e-9)


def check_shear(strip, stations):
    lost = 1.0 - by_finite_elements(strip, slide) / stations.sum()
    assert 0.0 < lost < 0.5 * strip.thickness / strip.length


def check_turning(strip, stations):
    at = strip.length * ((np.arange(stations.size) + 0.5) / stations.size - 0.5)
    lumped, found = (stations * at**2).sum(), by_finite_elements(strip, turn)
    own_shear = strip.width * strip.shear * strip.length * strip.thickness / 3.0
    assert 0.997 * lumped < found < 1.004 * lumped + own_shear
    assert lumped == pytest.approx(found, rel=0.05)


@pytest.mark.parametrize(("check", "which"), [(check_normal, 1), (check_shear, 2), (check_turning, 1)])
def test_the_stations_are_the_strip(parts, check, which):
    check(parts[0], parts[which])


def test_the_shear_shortfall_is_an_end_effect_of_first_order_in_thickness_over_length(parts):
    """Rate: with the strip twice as long, the share of stiffness that the free ends lose halves."""
    strip, lost = parts[0], []
    for factor in (1, 2, 4):
        longer = strip._replace(length=factor * strip.length)
        full = longer.shear * longer.length * longer.width / longer.thickness
        lost.append(1.0 - by_finite_elements(longer, slide, across=60 * factor) / full)
    rates = np.log2(np.array(lost[:-1]) / np.array(lost[1:]))
    np.testing.assert_allclose(rates, 1.0, atol=0.1)


def test_tissue_that_cannot_shrink_sideways_is_stiffer_than_the_lumped_strip(parts):
    """What the model leaves out: with a coupling of 0.45 the strip gains up to a quarter in this plane."""
    held = by_finite_elements(parts[0], stretch, coupling=0.45)
    assert 1.05 < held / parts[1].sum() < 1.0 / (1.0 - 0.45**2)


def a_hundredth_too_stiff(strip, k):
    return 1.01 * k


def one_station_lost(strip, k):
    return k * (np.arange(k.size) > 0)


def wrong_modulus(strip, k):
    return k * strip.modulus / strip.shear


def wrong_sign(strip, k):
    return -k


def half_the_lever_lost(strip, k):
    return np.where(np.arange(k.size) < k.size / 2, k, 0.0)


@pytest.mark.parametrize(
    ("check", "which", "mutant"),
    [
        (check_normal, 1, a_hundredth_too_stiff),
        (check_normal, 1, one_station_lost),
        (check_shear, 2, wrong_modulus),
        (check_shear, 2, wrong_sign),
        (check_turning, 1, half_the_lever_lost),
    ],
)
def test_the_checks_see_a_wrong_strip(parts, check, which, mutant):
    with pytest.raises(AssertionError):
        check(parts[0], mutant(parts[0], parts[which]))
