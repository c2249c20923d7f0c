"""Charts as display lists: lines, points with error bars, bands and marks, labelled beside the frame."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike

from hoofsim.drawing.bounds import bounds_of
from hoofsim.drawing.display_list import (
    Circle,
    DisplayList,
    Group,
    Item,
    Polygon,
    Polyline,
    Text,
    as_point,
    as_points,
    flatten,
)
from hoofsim.drawing.labels import PictureLabel, place
from hoofsim.drawing.text_size import LINE_HEIGHT, text_width, wrapped
from hoofsim.drawing.ticks import padded, tick_words, ticks
from hoofsim.errors import BadInput
from hoofsim.foot.curves import points_of
from hoofsim.frames import Array

COLOURS = 6  # roles series_1 to series_6 of the palette
# Marker shapes by series, corners and turn: disc, square, triangle, diamond, triangle on its tip, hexagon.
SHAPES = ((0, 0.0), (4, 45.0), (3, 0.0), (4, 0.0), (3, 180.0), (6, 0.0))


@dataclass(frozen=True, eq=False)
class Series:
    """A line or a set of points. `x`, `y` (N,); `y_error`, `x_error` (N,) half widths; NaN breaks a line.

    `role`: a role of the palette (default: by the series' place in the chart, each with its own colour, dash and
    marker). `points`: draw markers and no line.
    """

    label: str
    x: ArrayLike
    y: ArrayLike
    points: bool = False
    y_error: ArrayLike | None = None
    x_error: ArrayLike | None = None
    role: str | None = None


@dataclass(frozen=True)
class ChartBand:
    """A shaded range of y (or, with `upright`, of x), such as a reference range."""

    low: float
    high: float
    label: str = ""
    upright: bool = False


@dataclass(frozen=True)
class MarkAt:
    """A dashed line across the chart at a value of x (or, with `level`, of y), such as "now" or "unchanged"."""

    value: float
    label: str = ""
    level: bool = False


@dataclass(frozen=True)
class Frame:
    """The plotting area in mm and the ranges of x and y that it shows."""

    width: float
    height: float
    x_range: tuple[float, float]
    y_range: tuple[float, float]

    def place(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Points (N, 2) in mm of values x and y (N,)."""
        spans = (self.x_range[1] - self.x_range[0], self.y_range[1] - self.y_range[0])
        return np.stack([(np.asarray(x, dtype=float) - self.x_range[0]) / spans[0] * self.width,
                         (np.asarray(y, dtype=float) - self.y_range[0]) / spans[1] * self.height], axis=-1)  # fmt: skip

    def holds(self, point: Array) -> bool:
        """Whether a point in mm lies in the frame."""
        return bool(-1e-6 <= point[0] <= self.width + 1e-6 and -1e-6 <= point[1] <= self.height + 1e-6)


def chart(
    series: Sequence[Series], *, x_label: str, y_label: str, title: str = "",
    size: tuple[float, float] = (120.0, 80.0),
    bands: Sequence[ChartBand] = (), marks: Sequence[MarkAt] = (), x_range: tuple[float, float] | None = None,
    y_range: tuple[float, float] | None = None, text_mm: float = 4.0, note: str = "",
) -> DisplayList:  # fmt: skip
    """A chart whose plotting area is `size` mm; axis names stand with their units in `x_label` and `y_label`.

    Ranges follow the data unless given; what lies outside is cut off. BadInput when x and y differ in length or a range
    is empty.
    """
    for one in series:
        _check(one)
    frame = Frame(*size, x_range or _x_range(series, marks), y_range or _y_range(series, bands, marks))
    for name, span in (("x", frame.x_range), ("y", frame.y_range)):
        if not span[1] > span[0]:
            raise BadInput(
                f"{name} range of chart '{title}' is {span[0]:g} to {span[1]:g}: the end must be larger"
            )
    paper = Polygon(as_points([(0, 0), (size[0], 0), size, (0, size[1])]), "chart_frame")
    drawn: list[Item] = [paper, *_axes(frame, x_label, y_label, text_mm), *_bands(frame, bands)]
    drawn += _marks(frame, marks, text_mm)
    labels: list[PictureLabel] = []
    for index, one in enumerate(series):
        made, target = _drawn(frame, one, index)
        if made:
            drawn.append(Group(tuple(made), one.label))
        if one.label and target is not None:
            labels.append(PictureLabel(as_point(target), one.label, one.label, "right"))
    labels += [
        PictureLabel(as_point(at), words, None, "right", "note")
        for at, words in _band_labels(frame, bands, marks)
    ]
    drawn += place(labels, lambda low, high: 0.0, lambda low, high: size[0], height=text_mm, width=12 * text_mm,
                   gap=1.2 * text_mm)  # fmt: skip
    return _finished(drawn, title, f"{y_label} against {x_label}.", note, text_mm)


