"""Primitives: frozen, grouped, named."""

import dataclasses

import numpy as np
import pytest

from hoofsim.drawing.bounds import bounds_of
from hoofsim.drawing.display_list import (
    Arrow,
    Circle,
    DisplayList,
    Group,
    Polygon,
    Polyline,
    Text,
    as_point,
    as_points,
    flatten,
)

LINE = Polyline(((0.0, 0.0), (1.0, 1.0)), "axis")
NAMED = Circle((0.0, 0.0), 1.0, "landmark", "tip")


def test_primitives_are_frozen_and_hashable() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        LINE.role = "grid"  # type: ignore[misc]
    assert hash(LINE) == hash(Polyline(((0.0, 0.0), (1.0, 1.0)), "axis"))


def test_a_group_names_its_nameless_members_only() -> None:
    inner = Group((LINE, NAMED))
    opened = list(flatten([Group((inner, LINE), "frog")]))
    assert [item.part for item in opened] == ["frog", "tip", "frog"]


def test_an_inner_group_keeps_its_own_name() -> None:
    assert [item.part for item in flatten([Group((Group((LINE,), "sole"),), "frog")])] == ["sole"]


def test_parts_are_listed_once_in_drawing_order() -> None:
    picture = DisplayList((NAMED, Group((LINE, LINE), "sole"), NAMED, LINE), (0, 0, 1, 1))
    assert picture.parts() == ("tip", "sole")


def test_one_picture_over_another_needs_the_area_of_both() -> None:
    under = DisplayList((LINE,), (-1, 0, 2, 3), "under")
    over = DisplayList((NAMED,), (0, -5, 1, 9), "over", "words")
    both = over.over(under)
    assert both.items == (LINE, NAMED)
    assert both.bounds == (-1, -5, 2, 9)
    assert both.title == "over"


def test_arrays_become_plain_tuples() -> None:
    assert as_points(np.array([[1, 2], [3, 4]])) == ((1.0, 2.0), (3.0, 4.0))
    assert as_point([1, 2]) == (1.0, 2.0)


def test_bounds_hold_every_kind_of_primitive() -> None:
    things = [
        Polygon(((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)), "bone"),
        Circle((5.0, 0.0), 2.0, "landmark"),
        Arrow((0.0, 0.0), (0.0, -4.0), "force"),
        Text((-3.0, 6.0), "x", "label", 2.0, ("right", "bottom")),
    ]
    left, bottom, right, top = bounds_of(things)
    assert (bottom, right) == (-4.0, 7.0)
    assert left < -4.0
    assert top == pytest.approx(6.0 + 2.4)
