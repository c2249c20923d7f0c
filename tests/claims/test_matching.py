"""Matching a case: a known foot is found again, and what the readings cannot fix is said and not invented."""

import numpy as np
import pytest

from hoofsim.claims.matching import USUAL_CONTROLS, checked_measures, match
from hoofsim.claims.matching_words import control_rows, fit_sentence, loose_sentences
from hoofsim.errors import BadInput
from hoofsim.model import Foot

MEASURED = ("hoof_angle", "capsular_rotation", "phalangeal_rotation", "palmar_angle", "founder_distance",
            "wall_to_bone_proximal", "wall_to_bone_distal", "sole_depth_tip", "tip_to_frog", "frog_to_toe",
            "toe_to_cor")  # fmt: skip
TRUE = {"healed_rotation_deg": 7.0, "hoof_angle_deg": 54.0, "heel_change_mm": 6.0, "toe_change_mm": 8.0}


def readings(names, error=0.5, **changes):
    found = Foot("sound", **changes).load("standing").measures()
    return np.array([found[name] for name in names]), np.eye(len(names)) * error**2


def test_a_foot_that_the_readings_fix_is_found_again():
    values, covariance = readings(MEASURED, **TRUE)
    found = match(MEASURED, values, covariance, tuple(TRUE))
    for name, value in TRUE.items():
        assert abs(found.values[name] - value) < max(0.3 * found.errors[name], 0.05), name
        assert found.fixed(name)
    assert found.misfit < 0.1
    assert found.reproduced["tip_to_frog"] == pytest.approx(found.wanted["tip_to_frog"], abs=0.2)
    assert "reproduces the readings" in fit_sentence(found)
    assert loose_sentences(found) == [
        "The readings fix every control that was varied, within the errors shown."
    ]


def test_errors_shown_are_those_of_refitting_noisy_readings():
    values, covariance = readings(MEASURED, **TRUE)
    random = np.random.default_rng(5)
    fits = [
        match(MEASURED, values + 0.5 * random.normal(size=len(values)), covariance, tuple(TRUE))
        for _ in range(20)
    ]
    for name in TRUE:
        spread = np.std([one.values[name] for one in fits])
        assert fits[0].errors[name] == pytest.approx(spread, rel=0.5), name


def test_a_control_that_no_reading_sees_is_said_to_be_free():
    values, covariance = readings(("hoof_angle", "palmar_angle"))
    found = match(("hoof_angle", "palmar_angle"), values, covariance, ("hoof_angle_deg", "tip_to_frog_mm"))
    assert not found.fixed("tip_to_frog_mm")
    assert found.fixed("hoof_angle_deg")
    assert any("Not fixed by the readings: 'tip_to_frog_mm'" in line for line in loose_sentences(found))
    assert {row[0]: row[2] for row in control_rows(found)}["tip_to_frog_mm"] == "not fixed"
    assert found.values["tip_to_frog_mm"] == pytest.approx(10.0, abs=0.1)  # left where it was


def test_two_controls_that_do_the_same_are_only_fixed_together():
    """Healed rotation and the bone's own palmar angle cannot be told apart by the palmar angle alone."""
    values, covariance = readings(("palmar_angle",), palmar_angle_deg=7.0)
    found = match(("palmar_angle",), values, covariance, ("palmar_angle_deg", "healed_rotation_deg"))
    (loose,) = found.loose
    assert set(loose.weights) == {"palmar_angle_deg", "healed_rotation_deg"}
    assert loose.weights["palmar_angle_deg"] * loose.weights["healed_rotation_deg"] < 0
    assert "a common change of" in loose_sentences(found)[0]
    assert found.misfit < 0.1


def test_readings_that_no_foot_of_these_controls_gives_are_said_not_to_fit():
    values, covariance = readings(MEASURED)
    values[MEASURED.index("capsular_rotation")] += 12.0
    found = match(MEASURED, values, covariance, ("heel_change_mm", "toe_change_mm"))
    assert found.fit < 0.01
    assert fit_sentence(found).startswith("No foot of these controls reproduces")


def test_a_control_at_the_end_of_its_range_is_named():
    values, covariance = readings(("tip_to_frog",), error=0.2, tip_to_frog_mm=5.0)
    found = match(("tip_to_frog",), values - 4.0, covariance, ("tip_to_frog_mm",))
    assert found.at_limit == ("tip_to_frog_mm",)
    assert "'tip_to_frog_mm' stands at the end" in " ".join(loose_sentences(found))


def test_feet_that_contradict_themselves_on_the_way_do_not_stop_it():
    names = ("capsular_rotation", "tip_to_frog", "sole_depth_tip")
    found = match(names, np.array([8.0, 6.0, 9.0]), np.eye(3))
    assert found.misfit < 0.1
    assert set(found.values) == set(USUAL_CONTROLS)


@pytest.mark.parametrize(
    ("controls", "words"),
    [(("heel_chang_mm",), "heel_change_mm"), (("tendon_cut",), "is a switch"), ((), "allowed 1 to 16")],
)
def test_controls_that_cannot_be_varied_are_refused(controls, words):
    with pytest.raises(BadInput, match=words):
        match(("hoof_angle",), np.array([52.0]), np.eye(1), controls)


def test_a_change_from_a_baseline_cannot_be_matched():
    with pytest.raises(BadInput, match="is a change from a baseline"):
        checked_measures(["palmar_angle_change"])
