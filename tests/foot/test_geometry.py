"""The foot at rest: the sound foot's plane geometry, trims worked out by hand, and contradictions refused by name."""

import numpy as np
import pytest

from hoofsim.errors import BadInput
from hoofsim.foot.geometry import rest_foot
from hoofsim.foot.landmarks import BODY_OF
from hoofsim.foot.parameters import DEFAULTS, PARAMETERS, checked, parameter
from hoofsim.foot.presets import PRESETS, preset
from hoofsim.frames import angle_to_ground


def rest(**changes: float) -> dict[str, np.ndarray]:
    return {name: point[0] for name, point in rest_foot(DEFAULTS | changes).points.items()}


def test_sound_foot_is_the_template() -> None:
    """Coordinates of the sound foot (modelling choice within the published ranges)."""
    points = rest()
    template = {"tip": (57.6, 15.0), "extensor_process": (24.3, 57.6), "cor": (0.0, 56.4), "toe": (89.0, 0.0),
                "heel_ground": (-51.0, 0.0), "wall_outer_distal": (69.8, 24.5), "breakover": (77.6, 0.0)}  # fmt: skip
    for name, at in template.items():
        assert points[name] == pytest.approx(at, abs=0.15), name


def test_sound_foot_agrees_with_published_geometry() -> None:
    """Dorsal wall 51.8 +- 3.9 deg (R1); wall parallel to bone (R11); toe to joint centre as wall length +- 1 mm (R5)."""
    points = rest()
    wall = angle_to_ground(points["toe"], points["toe_hairline"])
    bone = angle_to_ground(points["tip"], points["extensor_process"])
    assert wall == pytest.approx(51.8, abs=3.9)
    assert bone - wall == pytest.approx(0.0, abs=0.1)
    length = np.linalg.norm(points["toe"] - points["toe_hairline"])
    assert points["toe"][0] - points["cor"][0] == pytest.approx(length, abs=1.0)


def test_every_landmark_rides_on_a_body() -> None:
    assert set(rest()) == set(BODY_OF)


def test_raised_heels_tip_the_whole_foot_by_plane_geometry() -> None:
    """Heel line at 45 deg: 10 mm more heel lowers the bearing point by (10 forward, 10 down) of the old ground line."""
    points = rest(heel_change_mm=10.0)
    tipped = np.degrees(np.arctan2(10.0, 89.0 + 51.0 - 10.0))
    before = rest()
    for a, b in (("tip", "palmar_process"), ("toe", "toe_hairline"), ("tip", "extensor_process")):
        turned = angle_to_ground(points[a], points[b]) - angle_to_ground(before[a], before[b])
        assert turned == pytest.approx(tipped, abs=0.02)
    assert points["toe"][1] == pytest.approx(0.0, abs=1e-9)
    assert points["heel_ground"][1] == pytest.approx(0.0, abs=1e-9)


def test_distances_inside_the_foot_survive_any_trim_and_wedge() -> None:
    before, after = rest(), rest(heel_change_mm=8.0, toe_change_mm=10.0, wedge_deg=5.0)
    for a, b in (
        ("tip", "frog_point"),
        ("extensor_process", "toe_hairline"),
        ("cor", "tip"),
        ("tip", "wall_inner_distal"),
    ):
        kept = np.linalg.norm(before[a] - before[b])
        assert np.linalg.norm(after[a] - after[b]) == pytest.approx(kept, abs=1e-9)


def test_a_wedge_slopes_the_ground_under_a_foot_that_still_stands_on_it() -> None:
    foot = rest_foot(DEFAULTS | {"wedge_deg": 6.0})
    toe, heel = foot.points["toe"][0], foot.points["heel_ground"][0]
    assert angle_to_ground(toe, heel) == pytest.approx(6.0)
    assert np.degrees(foot.tip_turn[0]) == pytest.approx(6.0)


