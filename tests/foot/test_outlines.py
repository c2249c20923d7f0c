"""Outlines: closed, simple, in their places, on their landmarks, for every preset and for feet drawn at random."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import hoofsim
from hoofsim.errors import BadInput
from hoofsim.foot.curves import area, inside, lengths
from hoofsim.foot.geometry import rest_foot
from hoofsim.foot.outline_soft import tendon_ends, tendon_path
from hoofsim.foot.outlines import ORDER, Outline, outlines
from hoofsim.foot.parameters import BY_NAME, DEFAULTS
from hoofsim.foot.presets import PRESETS
from hoofsim.frames import Array, rotate

# Shape and trim, within what keeps the bone in the capsule; what breaks out of it is checked only for being drawable.
VARIED = (
    "hoof_angle_deg", "palmar_angle_deg", "heel_height_mm", "sole_depth_mm", "sole_clearance_mm", "lucent_zone_mm",
    "tip_to_frog_mm", "heel_change_mm", "toe_change_mm", "breakover_setback_mm", "wedge_deg", "healed_rotation_deg",
    "tip_lost_mm",
)  # fmt: skip
REACH = 0.5


def landmarks(values: dict[str, float]) -> dict[str, Array]:
    rest = rest_foot({name: np.array([value]) for name, value in values.items()})
    return {name: point[0] for name, point in rest.points.items()}


@pytest.fixture(params=sorted(PRESETS))
def drawn(request: pytest.FixtureRequest) -> tuple[dict[str, Array], dict[str, Outline]]:
    points = landmarks(PRESETS[request.param].values)
    return points, outlines(points)


@st.composite
def feet(draw: st.DrawFn, reach: float = REACH) -> dict[str, float]:
    values = dict(DEFAULTS)
    for name in draw(st.sets(st.sampled_from(VARIED), max_size=5)):
        control = BY_NAME[name]
        share = draw(st.floats(-reach, reach))
        end = control.high if share > 0 else control.low
        values[name] = control.default + abs(share) * (end - control.default)
    return values


def self_crossings(outline: Array) -> int:
    """How many pairs of sides of a closed outline cross."""
    side = np.roll(outline, -1, axis=0) - outline
    one, other = side[:, None], side[None]
    offset = outline[None] - outline[:, None]
    cross = one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0]
    safe = np.where(np.abs(cross) > 1e-12, cross, np.inf)
    along = (offset[..., 0] * other[..., 1] - offset[..., 1] * other[..., 0]) / safe
    across = (offset[..., 0] * one[..., 1] - offset[..., 1] * one[..., 0]) / safe
    hits = (np.minimum(along, across) > 1e-6) & (np.maximum(along, across) < 1 - 1e-6)
    return int(np.triu(hits, 2).sum())


def gap(outline: Outline, place: Array) -> float:
    """Distance of a place from the nearest point of an outline; its points stand under 1 mm apart on curves."""
    start, step = outline.points, np.roll(outline.points, -1, axis=0) - outline.points
    share = np.clip(((place - start) * step).sum(axis=1) / (step**2).sum(axis=1), 0, 1)
    return float(np.hypot(*(start + share[:, None] * step - place).T).min())


def test_the_crossing_check_sees_a_bow_tie() -> None:
    assert self_crossings(np.array([[0.0, 0.0], [4.0, 4.0], [4.0, 0.0], [0.0, 4.0]])) == 1


def test_every_outline_is_closed_simple_and_has_an_area(
    drawn: tuple[dict[str, Array], dict[str, Outline]],
) -> None:
    _, made = drawn
    assert tuple(made) == ORDER
    for name, outline in made.items():
        assert outline.points.shape[1] == 2, name
        assert np.hypot(*(outline.points[0] - outline.points[-1])) > 1e-6, f"{name} repeats its first point"
        assert self_crossings(outline.points) == 0, name
        assert area(outline.points) > 3.0, name


ON_OUTLINE = {
    "p3": ("tip_seen", "extensor_process", "joint_dorsal", "joint_palmar", "tendon_insertion", "solar_arch"),
    "palmar_process": ("palmar_process", "palmar_process_top"),
    "p2": ("p2_dorsal_proximal", "p2_palmar_proximal"),
    "navicular": ("navicular_distal", "navicular_proximal", "navicular_joint", "navicular_flexor"),
    "dorsal_wall": ("toe_hairline", "wall_outer_middle", "wall_inner_middle", "wall_inner_distal"),
    "capsule": ("toe_hairline", "heel_hairline", "heel_ground", "breakover"),
    "sole": ("sole_under_tip", "frog_point"),
    "frog": ("frog_point", "frog_heel"),
}


def test_landmarks_lie_on_the_outline_of_their_part(
    drawn: tuple[dict[str, Array], dict[str, Outline]],
) -> None:
    points, made = drawn
    for name, marks in ON_OUTLINE.items():
        for mark in marks:
            assert gap(made[name], points[mark]) < 0.6, (name, mark)


def test_bones_lie_in_the_foot_and_apart(drawn: tuple[dict[str, Array], dict[str, Outline]]) -> None:
    points, made = drawn
    shape = np.array([p for name in ("capsule", "skin") for p in made[name].points])
    assert shape[:, 0].min() < made["p3"].points[:, 0].min()
    in_foot = inside(made["capsule"].points, made["p3"].points) | inside(
        made["skin"].points, made["p3"].points
    )
    assert in_foot.all(), "P3 leaves the foot"
    for bone, other in (("p3", "p2"), ("p2", "p1"), ("navicular", "p2"), ("p1", "p2")):
        assert not inside(made[other].points, made[bone].points).any(), (bone, other)
    assert inside(made["p2"].points, points["cor"])[0]


def test_areas_stand_in_the_order_an_anatomist_expects(
    drawn: tuple[dict[str, Array], dict[str, Outline]],
) -> None:
    _, made = drawn
    size = {name: area(outline.points) for name, outline in made.items()}
    assert size["skin"] > size["p2"] > size["navicular"] > size["bursa"]
    assert size["capsule"] > size["p3"] > size["navicular"]
    assert size["dorsal_wall"] > size["white_line"]
    assert size["digital_cushion"] > size["frog"] > size["sole"]


def test_the_tendon_passes_behind_the_navicular_and_ends_on_p3() -> None:
    points = landmarks(DEFAULTS)
    line = tendon_path(points)
    assert not inside(outlines(points)["navicular"].points, line).any()
    nearest = line[np.argmin(np.hypot(*(line - points["navicular_flexor"]).T))]
    assert nearest[0] < points["navicular_flexor"][0], "palmar of the bone"
    assert np.hypot(*(line - points["tendon_insertion"]).T).min() < 0.6


def test_a_cut_tendon_leaves_a_gap() -> None:
    points = landmarks(DEFAULTS)
    above, below = tendon_ends(points)
    apart = np.hypot(*(above[:, None] - below[None]).reshape(-1, 2).T).min()
    assert apart > 5.0
    assert area(above) + area(below) < area(outlines(points)["flexor_tendon"].points)


def test_horn_keeps_its_thickness_when_the_dermis_is_pressed() -> None:
    """Load moves P3 down by 2 mm and nothing else: the sole's outline stays, the dermis loses area."""
    rest = landmarks(DEFAULTS)
    p3 = ("tip", "tip_seen", "solar_arch", "palmar_process", "palmar_process_top", "tendon_insertion", "joint_dorsal",
          "joint_palmar", "extensor_process", "cor")  # fmt: skip
    moved = {name: point - [0.0, 2.0] if name in p3 else point for name, point in rest.items()}
    still, pressed = outlines(rest, rest), outlines(moved, rest)
    assert pressed["sole"].points == pytest.approx(still["sole"].points)
    assert area(pressed["solar_dermis"].points) < area(still["solar_dermis"].points) - 50


