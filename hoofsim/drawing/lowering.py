"""From primitives and a palette to the four marks that every backend draws: areas, lines, discs and lines of text.

Arrows, ties, dashes and patterns are worked out here once, so that a backend only has to know how to put a colour on
a shape.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from hoofsim.drawing.display_list import (
    Arrow,
    Circle,
    Point,
    Polygon,
    Polyline,
    Primitive,
    Text,
    Tie,
    as_points,
)
from hoofsim.drawing.palette import Palette, Style
from hoofsim.drawing.patterns import dots, hatch
from hoofsim.frames import Array

INK_WIDTH, DOT_RADIUS = 0.2, 0.28  # mm: pattern lines and pattern dots


@dataclass(frozen=True)
class AreaMark:
    """A filled polygon, mm; colour "#rrggbb" or "#rrggbbaa"."""

    points: tuple[Point, ...]
    colour: str


@dataclass(frozen=True)
class LineMark:
    """A line, mm, opaque; `closed` joins the last point to the first."""

    points: tuple[Point, ...]
    colour: str
    width: float
    closed: bool = False


@dataclass(frozen=True)
class DiscMark:
    """A filled disc, mm, with an optional rim."""

    centre: Point
    radius: float
    colour: str
    rim: str | None
    width: float


@dataclass(frozen=True)
class TextMark:
    """A line of text with the place, size (mm) and turn of its `Text`."""

    text: Text
    colour: str
    halo: str | None
    bold: bool


Mark = AreaMark | LineMark | DiscMark | TextMark


def lower(primitives: Iterable[Primitive], palette: Palette) -> Iterator[tuple[Primitive, tuple[Mark, ...]]]:
    """Each primitive with its marks, in drawing order."""
    for primitive in primitives:
        yield primitive, marks(primitive, palette)


def marks(primitive: Primitive, palette: Palette) -> tuple[Mark, ...]:
    """The marks of one primitive."""
    if isinstance(primitive, Tie):
        return tuple(_tie(primitive, palette))
    style = palette.style(primitive.role)
    if isinstance(primitive, Polygon):
        return _polygon(primitive.points, style)
    if isinstance(primitive, Polyline):
        return tuple(_line(primitive.points, style))
    if isinstance(primitive, Circle):
        return (
            DiscMark(primitive.centre, primitive.radius, style.fill or "#ffffff", style.edge, style.width),
        )
    if isinstance(primitive, Arrow):
        return tuple(_arrow(primitive, style))
    return (TextMark(primitive, style.fill or "#000000", style.halo, style.bold),)


@lru_cache(maxsize=512)
def _polygon(points: tuple[Point, ...], style: Style) -> tuple[Mark, ...]:
    made: list[Mark] = []
    if style.fill is not None:
        made.append(AreaMark(points, style.fill))
    if style.pattern_colour is not None and style.pattern == "dots":
        made.extend(
            DiscMark((float(x), float(y)), DOT_RADIUS, style.pattern_colour, None, 0.0)
            for x, y in dots(np.array(points), style.spacing)
        )
    elif style.pattern_colour is not None and style.pattern != "none":
        made.extend(
            LineMark(as_points(line), style.pattern_colour, INK_WIDTH)
            for line in hatch(np.array(points), style.pattern, style.spacing)
        )
    if style.edge is not None and style.dash is None:
        made.append(LineMark(points, style.edge, style.width, closed=True))
    elif style.edge is not None:
        made.extend(_line((*points, points[0]), style))
    return tuple(made)


def _line(points: tuple[Point, ...], style: Style) -> Iterator[Mark]:
    colour = style.edge or style.fill or "#000000"
    if style.dash is None:
        yield LineMark(points, colour, style.width)
    else:
        for piece in dashes(np.array(points), *style.dash):
            yield LineMark(as_points(piece), colour, style.width)


def dashes(points: Array, drawn: float, gap: float) -> list[Array]:
    """Pieces of a polyline (N, 2): `drawn` mm shown, `gap` mm left out, and so on from its first point."""
    steps = np.hypot(*np.diff(points, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(steps)])
    pieces = []
    for start in np.arange(0.0, along[-1], drawn + gap):
        end = min(start + drawn, along[-1])
        inner = points[(along > start) & (along < end)]
        ends = [[np.interp(at, along, points[:, axis]) for axis in (0, 1)] for at in (start, end)]
        pieces.append(np.vstack([ends[:1], inner, ends[1:]]))
    return pieces


def arrow_head(start: Point, end: Point, length: float) -> tuple[Array, Point] | None:
    """The triangle (3, 2) of an arrow's head and the place where its shaft stops; nothing for an arrow of no length."""
    offset = np.array(end) - np.array(start)
    reach = float(np.hypot(*offset))
    if reach < 1e-9:
        return None
    ahead = offset / reach
    aside = np.array([-ahead[1], ahead[0]])
    long = min(length, 0.7 * reach)
    base = np.array(end) - long * ahead
    triangle = np.array([end, base + 0.38 * long * aside, base - 0.38 * long * aside])
    stop = base + 0.3 * long * ahead
    return triangle, (float(stop[0]), float(stop[1]))


def _arrow(arrow: Arrow, style: Style) -> Iterator[Mark]:
    head = arrow_head(arrow.start, arrow.end, arrow.head)
    if head is None:
        return
    triangle, stop = head
    yield from _line((arrow.start, stop), style)
    yield AreaMark(as_points(triangle), style.edge or style.fill or "#000000")


def _tie(tie: Tie, palette: Palette) -> Iterator[Mark]:
    """A line that thins as it stretches and as fewer of its fibres hold; a gap in the middle once most are gone."""
    whole, broken = palette.style(tie.role), palette.style("lamina_broken")
    start, end = np.array(tie.start), np.array(tie.end)
    holding = tie.attached * (1.0 - tie.damage)
    colour = whole.edge or "#000000"
    if holding < 0.15:
        for root, tip in ((start, end), (end, start)):
            yield LineMark(as_points([root, root + 0.3 * (tip - root)]), broken.edge or colour, broken.width)
        return
    width = whole.width * holding / np.sqrt(max(1.0 + tie.stretch, 0.25))
    yield LineMark(as_points([start, end]), colour, float(max(width, 0.3 * whole.width)))
