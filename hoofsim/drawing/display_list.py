"""What is to be drawn, in millimetres and roles: the one description that every backend understands.

A role says what a thing is ("bone", "label"); the palette decides how that looks. `part` names the structure a
primitive belongs to, for point-and-tell, and may be left out. Everything is frozen and hashable, so that a backend may
cache it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

Point = tuple[float, float]
Bounds = tuple[float, float, float, float]  # left, bottom, right, top in mm


def as_points(points: ArrayLike) -> tuple[Point, ...]:
    """Points (N, 2) in mm as plain tuples."""
    array = np.asarray(points, dtype=float).reshape(-1, 2)
    x, y = array.T.tolist()
    return tuple(zip(x, y, strict=True))


def as_point(point: ArrayLike) -> Point:
    """One point (2,) in mm as a plain tuple."""
    return as_points(point)[0]


@dataclass(frozen=True)
class Polygon:
    """A closed area; the last point joins the first."""

    points: tuple[Point, ...]
    role: str
    part: str | None = None


@dataclass(frozen=True)
class Polyline:
    """An open line through points."""

    points: tuple[Point, ...]
    role: str
    part: str | None = None


@dataclass(frozen=True)
class Circle:
    """A disc of `radius` mm: landmarks, joint centres, data points."""

    centre: Point
    radius: float
    role: str
    part: str | None = None


@dataclass(frozen=True)
class Arrow:
    """A straight arrow; its tip is at `end`; `head` is the length of its head in mm."""

    start: Point
    end: Point
    role: str
    part: str | None = None
    head: float = 4.0


@dataclass(frozen=True)
class Text:
    """One line of text; `height` is the type size (em) in mm; `turn` is 0 or 90 degrees anticlockwise."""

    at: Point
    text: str
    role: str
    height: float = 4.0
    anchor: tuple[str, str] = ("left", "middle")
    turn: int = 0
    part: str | None = None


@dataclass(frozen=True)
class Tie:
    """A short bond between two tissues: it thins with `stretch` and breaks as `attached` falls.

    `stretch` is the change of length over the unloaded length (negative when pressed), `attached` the fraction of the
    bond that holds and `damage` the fraction lost to overload, both 0 to 1.
    """

    start: Point
    end: Point
    role: str
    stretch: float = 0.0
    attached: float = 1.0
    damage: float = 0.0
    part: str | None = None


@dataclass(frozen=True)
class Group:
    """Primitives that belong together; `part` is given to those members that name none; `still` marks a layer that
    does not change from frame to frame, which a backend may keep as a picture."""

    items: tuple["Item", ...]
    part: str | None = None
    still: bool = False


Primitive = Polygon | Polyline | Circle | Arrow | Text | Tie
Item = Primitive | Group


def flatten(items: Iterable[Item], part: str | None = None) -> Iterator[Primitive]:
    """The primitives in drawing order, groups opened and their part handed down."""
    for item in items:
        if isinstance(item, Group):
            yield from flatten(item.items, item.part if item.part is not None else part)
        elif item.part is None and part is not None:
            yield replace(item, part=part)
        else:
            yield item


@dataclass(frozen=True)
class DisplayList:
    """A finished picture: items from back to front, the area in mm it needs, and words for those who cannot see it."""

    items: tuple[Item, ...]
    bounds: Bounds
    title: str = ""
    description: str = ""

    def primitives(self) -> Iterator[Primitive]:
        """Every primitive, back to front."""
        return flatten(self.items)

    def parts(self) -> tuple[str, ...]:
        """The names that can be pointed at, in drawing order, each once."""
        return tuple(dict.fromkeys(one.part for one in self.primitives() if one.part is not None))

    def over(self, other: "DisplayList") -> "DisplayList":
        """This picture drawn on top of `other`, with the title and description of this one."""
        left, bottom, right, top = zip(self.bounds, other.bounds, strict=True)
        bounds = (min(left), min(bottom), max(right), max(top))
        return DisplayList(other.items + self.items, bounds, self.title, self.description)