def _check(one: Series) -> None:
    x, y = np.asarray(one.x, dtype=float), np.asarray(one.y, dtype=float)
    if x.ndim != 1 or x.shape != y.shape:
        raise BadInput(
            f"series '{one.label}' has x of shape {x.shape} and y of {y.shape}: give two rows of one length"
        )


def _flat(rows: Sequence[ArrayLike]) -> list[float]:
    return [float(value) for row in rows for value in np.asarray(row, dtype=float).ravel()]


def _x_range(series: Sequence[Series], marks: Sequence[MarkAt]) -> tuple[float, float]:
    """Lines fill the width of the chart; points keep off its edges."""
    values = _flat([one.x for one in series]) + [mark.value for mark in marks if not mark.level]
    return padded(values, 0.06 if any(one.points for one in series) else 0.0)


def _y_range(
    series: Sequence[Series], bands: Sequence[ChartBand], marks: Sequence[MarkAt]
) -> tuple[float, float]:
    values: list[ArrayLike] = []
    for one in series:
        y = np.asarray(one.y, dtype=float)
        error = np.zeros_like(y) if one.y_error is None else np.asarray(one.y_error, dtype=float)
        values += [y - error, y + error]
    values += [[band.low, band.high] for band in bands if not band.upright]
    values += [[mark.value] for mark in marks if mark.level]
    return padded(_flat(values))


def _axes(frame: Frame, x_label: str, y_label: str, text_mm: float) -> list[Item]:
    items: list[Item] = []
    small = 0.85 * text_mm
    columns = ticks(*frame.x_range, most=max(2, int(frame.width / (4.5 * text_mm))))
    rows = ticks(*frame.y_range, most=max(2, int(frame.height / (2.5 * text_mm))))
    for value, words in zip(columns, tick_words(columns), strict=True):
        x = float(frame.place([value], [frame.y_range[0]])[0, 0])
        items.append(Polyline(((x, 0.0), (x, frame.height)), "grid"))
        items.append(Text((x, -0.5 * text_mm), words, "tick_text", small, ("centre", "top")))
    for value, words in zip(rows, tick_words(rows), strict=True):
        y = float(frame.place([frame.x_range[0]], [value])[0, 1])
        items.append(Polyline(((0.0, y), (frame.width, y)), "grid"))
        items.append(Text((-0.5 * text_mm, y), words, "tick_text", small, ("right", "middle")))
    widest = max(text_width(words, small) for words in tick_words(rows))
    items.append(Text((0.5 * frame.width, -2.0 * text_mm), x_label, "label", text_mm, ("centre", "top")))
    items.append(
        Text(
            (-1.2 * text_mm - widest, 0.5 * frame.height), y_label, "label", text_mm, ("right", "middle"), 90
        )
    )
    items.append(Polyline(((0.0, frame.height), (0.0, 0.0), (frame.width, 0.0)), "axis"))
    return items


def _bands(frame: Frame, bands: Sequence[ChartBand]) -> list[Item]:
    items: list[Item] = []
    for band in bands:
        if band.upright:
            box = frame.place([band.low, band.high], [frame.y_range[0], frame.y_range[1]])
        else:
            box = frame.place([frame.x_range[0], frame.x_range[1]], [band.low, band.high])
        (left, bottom), (right, top) = np.clip(box, 0.0, [frame.width, frame.height])
        if right > left and top > bottom:
            items.append(
                Polygon(as_points([(left, bottom), (right, bottom), (right, top), (left, top)]), "band")
            )
    return items


def _marks(frame: Frame, marks: Sequence[MarkAt], text_mm: float) -> list[Item]:
    items: list[Item] = []
    for mark in marks:
        x = frame.x_range if mark.level else (mark.value, mark.value)
        y = (mark.value, mark.value) if mark.level else frame.y_range
        line = frame.place(x, y)
        if frame.holds(line[0]) and frame.holds(line[1]):
            items.append(Polyline(as_points(line), "construction"))
            if mark.label and not mark.level:
                above = as_point(line[1] + np.array([0.0, 0.2 * text_mm]))
                items.append(Text(above, mark.label, "note", 0.85 * text_mm, ("centre", "bottom")))
    return items


