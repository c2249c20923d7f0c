"""From primitives and a palette to the four marks that every backend draws: areas, lines, discs and lines of text.

Arrows, ties, dashes and patterns are worked out here once, so that a backend only has to know how to put a colour on
a shape. The many equal lines or dots of a pattern come as one bundle; a backend that is in no hurry takes them singly.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

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


@dataclass(frozen=True)
class LinesMark:
    """Many lines of one colour and width: hatching, or the dashes of a line."""

    lines: tuple[tuple[Point, ...], ...]
    colour: str
    width: float


@dataclass(frozen=True)
class DotsMark:
    """Many dots of one colour and radius, without a rim."""

    centres: tuple[Point, ...]
    radius: float
    colour: str


Mark = AreaMark | LineMark | DiscMark | TextMark
Bundle = Mark | LinesMark | DotsMark


def lower(primitives: Iterable[Primitive], palette: Palette) -> Iterator[tuple[Primitive, tuple[Mark, ...]]]:
    """Each primitive with its marks, in drawing order."""
    for primitive in primitives:
        yield primitive, marks(primitive, palette)


def marks(primitive: Primitive, palette: Palette) -> tuple[Mark, ...]:
    """The marks of one primitive."""
    return tuple(mark for bundle in bundles(primitive, palette) for mark in _singly(bundle))


def bundles(primitive: Primitive, palette: Palette) -> tuple[Bundle, ...]:
    """The marks of one primitive, those of a pattern or of dashes together."""
    if isinstance(primitive, Tie):
        return tuple(_tie(primitive, palette))
    style = palette.style(primitive.role)
    if isinstance(primitive, Polygon):
        return tuple(_polygon(primitive.points, style))
    if isinstance(primitive, Polyline):
        return (_line(primitive.points, style),)
    if isinstance(primitive, Circle):
        return (
            DiscMark(primitive.centre, primitive.radius, style.fill or "#ffffff", style.edge, style.width),
        )
    if isinstance(primitive, Arrow):
        return tuple(_arrow(primitive, style))
    return (TextMark(primitive, style.fill or "#000000", style.halo, style.bold),)


def _singly(bundle: Bundle) -> Iterator[Mark]:
    if isinstance(bundle, LinesMark):
        yield from (LineMark(line, bundle.colour, bundle.width) for line in bundle.lines)
    elif isinstance(bundle, DotsMark):
        yield from (DiscMark(place, bundle.radius, bundle.colour, None, 0.0) for place in bundle.centres)
    else:
        yield bundle


def _polygon(points: tuple[Point, ...], style: Style) -> Iterator[Bundle]:
    if style.fill is not None:
        yield AreaMark(points, style.fill)
    if style.pattern_colour is not None and style.pattern == "dots":
        yield DotsMark(as_points(dots(np.array(points), style.spacing)), DOT_RADIUS, style.pattern_colour)
    elif style.pattern_colour is not None and style.pattern != "none":
        ends = as_points(hatch(np.array(points), style.pattern, style.spacing))
        lines = tuple(zip(ends[::2], ends[1::2], strict=True))
        yield LinesMark(lines, style.pattern_colour, INK_WIDTH)
    if style.edge is not None and style.dash is None:
        yield LineMark(points, style.edge, style.width, closed=True)
    elif style.edge is not None:
        yield _line((*points, points[0]), style)


def _line(points: tuple[Point, ...], style: Style) -> LineMark | LinesMark:
    colour = style.edge or style.fill or "#000000"
    if style.dash is None:
        return LineMark(points, colour, style.width)
    return LinesMark(tuple(dashes(np.array(points), *style.dash)), colour, style.width)


def dashes(points: Array, drawn: float, gap: float) -> list[tuple[Point, ...]]:
    """Pieces of a polyline (N, 2): `drawn` mm shown, `gap` mm left out, and so on from its first point."""
    steps = np.hypot(*np.diff(points, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(steps)])
    starts = np.arange(0.0, along[-1], drawn + gap)
    ends = np.minimum(starts + drawn, along[-1])
    first, last = (
        as_points(np.stack([np.interp(at, along, points[:, axis]) for axis in (0, 1)], axis=1))
        for at in (starts, ends)
    )
    after, before = np.searchsorted(along, starts, "right").tolist(), np.searchsorted(along, ends).tolist()
    inner = as_points(points)
    return [
        (first[i], *inner[low:high], last[i]) for i, (low, high) in enumerate(zip(after, before, strict=True))
    ]


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


def _arrow(arrow: Arrow, style: Style) -> Iterator[Bundle]:
    head = arrow_head(arrow.start, arrow.end, arrow.head)
    if head is None:
        return
    triangle, stop = head
    yield _line((arrow.start, stop), style)
    yield AreaMark(as_points(triangle), style.edge or style.fill or "#000000")


def _tie(tie: Tie, palette: Palette) -> Iterator[Mark]:
    """A line that thins as it stretches and as fewer of its fibres hold; a gap in the middle once most are gone."""
    whole, broken = palette.style(tie.role), palette.style("lamina_broken")
    holding = tie.attached * (1.0 - tie.damage)
    colour = whole.edge or "#000000"
    if holding < 0.15:
        for (x, y), (to_x, to_y) in ((tie.start, tie.end), (tie.end, tie.start)):
            stub = (x + 0.3 * (to_x - x), y + 0.3 * (to_y - y))
            yield LineMark(((x, y), stub), broken.edge or colour, broken.width)
        return
    width = whole.width * holding / max(1.0 + tie.stretch, 0.25) ** 0.5
    yield LineMark((tie.start, tie.end), colour, max(width, 0.3 * whole.width))
