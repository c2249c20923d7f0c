"""Measures in rows: name, value, reference bar, change from the baseline; one row is chosen, for the plot."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.button import ACTIVATING_KEYS
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines

# In text sizes: between a value and its change, between the arrow and the change's digits, and half the arrow's width.
COLUMN_GAP, ARROW_GAP, ARROW_HALF = 0.5, 0.45, 0.24


@dataclass(frozen=True)
class MeasureRow:
    """One measure as shown. `readable` says whether a radiograph could show this change; then it is set in full ink.

    `reference` are the ends of the range, `place` the value in the same numbers (None where undefined), `band` the ends
    between which it is uncertain, and `band_words` the same in words.
    """

    key: str
    words: str
    value: str
    change: str = ""
    direction: int = 0
    readable: bool = True
    reference: tuple[float, float] | None = None
    place: float | None = None
    band: tuple[float, float] | None = None
    band_words: str = ""


class MeasureList(Widget):
    """A column of rows with one focus stop: Up and Down move the choice, Enter hands it on again."""

    focusable = True

    def __init__(self, name: str, chosen: Callable[[str], None], explain: str = "") -> None:
        super().__init__(name, explain)
        self.rows: Sequence[MeasureRow] = ()
        self.selected = ""
        self.chosen = chosen
        self.pointed: str | None = None
        self._rects: list[Rect] = []

    def value_widths(self, theme: Theme) -> tuple[int, int]:
        """Widths of the value and of the change, the same in all rows so that they stand in columns."""
        value = max((theme.text_width(row.value, "number") for row in self.rows), default=0)
        change = max((theme.text_width(row.change, "small_bold") for row in self.rows), default=0)
        return max(theme.px(4.2), value), max(
            theme.px(3.2), change + theme.px(ARROW_GAP) + 2 * theme.px(ARROW_HALF)
        )

    def _heights(self, width: int, theme: Theme) -> list[int]:
        heights = []
        for row in self.rows:
            lines = len(
                wrap_lines(row.words, lambda part: theme.text_width(part, "small"), width - theme.px(0.9))
            )
            words = theme.line_height("small") * lines
            heights.append(words + theme.line_height() + theme.px(0.35))
        return heights

    def height_for(self, width: int, theme: Theme) -> int:
        """All rows."""
        return sum(self._heights(width, theme))

    def place(self, rect: Rect, theme: Theme) -> None:
        """Place every row."""
        super().place(rect, theme)
        self._rects, y = [], rect.y
        for height in self._heights(rect.w, theme):
            self._rects.append(Rect(rect.x, y, rect.w, height))
            y += height

    def content(self) -> object:
        """The rows."""
        return tuple(self.rows)

    def draw(self, painter: Painter) -> None:
        """The rows that can be seen."""
        clip = painter.surface.get_clip()
        widths = self.value_widths(painter.theme)
        for row, rect in zip(self.rows, self._rects, strict=True):
            if rect.colliderect(clip):
                self._row(painter, row, rect, widths)

    def _row(self, painter: Painter, row: MeasureRow, rect: Rect, widths: tuple[int, int]) -> None:
        theme = painter.theme
        if row.key == self.selected:
            painter.box(rect, "accent_soft", None, 0.25)
            painter.box(Rect(rect.x, rect.y, theme.px(0.2), rect.h), "accent", None, 0)
        elif row.key == self.pointed:
            painter.box(rect, "field", "line", 0.25)
        inner = Rect(rect.x + theme.px(0.5), rect.y + theme.px(0.12), rect.w - theme.px(0.9), rect.h)
        used = painter.text(row.words, inner, "small", "ink", valign="top", wrap=True)
        value_width, change_width = widths
        line = Rect(inner.x, inner.y + used, inner.w, theme.line_height())
        change = Rect(line.right - change_width, line.y, change_width, line.h)
        value = Rect(change.x - value_width - theme.px(COLUMN_GAP), line.y, value_width, line.h)
        painter.text(row.value, value, "number", align="right")
        self._change(painter, row, change)
        bar = Rect(inner.x, line.centery - theme.px(0.16), value.x - theme.px(0.9) - inner.x, theme.px(0.32))
        if row.reference is not None and bar.w > theme.px(3):
            draw_reference(painter, bar, row.reference, row.place)
            if row.band is not None:
                draw_band(painter, bar, row.reference, row.band)
        elif row.band_words and theme.text_width(row.band_words, "small") <= bar.w:
            painter.text(row.band_words, Rect(bar.x, line.y, bar.w, line.h), "small", "quiet")

    def _change(self, painter: Painter, row: MeasureRow, rect: Rect) -> None:
        if not row.change:
            return
        theme = painter.theme
        ink = "ink" if row.readable else "quiet"
        role = "small_bold" if row.readable else "small_italic"
        painter.text(row.change, rect, role, ink, "right")
        if row.direction and row.readable:
            x = rect.right - theme.text_width(row.change, role) - theme.px(ARROW_GAP)
            draw_direction(painter, x, rect.centery, row.direction)

    def _choose(self, index: int) -> None:
        self.selected = self.rows[index].key
        self.chosen(self.selected)

    def row_rect(self, key: str) -> Rect | None:
        """Where a row stands; None for an unknown one."""
        return next((r for row, r in zip(self.rows, self._rects, strict=True) if row.key == key), None)

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """Choose the row pressed."""
        for index, rect in enumerate(self._rects):
            if rect.collidepoint(position):
                self._choose(index)
        return False

    def hover(self, position: tuple[int, int], theme: Theme) -> None:
        """Mark the row under the pointer."""
        found = [row.key for row, r in zip(self.rows, self._rects, strict=True) if r.collidepoint(position)]
        self.pointed = found[0] if found else None

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Up, Down, Page, Home and End move the choice."""
        keys = [row.key for row in self.rows]
        if not keys:
            return False
        here = keys.index(self.selected) if self.selected in keys else -1
        targets = {
            pygame.K_DOWN: here + 1,
            pygame.K_UP: here - 1,
            pygame.K_PAGEDOWN: here + 8,
            pygame.K_PAGEUP: here - 8,
            pygame.K_HOME: 0,
            pygame.K_END: len(keys) - 1,
        }
        if event.key in targets:
            self._choose(min(max(targets[event.key], 0), len(keys) - 1))
        elif event.key in ACTIVATING_KEYS and here >= 0:
            self._choose(here)
        else:
            return False
        return True


