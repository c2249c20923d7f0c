"""A small live plot: bands, lines and points over round-numbered axes."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.painter import Painter
from hoofsim.drawing.ticks import tick_words, ticks

XY = tuple[float, float]


@dataclass(frozen=True)
class PlotLine:
    """A curve through (x, y) points; a None in it is a gap. `dashed` for what is compared with."""

    points: tuple[XY | None, ...]
    colour: str = "accent"
    dashed: bool = False


@dataclass(frozen=True)
class PlotMark:
    """One point; hollow for a baseline, with words beside it if any."""

    at: XY
    colour: str = "accent"
    hollow: bool = False
    words: str = ""


@dataclass(frozen=True)
class PlotBand:
    """A range of y that means something, such as a reference range."""

    low: float
    high: float
    colour: str = "reference"


@dataclass(frozen=True)
class PlotPicture:
    """What a plot shows at one moment."""

    x_words: str
    y_words: str
    lines: tuple[PlotLine, ...] = ()
    marks: tuple[PlotMark, ...] = ()
    bands: tuple[PlotBand, ...] = ()
    x_range: tuple[float, float] | None = None
    note: str = ""
    least_height: float = field(default=1.0)  # of the y axis, so that noise is not blown up to a mountain


def data_range(picture: PlotPicture) -> tuple[XY, XY]:
    """The ends of the x and y axes that hold everything, with some air in y."""
    points = [p for line in picture.lines for p in line.points if p is not None] + [
        m.at for m in picture.marks
    ]
    xs = [p[0] for p in points] or [0.0, 1.0]
    ys = [p[1] for p in points] or [0.0, 1.0]
    x_low, x_high = picture.x_range or (min(xs), max(xs))
    if x_high <= x_low:
        x_low, x_high = x_low - 0.5, x_high + 0.5
    low, high = min(ys), max(ys)
    missing = max(0.0, picture.least_height - (high - low)) / 2
    air = 0.12 * max(high - low, picture.least_height)
    return (x_low, x_high), (low - missing - air, high + missing + air)


@dataclass(frozen=True)
class Scale:
    """Where data stand in the window: `frame` holds the ranges `x` and `y`."""

    frame: Rect
    x: XY
    y: XY

    def to_window(self, at: XY) -> XY:
        """Window position of a data point."""
        (x_low, x_high), (low, high) = self.x, self.y
        return (
            self.frame.x + self.frame.w * (at[0] - x_low) / (x_high - x_low),
            self.frame.bottom - self.frame.h * (at[1] - low) / (high - low),
        )


class Plot(Widget):
    """Draws the `picture` it is given; give it a new one whenever something changed."""

    def __init__(self, name: str, explain: str = "") -> None:
        super().__init__(name, explain)
        self.picture = PlotPicture("", "")

    def content(self) -> object:
        """The picture."""
        return self.picture

    def height_for(self, width: int, theme: Theme) -> int:
        """A wide strip."""
        return max(theme.px(9), min(theme.px(13), width * 6 // 10))

    def scale(self, theme: Theme) -> Scale:
        """Where the data go, inside the axes' words."""
        pixels, face = theme.text_pixels("small")
        x_ends, (low, high) = data_range(self.picture)
        widest = max(
            theme.fonts.width(words, face, pixels) for words in tick_words(self._y_ticks(low, high, theme))
        )
        left = widest + theme.px(0.7)
        top, bottom = theme.px(1.9), theme.px(2.9)
        frame = Rect(
            self.rect.x + left,
            self.rect.y + top,
            max(10, self.rect.w - left - theme.px(0.8)),
            max(10, self.rect.h - top - bottom),
        )
        return Scale(frame, x_ends, (low, high))

    def _y_ticks(self, low: float, high: float, theme: Theme) -> list[float]:
        room = self.rect.h - theme.px(4.8)
        return ticks(low, high, max(2, min(6, round(room / theme.px(1.7))))) or [low]

    def draw(self, painter: Painter) -> None:
        """Axes, bands, curves, marks, words."""
        theme, picture = painter.theme, self.picture
        scale = self.scale(theme)
        frame = scale.frame
        title = Rect(self.rect.x, self.rect.y, self.rect.w, theme.px(1.5))
        painter.text(picture.y_words, title, "small_bold")
        painter.box(frame, "field", "line", 0)
        with painter.clipped(frame):
            for band in picture.bands:
                top = scale.to_window((scale.x[0], band.high))[1]
                bottom = scale.to_window((scale.x[0], band.low))[1]
                painter.box(
                    Rect(frame.x, round(top), frame.w, max(2, round(bottom - top))), band.colour, None, 0
                )
        self._axes(painter, scale)
        with painter.clipped(frame.inflate(theme.px(0.8), theme.px(0.8))):
            for line in picture.lines:
                self._line(painter, line, scale)
            for mark in picture.marks:
                self._mark(painter, mark, scale)
        if picture.note:
            painter.text(
                picture.note, frame.inflate(-theme.px(1), 0), "small_italic", "quiet", "centre", wrap=True
            )

    def _axes(self, painter: Painter, scale: Scale) -> None:
        theme, frame = painter.theme, scale.frame
        line = theme.px(1.3)
        heights = self._y_ticks(*scale.y, theme)
        for value, number in zip(heights, tick_words(heights), strict=True):
            y = round(scale.to_window((scale.x[0], value))[1])
            painter.line((frame.x, y), (frame.right - 1, y), "line", theme.hairline)
            words = Rect(self.rect.x, y - line // 2, frame.x - self.rect.x - theme.px(0.3), line)
            painter.text(number, words, "small", "quiet", "right")
        if self.picture.x_words:
            places = ticks(*scale.x, max(2, min(7, frame.w // theme.px(3.2))))
            for value, number in zip(places, tick_words(places), strict=True):
                x = round(scale.to_window((value, scale.y[0]))[0])
                painter.line((x, frame.bottom), (x, frame.bottom + theme.px(0.2)), "faint", theme.hairline)
                words = Rect(0, frame.bottom + theme.px(0.2), painter.text_width(number, "small"), line)
                words.centerx = x
                words.clamp_ip(self.rect)
                painter.text(number, words, "small", "quiet")
            below = Rect(self.rect.x, frame.bottom + theme.px(1.5), self.rect.w, line)
            painter.text(self.picture.x_words, below, "small", "quiet", "right")

    def _line(self, painter: Painter, line: PlotLine, scale: Scale) -> None:
        width = painter.theme.px(0.14)
        piece: list[XY] = []
        for point in (*line.points, None):
            if point is not None:
                piece.append(scale.to_window(point))
                continue
            draw_curve(painter, piece, line.colour, width, line.dashed)
            piece = []

    def _mark(self, painter: Painter, mark: PlotMark, scale: Scale) -> None:
        theme = painter.theme
        centre = scale.to_window(mark.at)
        pygame.draw.aacircle(painter.surface, theme.colour("field"), centre, theme.px(0.46))
        ring = max(1, theme.px(0.13)) if mark.hollow else 0
        pygame.draw.aacircle(painter.surface, theme.colour(mark.colour), centre, theme.px(0.36), ring)
        if mark.words:
            width = painter.text_width(mark.words, "small_bold")
            box = Rect(
                round(centre[0]) + theme.px(0.6), round(centre[1]) - theme.px(1.3), width, theme.px(1.3)
            )
            box.clamp_ip(scale.frame)
            painter.text(mark.words, box, "small_bold", mark.colour)


def draw_curve(painter: Painter, points: Sequence[XY], colour: str, width: int, dashed: bool = False) -> None:
    """A smooth-edged line through window points; dashed: every other stretch of a fixed length left out."""
    ink = painter.theme.colour(colour)
    if dashed:
        for start, end in dash(points, painter.theme.px(0.5)):
            pygame.draw.aaline(painter.surface, ink, start, end, width)
    else:
        for start, end in itertools.pairwise(points):
            pygame.draw.aaline(painter.surface, ink, start, end, width)


def dash(points: Sequence[XY], length: float) -> list[tuple[XY, XY]]:
    """Every other stretch of `length` along a line."""
    pieces: list[tuple[XY, XY]] = []
    walked = 0.0
    for start, end in itertools.pairwise(points):
        span = math.hypot(end[0] - start[0], end[1] - start[1])
        done = 0.0
        while done < span - 1e-9:
            left = length - walked % length
            step = min(left, span - done)
            if int(walked / length + 1e-9) % 2 == 0:
                a, b = done / span, (done + step) / span
                pieces.append(
                    (
                        (start[0] + (end[0] - start[0]) * a, start[1] + (end[1] - start[1]) * a),
                        (start[0] + (end[0] - start[0]) * b, start[1] + (end[1] - start[1]) * b),
                    )
                )
            done += max(step, 1e-6)
            walked += max(step, 1e-6)
    return pieces
