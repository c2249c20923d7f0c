"""Bands and indices by other people's designs and estimators.

Problem 1: the 90 % band of a few measures of the standing sound foot. Referee: SciPy's scrambled Sobol points through its
truncated normal distributions, 1024 feet. Both are samples: the standard error of a quantile at 0.05 from 1024 draws is
0.007 in probability, about 0.06 deviations or 2 % of the band's width; 8 % is asked. Problem 2: total indices. Referee:
SALib's Saltelli sample and analysis on the same foot, 256 sets; shares agree to 0.1.
"""

import numpy as np
import pytest
from SALib.analyze import sobol as analyse
from SALib.sample import sobol as saltelli
from scipy.stats import qmc, truncnorm

from hoofsim.model import sweep
from hoofsim.verify.bands import carried
from hoofsim.verify.uncertainty import CASES, CUT, UNCERTAIN, possible

MEASURES = ("palmar_angle", "tendon_tension", "centre_of_pressure", "navicular_load")


def values_of(unit):
    """Values of every uncertain control from points (N, D) in the unit cube, by SciPy's distributions."""
    foot, values = CASES["standing"].foot, {}
    for column, one in enumerate(UNCERTAIN):
        centre = foot.values[one.name]
        low, high = max(-CUT, (one.low - centre) / one.spread), min(CUT, (one.high - centre) / one.spread)
        drawn = truncnorm.ppf(unit[:, column], low, high, loc=centre, scale=one.spread)
        values[one.name] = np.clip(drawn, one.low, one.high)
    return values


def read(unit):
    """Measures (N,) of the standing foot for those points; NaN where the values contradict each other."""
    values = values_of(unit)
    rows = possible(CASES["standing"].foot, values, np.arange(len(unit)))
    table = sweep(CASES["standing"].foot, {name: column[rows] for name, column in values.items()}, "standing")
    found = {}
    for name in MEASURES:
        found[name] = np.full(len(unit), np.nan)
        found[name][rows] = table[name]
    return found


def check_bands(found, bands):
    for name in MEASURES:
        one = bands[name]
        width = one.high - one.low
        low, high = np.nanpercentile(found[name], [5.0, 95.0])
        assert low == pytest.approx(one.low, abs=0.08 * width), name
        assert high == pytest.approx(one.high, abs=0.08 * width), name


@pytest.fixture(scope="module")
def by_scipy():
    return read(qmc.Sobol(len(UNCERTAIN), seed=7).random(1024))


def test_bands_agree_with_scipys_design(by_scipy):
    check_bands(by_scipy, carried()["standing"])


def test_a_band_of_another_case_is_seen(by_scipy):
    with pytest.raises(AssertionError):
        check_bands(by_scipy, carried()["other_lifted"])


def test_what_matters_most_agrees_with_salibs_analysis():
    problem = {
        "num_vars": len(UNCERTAIN),
        "names": [one.name for one in UNCERTAIN],
        "bounds": [[0, 1]] * len(UNCERTAIN),
    }
    unit = saltelli.sample(problem, 256, calc_second_order=False, seed=3)
    tension = read(np.clip(unit, 1e-6, 1 - 1e-6))["tendon_tension"]
    tension = np.where(np.isfinite(tension), tension, np.nanmean(tension))
    total = analyse.analyze(problem, tension, calc_second_order=False, seed=3)["ST"]
    ours = dict(carried()["standing"]["tendon_tension"].matter)
    first = max(ours, key=ours.get)
    assert problem["names"][int(np.argmax(total))] == first
    assert total[problem["names"].index(first)] == pytest.approx(ours[first], abs=0.1)