def draw_direction(painter: Painter, x: int, y: int, direction: int) -> None:
    """A small triangle up or down, ending at x."""
    theme = painter.theme
    half, tall = theme.px(ARROW_HALF), theme.px(0.4) * (1 if direction > 0 else -1)
    points = [(x - 2 * half, y + tall // 2), (x, y + tall // 2), (x - half, y - tall // 2)]
    painter.sign(points, "ink", "▲" if direction > 0 else "▼")


def draw_reference(painter: Painter, bar: Rect, reference: tuple[float, float], place: float | None) -> None:
    """A thin track with the reference range as a block and the value as a pointed mark, held at the ends."""
    theme = painter.theme
    low, high = reference
    left, right = shown_ends(reference)
    track = Rect(bar.x, bar.centery - max(1, theme.hairline // 2), bar.w, max(1, theme.hairline))
    painter.box(track, "line", None, 0)
    start = bar.x + bar.w * (low - left) / (right - left)
    end = bar.x + bar.w * (high - left) / (right - left)
    painter.box(Rect(round(start), bar.y, round(end - start), bar.h), "reference", "faint", 0.1, 1)
    if place is None:
        return
    share = min(max((place - left) / (right - left), 0.0), 1.0)
    x, inside = bar.x + bar.w * share, low <= place <= high
    half = theme.px(0.26)
    points = [(x - half, bar.y - half), (x + half, bar.y - half), (x, bar.bottom)]
    painter.smooth(points, "good" if inside else "warn")


def shown_ends(reference: tuple[float, float]) -> tuple[float, float]:
    """The values at the ends of a bar: the reference range and its width again on either side."""
    low, high = reference
    span = max(high - low, 1e-9)
    return low - span, high + span


def draw_band(painter: Painter, bar: Rect, reference: tuple[float, float], band: tuple[float, float]) -> None:
    """A bracket under the bar from one end of the band to the other; an end beyond the bar has no tick."""
    theme = painter.theme
    left, right = shown_ends(reference)
    places = [bar.x + bar.w * (end - left) / (right - left) for end in band]
    start, end = (min(max(place, bar.x), bar.right) for place in places)
    y, tick = bar.bottom + theme.px(0.36), theme.px(0.2)
    painter.line((start, y), (end, y), "quiet", theme.hairline)
    for place in places:
        if bar.x <= place <= bar.right:
            painter.line((place, y - tick), (place, y), "quiet", theme.hairline)
