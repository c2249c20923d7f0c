"""Curves kept with the landmarks are the curves that would be drawn anew, for feet at rest and moved."""

import pickle
from collections.abc import Mapping

import numpy as np
import pytest

import hoofsim
from hoofsim.foot import outline_bones, outline_capsule, outline_soft
from hoofsim.foot.drawn_once import Landmarks, drawn_once
from hoofsim.foot.outlines import outlines
from hoofsim.frames import Array

ALONE = {
    "capsule": outline_capsule.capsule,
    "dorsal_wall": outline_capsule.dorsal_wall,
    "coronary_corium": outline_soft.coronary_corium,
    "bursa": outline_soft.bursa,
    "flexor_tendon": outline_soft.tendon,
    "p1": outline_bones.proximal_phalanx,
    "p2": outline_bones.middle_phalanx,
    "p3": outline_bones.distal_phalanx,
    "extensor_tendon": outline_soft.extensor_tendon,
}
ON_HORN = {
    "skin": outline_soft.skin,
    "solar_dermis": outline_soft.solar_dermis,
    "digital_cushion": outline_soft.digital_cushion,
    "sole": outline_capsule.sole,
    "white_line": outline_capsule.white_line,
    "frog": outline_capsule.frog,
}


@pytest.mark.parametrize(("case", "stance"), [("suspended", 0), ("standing", 0), ("trot", 50), ("walk", 30)])
@pytest.mark.parametrize("preset", ["sound", "failed_laminae", "pony"])
def test_outlines_that_share_curves_equal_those_drawn_each_for_itself(
    preset: str, case: str, stance: float
) -> None:
    loaded = hoofsim.Foot(preset).load(case, stance)
    points, rest = dict(loaded.points), dict(loaded.rest_points)
    together = outlines(loaded.points, loaded.rest_points)
    for name, build in ALONE.items():
        assert np.array_equal(together[name].points, build(points)), name
    for name, build_on in ON_HORN.items():
        assert np.array_equal(together[name].points, build_on(points, rest)), name


def test_one_foot_on_two_thicknesses_of_horn_is_not_mixed_up() -> None:
    loaded = hoofsim.Foot("sound").load("standing")
    thin = dict(loaded.rest_points, sole_under_tip=loaded.rest_points["sole_under_tip"] + [0.0, 4.0])
    own, other = outlines(loaded.points, loaded.rest_points), outlines(loaded.points, thin)
    assert np.array_equal(other["frog"].points, outline_capsule.frog(dict(loaded.points), thin))
    assert not np.array_equal(own["frog"].points, other["frog"].points)


@drawn_once
def middle(points: Mapping[str, Array], share: float) -> Array:
    return points["start"] + share * (points["end"] - points["start"])


PLACES = {"start": np.array([0.0, 0.0]), "end": np.array([4.0, 2.0])}


def test_a_curve_is_kept_for_each_number_it_was_drawn_with() -> None:
    points = Landmarks(PLACES)
    assert middle(points, 0.5) is middle(points, 0.5)
    assert middle(points, 0.25).tolist() == [1.0, 0.5]
    assert middle(points, 0.5).tolist() == [2.0, 1.0]


def test_what_is_kept_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="read-only"):
        middle(Landmarks(PLACES), 0.5)[0] = 7.0


def test_a_mapping_that_may_change_is_drawn_anew() -> None:
    points = dict(PLACES)
    before = middle(points, 0.5)
    points["end"] = np.array([8.0, 2.0])
    assert before.tolist() != middle(points, 0.5).tolist()


def test_a_copy_takes_the_landmarks_alone() -> None:
    points = Landmarks(PLACES)
    middle(points, 0.5)
    copy = pickle.loads(pickle.dumps(points))
    assert isinstance(copy, Landmarks)
    assert copy.drawn == {}
    assert middle(copy, 0.5).tolist() == [2.0, 1.0]
