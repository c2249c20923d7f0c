"""The line through cases that are read with errors on both axes, and how often its interval holds the truth."""

import numpy as np
import pytest

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.claim import Trend, account_slope, trend
from hoofsim.claims.evidence.regression import FittedLine, fit_line
from hoofsim.claims.evidence.weighing import weigh
from hoofsim.claims.population import draw_feet
from tests.claims.evidence.tables import films

TABLES, CASES = 1000, 40


def test_without_errors_it_is_the_least_squares_line():
    random = np.random.default_rng(1)
    x = random.uniform(0.0, 15.0, 30)
    y = 2.0 - 0.7 * x + random.normal(0.0, 1.0, 30)
    line = fit_line(x, y, np.zeros(30), np.zeros(30))
    slope, intercept = np.polyfit(x, y, 1)
    assert line.slope == pytest.approx(slope)
    assert line.intercept == pytest.approx(intercept)


def test_reading_errors_do_not_flatten_it():
    random = np.random.default_rng(2)
    true = random.uniform(0.0, 10.0, 20_000)
    shared = random.normal(0.0, 2.0, 20_000)  # an error of the tip moves both axes
    line = fit_line(true + shared, -0.8 * true + 0.5 * shared, np.full(20_000, 4.0), np.full(20_000, 2.0))
    assert line.slope == pytest.approx(-0.8, abs=0.02)
    plain = fit_line(true + shared, -0.8 * true + 0.5 * shared, np.zeros(20_000), np.zeros(20_000))
    assert plain.slope > -0.6  # what an ordinary fit would say


def test_rotations_that_do_not_differ_have_no_slope():
    random = np.random.default_rng(3)
    x = random.normal(5.0, 1.0, 30)
    assert fit_line(x, x, np.ones(30), np.zeros(30)) is None
    assert fit_line(x[:3], x[:3], np.zeros(3), np.zeros(3)) is None


@pytest.mark.parametrize(
    ("account", "measure"), [("slide_through", "tip_to_frog"), ("carried_sole", "frog_to_toe")]
)
def test_the_95_percent_interval_holds_the_true_slope_in_93_to_97_of_100_tables(account, measure):
    """A thousand invented tables, read with 1 mm and 1 degree of error; the truth is the slope over all feet unread."""
    random = np.random.default_rng(4)
    feet = draw_feet(random, TABLES * CASES)
    change = ACCOUNTS[account].predict_change(feet, random.uniform(5.0, 15.0, TABLES * CASES))
    x, y = change["capsular_rotation"], change[measure]
    truth = np.polyfit(x, y, 1)[0]
    held = 0
    for table in range(TABLES):
        mine = slice(table * CASES, (table + 1) * CASES)
        noise = random.normal(size=(2, CASES))
        line = fit_line(x[mine] + noise[0], y[mine] + noise[1], np.ones(CASES), np.zeros(CASES))
        low, high = line.slope_band
        held += low <= truth <= high
    assert 0.93 <= held / TABLES <= 0.97


def test_the_band_of_the_line_is_narrowest_near_the_middle_and_holds_the_line():
    random = np.random.default_rng(5)
    x = random.uniform(0.0, 10.0, 25)
    line = fit_line(x, x + random.normal(size=25), np.full(25, 0.1), np.zeros(25))
    at = np.linspace(0.0, 10.0, 101)
    low, high = line.band(at)
    assert np.all(low < line.intercept + line.slope * at)
    assert 3.0 < at[np.argmin(high - low)] < 7.0


def table_trend(account, measure, **more):
    return trend(weigh(paired(films(account, 40, seed=6, error=0.7, **more), "t")), measure)


def test_an_account_that_makes_no_rotation_in_the_capsule_foretells_no_slope():
    slopes = table_trend("slide_through", "tip_to_frog").slopes
    assert slopes["sinking"] is None
    assert slopes["tipped_foot"] is None
    assert slopes["slide_through"] == pytest.approx(-0.73, abs=0.05)
    assert slopes["carried_sole"] == pytest.approx(0.0, abs=1e-9)


def test_the_slope_of_an_account_is_its_own_chord():
    feet = [{name: xy[0] for name, xy in draw_feet(np.random.default_rng(1), 1).items()}]
    rotations = np.array([0.0, 10.0])
    change = ACCOUNTS["slide_through"].predict_change(feet[0], 10.0)
    slope = account_slope(ACCOUNTS["slide_through"], "tip_to_frog", feet, rotations)
    assert slope == pytest.approx(float(change["tip_to_frog"]) / 10.0, abs=0.005)


def made_trend(slope_error, count, **slopes):
    line = FittedLine(0.0, -0.5, np.diag([0.1, slope_error**2]), count)
    nothing = np.zeros(count)
    return Trend("tip_to_frog", ("",) * count, nothing, nothing, nothing, nothing, line, slopes)


def test_power_is_the_share_of_tables_that_would_exclude_the_other_slope():
    found = made_trend(0.2, 20, slide_through=-0.7, carried_sole=0.0, flared_wall=0.001, sinking=None)
    draws = np.random.default_rng(7).normal(0.7, 0.2, 400_000)
    share = np.mean(np.abs(draws) > found.line.factor * 0.2)
    assert 0.85 < share < 0.95
    assert found.power("slide_through", "carried_sole") == pytest.approx(share, abs=0.003)
    assert found.power("slide_through", "sinking") is None


def test_the_cases_needed_bring_the_power_to_nine_in_ten():
    weak = made_trend(0.5, 20, slide_through=-0.7, carried_sole=0.0, flared_wall=0.001)
    needed = weak.cases_needed("slide_through", "carried_sole")
    enough = made_trend(0.5 * np.sqrt(20 / needed), needed, slide_through=-0.7, carried_sole=0.0)
    assert enough.power("slide_through", "carried_sole") == pytest.approx(0.9, abs=0.01)
    assert weak.cases_needed("carried_sole", "flared_wall") is None  # both leave tip-to-frog as it was