def _band_labels(
    frame: Frame, bands: Sequence[ChartBand], marks: Sequence[MarkAt]
) -> list[tuple[Array, str]]:
    levels = [(0.5 * (band.low + band.high), band.label) for band in bands if band.label and not band.upright]
    levels += [(mark.value, mark.label) for mark in marks if mark.label and mark.level]
    places = [(frame.place([frame.x_range[1]], [value])[0], words) for value, words in levels]
    return [(at, words) for at, words in places if frame.holds(at)]


def _drawn(frame: Frame, one: Series, index: int) -> tuple[list[Item], Array | None]:
    """What a series looks like, and the place its label points to: its last point in the frame."""
    role = one.role or f"series_{index % COLOURS + 1}" + ("_point" if one.points else "")
    places = frame.place(one.x, one.y)
    if one.points:
        seen = [point for point in places if np.all(np.isfinite(point)) and frame.holds(point)]
        items = [*_error_bars(frame, one), *(_marker(point, role, index) for point in seen)]
        return items, seen[-1] if seen else None
    pieces = clipped(places, frame.width, frame.height)
    return [Polyline(as_points(piece), role) for piece in pieces], pieces[-1][-1] if pieces else None


def _marker(at: Array, role: str, index: int) -> Item:
    corners, turn = SHAPES[index % len(SHAPES)]
    if corners == 0:
        return Circle(as_point(at), 1.3, role)
    angles = np.pi / 2 + np.radians(turn) + 2 * np.pi * np.arange(corners) / corners
    return Polygon(as_points(at + 1.7 * np.stack([np.cos(angles), np.sin(angles)], axis=-1)), role)


def _error_bars(frame: Frame, one: Series) -> list[Item]:
    items: list[Item] = []
    x, y = np.asarray(one.x, dtype=float), np.asarray(one.y, dtype=float)
    for error, step in ((one.x_error, (1.0, 0.0)), (one.y_error, (0.0, 1.0))):
        if error is None:
            continue
        half = np.broadcast_to(np.asarray(error, dtype=float), x.shape)
        for low, high in zip(frame.place(x - half * step[0], y - half * step[1]),
                             frame.place(x + half * step[0], y + half * step[1]), strict=True):  # fmt: skip
            for piece in clipped(points_of(low, high), frame.width, frame.height):
                items.append(Polyline(as_points(piece), "error_bar"))
    return items


def clipped(line: Array, width: float, height: float) -> list[Array]:
    """The pieces of a line (N, 2) that lie in the box from (0, 0) to (width, height); it also breaks at NaN."""
    pieces: list[list[Array]] = []
    following = False
    for start, end in pairwise(line):
        part = _inside_box(start, end, width, height)
        if part is None:
            following = False
            continue
        if following and np.allclose(pieces[-1][-1], part[0]):
            pieces[-1].append(part[1])
        else:
            pieces.append([part[0], part[1]])
        following = True
    return [np.array(piece) for piece in pieces]


def _inside_box(start: Array, end: Array, width: float, height: float) -> tuple[Array, Array] | None:
    if not (np.all(np.isfinite(start)) and np.all(np.isfinite(end))):
        return None
    first, last = 0.0, 1.0
    step = end - start
    for axis, limit in ((0, width), (1, height)):
        for sign, room in ((-1.0, start[axis]), (1.0, limit - start[axis])):
            speed = sign * step[axis]
            if abs(speed) < 1e-15:
                if room < 0:
                    return None
            elif speed > 0:
                last = min(last, room / speed)
            else:
                first = max(first, room / speed)
    return (start + first * step, start + last * step) if first <= last else None


def _finished(items: list[Item], title: str, words: str, note: str, text_mm: float) -> DisplayList:
    """Title above and note below; bounds with a margin."""
    left, bottom, right, top = bounds_of(flatten(items))
    if title:
        items.append(Text((0.0, top + 0.6 * text_mm), title, "title", 1.2 * text_mm, ("left", "bottom")))
    for line in wrapped(note, 0.85 * text_mm, right - left) if note else []:
        items.append(Text((left, bottom - 0.4 * text_mm), line, "note", 0.85 * text_mm, ("left", "top")))
        bottom -= 0.85 * text_mm * LINE_HEIGHT
    left, bottom, right, top = bounds_of(flatten(items))
    bounds = (left - text_mm, bottom - text_mm, right + text_mm, top + text_mm)
    return DisplayList(tuple(items), bounds, title, f"{words} {note}".strip())
