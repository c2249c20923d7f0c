"""Weeks of growth, wear and trims against sums done by hand."""

import math

import numpy as np
import pytest

from hoofsim.errors import BadInput
from hoofsim.measures import measure_all
from hoofsim.model import Foot
from hoofsim.timeline.calendar import bearing_length, weeks
from hoofsim.timeline.rates import DAYS_PER_MONTH, KEEPINGS, WALL_GROWTH, keeping
from hoofsim.timeline.renewal import renewal_months
from hoofsim.timeline.trim import Trim, parse_trim


def test_a_month_of_growth_is_growth_less_wear():
    got = weeks(Foot("sound"), [0.0, DAYS_PER_MONTH], "shod").controls
    wear = KEEPINGS["shod"]
    assert got["toe_change_mm"][1] == pytest.approx(WALL_GROWTH.value - wear.toe_wear.value)
    upright = (WALL_GROWTH.value - wear.heel_wear.value) * math.sin(math.radians(45))
    assert got["heel_change_mm"][1] == pytest.approx(upright)
    assert got["toe_change_mm"][0] == 0.0


def test_growth_is_proportional_to_days():
    got = weeks(Foot("sound"), [10.0, 20.0, 40.0], "barefoot").controls["toe_change_mm"]
    np.testing.assert_allclose(got / got[0], [1.0, 2.0, 4.0])


def test_a_trim_acts_on_its_day_and_after():
    plain = weeks(Foot("sound"), [41, 42, 43]).controls
    cut = weeks(Foot("sound"), [41, 42, 43], trims=[Trim(42, wall_mm=5, heel_mm=2, sole_mm=1)]).controls
    for name, taken in (("toe_change_mm", 5.0), ("heel_change_mm", 2.0), ("sole_change_mm", 1.0)):
        np.testing.assert_allclose(plain[name] - cut[name], [0.0, taken, taken])


def palmar_angle_at_rest(foot):
    """Degrees, from the unloaded foot's landmarks on the ground."""
    return float(measure_all(foot.load("standing").rest_points)["palmar_angle"])


def trimmed(foot, trim):
    return weeks(foot, [0.0], "unworn", [trim], growth_mm_per_month=0.0).on(0.0)


def test_a_trim_that_keeps_the_plane_keeps_every_angle_at_rest():
    """A parallel cut moves the bearing plane along itself."""
    foot = Foot("sound")
    after = palmar_angle_at_rest(trimmed(foot, Trim(0, wall_mm=4.0)))
    assert after == pytest.approx(palmar_angle_at_rest(foot), abs=0.02)


@pytest.mark.parametrize("plane", [-2.0, 1.5, 3.0])
def test_a_turned_plane_turns_the_unloaded_foot_by_as_much(plane):
    foot = Foot("sound")
    turned = palmar_angle_at_rest(trimmed(foot, Trim(0, wall_mm=8.0, plane_deg=plane)))
    assert turned - palmar_angle_at_rest(foot) == pytest.approx(plane, abs=0.15)


def test_bearing_length_is_heel_to_toe():
    assert bearing_length(Foot("sound")) == pytest.approx(89.0 + 51.0, abs=1.0)


def test_renewal_takes_nine_to_twelve_months_at_the_middle_growth():
    assert renewal_months(Foot("sound")) == pytest.approx(88.5 / 7.6)


def test_only_the_direction_of_wear_is_published_and_it_comes_out():
    """R12: over seven weeks a shoe lowers the hoof angle and going barefoot raises it."""
    angle = {kept: weeks(Foot("sound"), [0, 49], kept).load()["hoof_angle"] for kept in ("shod", "barefoot")}
    assert np.diff(angle["shod"])[0] < 0 < np.diff(angle["barefoot"])[0]


def test_text_of_a_trim_is_read():
    assert parse_trim("42:wall=6,plane=1.5,sole=1") == Trim(42, wall_mm=6, plane_deg=1.5, sole_mm=1)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: parse_trim("wall=6"), "expected DAY:wall=MM"),
        (lambda: parse_trim("4:hoof=6"), "'hoof=6' is not one of wall"),
        (lambda: parse_trim("4:wall=six"), "'six' is not a number"),
        (lambda: Trim(-1), "day of 0 or later"),
        (lambda: Trim(1, wall_mm=99), "wall_mm = 99 mm: allowed 0 to 40 mm"),
        (lambda: Trim(1, heel_mm=1, plane_deg=1), "both heel_mm and plane_deg"),
        (lambda: Trim(1, plane_deg=20), "allowed -10 to 10 deg"),
        (lambda: keeping("shodd"), "did you mean 'shod'?"),
        (lambda: weeks(Foot("sound"), [0, 300]), "on day 300 toe_change_mm would be"),
        (lambda: weeks(Foot("sound"), [-1]), "days must be numbers of 0 or more"),
        (
            lambda: weeks(Foot("sound"), [1], growth_mm_per_month=50),
            "growth of 50 mm a month: allowed 0 to 19",
        ),
        (lambda: renewal_months(Foot("sound"), 0.0), "never renews a wall"),
    ],
)
def test_bad_input_is_told_in_words(call, words):
    with pytest.raises(BadInput, match=words.replace("(", r"\(").replace("?", r"\?")):
        call()


def test_day_not_in_the_calendar_is_refused():
    with pytest.raises(BadInput, match="day 3 is not in this calendar"):
        weeks(Foot("sound"), [0, 7]).on(3)