def test_outlines_follow_a_rigid_move() -> None:
    rest = landmarks(DEFAULTS)
    moved = {name: rotate(point, 0.2, (10.0, 5.0)) + [3.0, -1.0] for name, point in rest.items()}
    before, after = outlines(rest), outlines(moved)
    for name in ORDER:
        if before[name].points.shape == after[name].points.shape:
            expected = rotate(before[name].points, 0.2, (10.0, 5.0)) + [3.0, -1.0]
            assert after[name].points == pytest.approx(expected, abs=0.05), name
        assert area(after[name].points) == pytest.approx(area(before[name].points), rel=0.02), name


def test_lost_bone_shortens_p3() -> None:
    whole, worn = (outlines(landmarks({**DEFAULTS, "tip_lost_mm": lost}))["p3"] for lost in (0.0, 5.0))
    assert whole.points[:, 0].max() - worn.points[:, 0].max() > 2.0


@pytest.mark.parametrize(("case", "stance"), [("suspended", 0), ("trot", 50), ("trot", 95), ("walk", 30)])
@pytest.mark.parametrize("preset", ["sound", "failed_laminae", "pony"])
def test_outlines_stay_simple_under_every_load(preset: str, case: str, stance: float) -> None:
    loaded = hoofsim.Foot(preset).load(case, stance)
    assert loaded.at_rest
    for name, outline in outlines(loaded.points, loaded.rest_points).items():
        assert self_crossings(outline.points) == 0, name


@settings(max_examples=60)
@given(feet())
def test_feet_at_random_have_simple_outlines(values: dict[str, float]) -> None:
    try:
        points = landmarks(values)
    except BadInput:
        assume(False)
    assume(points["tip"][1] - points["sole_under_tip"][1] > 3.0)
    for name, outline in outlines(points).items():
        assert self_crossings(outline.points) == 0, name
        assert area(outline.points) > 1.0, name


@settings(max_examples=40)
@given(feet(reach=1.0))
def test_even_extreme_feet_can_be_drawn(values: dict[str, float]) -> None:
    try:
        points = landmarks(values)
    except BadInput:
        assume(False)
    for name, outline in outlines(points).items():
        assert np.isfinite(outline.points).all(), name
        assert np.abs(outline.points).max() < 400, name


def test_the_navicular_path_is_wrapped_smoothly() -> None:
    line = tendon_path(landmarks(DEFAULTS))
    direction = np.arctan2(*np.diff(line[:-6], axis=0).T[::-1])
    assert np.abs(np.diff(np.unwrap(direction))).max() < 0.25
    assert lengths(line)[-1] > 100
