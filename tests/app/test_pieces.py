"""Pure pieces under the screens: blending, picking, handles, plots, the largest view."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import pytest

from hoofsim.app.blend import Blend, mixed
from hoofsim.app.foot_picture import LAYERS, hidden_parts, largest_view
from hoofsim.app.picking import part_at
from hoofsim.app.screens.sandbox.handles import HANDLES, handle_at
from hoofsim.app.screens.sandbox.told import NUMBER_OF, told
from hoofsim.app.widgets.plot import dash, ticks
from hoofsim.drawing.display_list import Circle, Polygon, Polyline
from hoofsim.drawing.parts import PARTS
from hoofsim.foot.parameters import BY_NAME
from hoofsim.measures.table import MEASURES
from hoofsim.model import Foot
from hoofsim.scene.ramp import eased


class Pair(NamedTuple):
    a: float
    b: np.ndarray


@dataclass(frozen=True)
class Record:
    x: float
    words: str


def test_mixing_goes_through_mappings_records_and_arrays():
    first = {"pair": Pair(0.0, np.zeros(2)), "record": Record(1.0, "old"), "gone": 3}
    second = {"pair": Pair(2.0, np.ones(2)), "record": Record(3.0, "new"), "fresh": True}
    half = mixed(first, second, 0.5)
    assert half["pair"].a == 1.0
    assert np.array_equal(half["pair"].b, [0.5, 0.5])
    assert half["record"] == Record(2.0, "new")
    assert half["fresh"] is True
    assert "gone" not in half
    assert np.array_equal(mixed(np.zeros(3), np.ones(2), 0.5), np.ones(2))


def test_a_blend_ends_on_the_second_foot_and_tells_its_numbers():
    first, second = Foot("sound").load(), Foot("sound", heel_change_mm=10).load()
    assert np.allclose(Blend(first, second, 1.0).points["tip"], second.points["tip"], atol=1e-12)
    middle = Blend(first, second, 0.5)
    assert np.allclose(middle.points["tip"], 0.5 * (first.points["tip"] + second.points["tip"]))
    assert middle.measures() == second.measures()
    assert (eased(0.0), eased(0.5), eased(1.0)) == (0.0, 0.5, 1.0)


def test_the_topmost_part_is_picked():
    square = Polygon(((0, 0), (10, 0), (10, 10), (0, 10)), "bone", "p3")
    items = [square, Circle((5, 5), 1.0, "landmark", "tip"), Polyline(((0, 20), (10, 20)), "tendon", "line")]
    assert part_at(items, (5.0, 5.5), 0.5) == "tip"
    assert part_at(items, (2.0, 2.0), 0.5) == "p3"
    assert part_at(items, (5.0, 20.4), 0.5) == "line"
    assert part_at(items, (5.0, 15.0), 0.5) is None


def test_every_handle_stands_on_a_landmark_and_moves_a_control_within_its_range():
    points = Foot("sound").load().points
    for handle in HANDLES:
        control = BY_NAME[handle.control]
        assert np.isfinite(handle.place(points)).all()
        far = (handle.along[0] * 1e4, handle.along[1] * 1e4)
        assert handle.value_after(control.default, far) == control.high
        assert handle.value_after(control.default, (-far[0], -far[1])) == control.low
        aside = (handle.along[1] * 5, -handle.along[0] * 5)
        assert handle.value_after(control.default, aside) == pytest.approx(control.default)


def test_the_nearest_handle_in_reach_is_taken():
    places = {"a": (0.0, 0.0), "b": (10.0, 0.0)}
    assert handle_at(places, (6, 0), 5) == "b"
    assert handle_at(places, (40, 0), 5) is None
    assert handle_at({}, (0, 0), 5) is None


def test_every_told_number_belongs_to_a_known_part_and_measure():
    values = Foot("sound").load().measures()
    for part, measure in NUMBER_OF.items():
        assert part in PARTS
        assert measure in MEASURES
        assert len(told(part, values, "mm")) == 3
    assert told("p1", values, "mm")[0][0].startswith("Proximal phalanx")
    assert told("no such part", values, "mm") == []


def test_layers_are_known_parts_and_hide_together():
    for _, _, parts in LAYERS:
        assert parts <= set(PARTS)
    assert hidden_parts(frozenset("17")) >= {"skin", "flexor_tendon"}
    assert hidden_parts(frozenset()) == frozenset()


def test_the_largest_view_shows_all_and_wastes_little():
    def build(text_mm):
        return (-50.0 - 10 * text_mm, 0.0, 50.0, 40.0 + 2 * text_mm)

    camera = largest_view((600, 400), 12.0, build)
    left, bottom, right, top = build(12.0 / camera.scale)
    seen = camera.seen()
    assert seen[0] <= left
    assert seen[1] <= bottom
    assert seen[2] >= right
    assert seen[3] >= top
    used = max((right - left) / (seen[2] - seen[0]), (top - bottom) / (seen[3] - seen[1]))
    assert used > 0.9


def test_ticks_are_round_few_and_inside():
    assert ticks(0, 10, 6) == [0, 2, 4, 6, 8, 10]
    assert ticks(-18, 30, 5) == [-10, 0, 10, 20, 30] or len(ticks(-18, 30, 5)) <= 5
    assert ticks(3, 3, 5) == [3]
    for low, high in ((0.0012, 0.0047), (-3e5, 2e6), (4.1, 4.2)):
        found = ticks(low, high, 5)
        assert 1 <= len(found) <= 5
        assert all(low - 1e-9 <= value <= high + 1e-9 for value in found)


def test_dashes_cover_half_of_a_line():
    pieces = dash([(0.0, 0.0), (100.0, 0.0)], 5.0)
    assert sum(abs(b[0] - a[0]) for a, b in pieces) == pytest.approx(50.0)


@pytest.mark.parametrize(
    ("key", "direction", "measure", "sense"),
    [
        ("heel", (0, 1), "palmar_angle", 1),
        ("toe", (1, 0), "toe_to_cor", 1),
        ("breakover", (-1, 0), "breakover_to_tip", -1),
        ("sole", (0, -1), "sole_depth_tip", 1),
        ("wedge", (0, 1), "palmar_angle", 1),
        ("pull", (-1, 2), "tendon_tension", 1),
        ("load", (0, -1), "sole_depth_tip", -1),
    ],
)
def test_a_handle_pulls_the_foot_the_way_the_hand_goes(key, direction, measure, sense):
    handle = next(one for one in HANDLES if one.key == key)
    control = BY_NAME[handle.control]
    value = handle.value_after(control.default, (3.0 * direction[0], 3.0 * direction[1]))
    before, after = Foot("sound").load(), Foot("sound", **{handle.control: value}).load()
    assert sense * (after.measures()[measure] - before.measures()[measure]) > 0
