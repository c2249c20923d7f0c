"""Feet whose bones were torn far out of the horn can still be drawn, whichever way they went."""

from random import Random

import numpy as np
import pytest

from hoofsim.drawing.foot_picture import foot_picture
from hoofsim.errors import BadInput
from hoofsim.foot.parameters import PARAMETERS
from hoofsim.foot.presets import PRESETS
from hoofsim.mechanics.loads import CASES
from hoofsim.model import Foot

# The bone above no frog, and the whole tendon below the heel bulbs: a random sitting came upon the like of each.
FOUND = (
    ("walk", {"quarters_percent": 10.0, "solar_dermis_modulus_mpa": 0.05, "healed_sole_follows_percent": 100.0,
              "tip_to_frog_mm": 20.345548313176348, "palmar_angle_deg": -4.0, "tendon_pull_percent": 300.0,
              "frog_modulus_mpa": 80.0, "sole_to_bone_percent": 71.47444697321964, "laminae_percent": 10.0,
              "tendon_tone_n": 2000.0}),
    ("trot", {"tendon_cut": 0.0, "breakover_setback_mm": 35.0, "palmar_angle_deg": -4.0,
              "sole_to_bone_percent": 5.0, "quarters_percent": 0.0, "tendon_tone_n": 2000.0}),
)  # fmt: skip


def points_of(picture):
    return np.concatenate(
        [np.atleast_2d(item.points) for item in picture.primitives() if hasattr(item, "points")]
    )


@pytest.mark.parametrize(("case", "values"), FOUND)
def test_feet_that_once_could_not_be_drawn(case, values):
    loaded = Foot("long_toe_low_heel", **values).load(case)
    assert loaded.at_rest
    assert np.hypot(*(loaded.points["tip"] - loaded.rest_points["tip"])) > 10.0
    assert np.isfinite(points_of(foot_picture(loaded))).all()


def test_any_loosened_foot_at_rest_can_be_drawn():
    chance = Random(11)
    drawn = 0
    for _ in range(120):
        values = {one.name: chance.choice((one.low, one.high)) for one in chance.sample(PARAMETERS, 6)}
        values |= {name: chance.choice((0.0, 10.0)) for name in ("laminae_percent", "sole_to_bone_percent")}
        values |= {"tendon_tone_n": chance.choice((0.0, 2000.0)), "tendon_pull_percent": 300.0}
        try:
            loaded = Foot(chance.choice(list(PRESETS)), **values).load(chance.choice(list(CASES)))
        except BadInput:  # values that contradict each other
            continue
        if loaded.at_rest:
            drawn += 1
            assert np.isfinite(points_of(foot_picture(loaded))).all()
    assert drawn > 25