def test_healed_rotation_turns_bone_against_wall_and_the_sole_follows_by_its_share() -> None:
    stayed = rest(
        healed_rotation_deg=8.0, healed_sole_follows_percent=0.0, sole_depth_mm=15.0, sole_clearance_mm=6.0
    )
    carried = rest(
        healed_rotation_deg=8.0, healed_sole_follows_percent=100.0, sole_depth_mm=15.0, sole_clearance_mm=6.0
    )
    wall = angle_to_ground(stayed["toe"], stayed["toe_hairline"])
    assert angle_to_ground(stayed["tip"], stayed["extensor_process"]) - wall == pytest.approx(8.0, abs=0.15)
    sound = rest(sole_depth_mm=15.0, sole_clearance_mm=6.0)
    apart = {name: np.linalg.norm(foot["tip"] - foot["sole_under_tip"]) for name, foot in
             (("sound", sound), ("stayed", stayed), ("carried", carried))}  # fmt: skip
    assert apart["carried"] == pytest.approx(apart["sound"], abs=1.6)
    assert apart["stayed"] < apart["sound"] - 5.0


@pytest.mark.parametrize("name", PRESETS)
def test_every_preset_stands_in_order(name: str) -> None:
    points = {key: point[0] for key, point in rest_foot(preset(name).values).points.items()}
    assert points["toe"][0] > points["tip"][0] > points["cor"][0] > points["heel_ground"][0]
    assert (
        points["cor"][1]
        > points["extensor_process"][1] - 10
        > points["tip"][1]
        > points["sole_under_tip"][1]
        >= 0
    )
    assert points["toe_hairline"][1] > points["firm_horn"][1]


CONTRADICTIONS = {
    "dorsal_wall_length_mm": {"dorsal_wall_length_mm": 115.0},
    "palmar_angle_deg": {"palmar_angle_deg": 14.0, "hoof_angle_deg": 44.0},
    "lucent_zone_mm": {"lucent_zone_mm": 14.0},
    "sole_change_mm": {"sole_change_mm": -5.0, "sole_depth_mm": 6.0},
    "heel_change_mm": {"heel_change_mm": -10.0, "heel_height_mm": 12.0},
}


@pytest.mark.parametrize("name", CONTRADICTIONS)
def test_contradictions_are_refused_by_name(name: str) -> None:
    with pytest.raises(BadInput, match=name):
        rest_foot(DEFAULTS | CONTRADICTIONS[name])


@pytest.mark.parametrize("control", PARAMETERS, ids=lambda p: p.name)
def test_every_control_refuses_what_is_out_of_range_and_takes_its_ends(control: object) -> None:
    p = parameter(control.name)  # type: ignore[attr-defined]
    assert p.low <= p.default <= p.high
    assert checked(p.name, p.low) == p.low
    assert checked(p.name, p.high) == p.high
    for bad in (p.low - 1, p.high + 1, float("nan"), float("inf")):
        with pytest.raises(BadInput, match=p.name):
            checked(p.name, bad)


def test_unknown_names_come_with_the_nearest() -> None:
    with pytest.raises(BadInput, match="heel_change_mm"):
        parameter("heel_chang_mm")
    with pytest.raises(BadInput, match="pony"):
        preset("ponny")
    with pytest.raises(BadInput, match="needs a number"):
        checked("wedge_deg", "steep")
    with pytest.raises(BadInput, match="0 \\(whole\\) or 1"):
        checked("tendon_cut", 0.4)


def test_heels_that_would_stand_in_front_of_the_bone_are_refused() -> None:
    values = {name: np.array([value]) for name, value in preset("pony").values.items()}
    rest_foot(values | {"heel_change_mm": np.array([20.0])})
    with pytest.raises(BadInput, match="in front of the bone's hind end"):
        rest_foot(values | {"p3_dorsal_length_mm": np.array([28.0]), "heel_height_mm": np.array([60.0])})
