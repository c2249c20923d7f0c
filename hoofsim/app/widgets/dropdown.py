"""A list that opens under its button; each choice may carry a sentence."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.button import ACTIVATING_KEYS
from hoofsim.app.widgets.layout import inset
from hoofsim.app.widgets.painter import Painter


@dataclass(frozen=True)
class Choice:
    """One line of the list: the value handed on, and its words."""

    value: str
    words: str


class DropDown(Widget):
    """Shows the chosen words; opens on press, Enter, Space or Down; `chosen(value)` is called on a new choice."""

    focusable = True

    def __init__(
        self,
        name: str,
        choices: Sequence[Choice],
        value: str,
        chosen: Callable[[str], None],
        explain: str = "",
        titled: bool = True,
    ) -> None:
        """`titled`: the name stands before the chosen words."""
        super().__init__(name, explain)
        self.choices = list(choices)
        self.value = value
        self.chosen = chosen
        self.titled = titled
        self.pointed = 0
        self.first = 0  # the topmost line of a list too long for the window
        self._window = Rect(0, 0, 0, 0)
        self._over = Rect(0, 0, 0, 0)

    def words(self) -> str:
        """Words of the present choice; the bare value when it is none of the list."""
        return next((choice.words for choice in self.choices if choice.value == self.value), self.value)

    def height_for(self, width: int, theme: Theme) -> int:
        """One line, or two when the title does not fit beside the longest choice."""
        return theme.px(2.1) + (theme.px(1.4) if self.titled else 0)

    def width(self, theme: Theme) -> int:
        """Width in pixels that shows the longest choice."""
        pixels, face = theme.text_pixels("body")
        return max(theme.fonts.width(c.words, face, pixels) for c in self.choices) + theme.px(2.4)

    def _field(self, theme: Theme) -> Rect:
        title = theme.px(1.4) if self.titled else 0
        return Rect(self.rect.x, self.rect.y + title, self.rect.w, self.rect.h - title)

    def draw(self, painter: Painter) -> None:
        """Title over a field with the chosen words and a downward sign."""
        theme = painter.theme
        field = self._field(theme)
        if self.titled:
            painter.text(
                self.name, Rect(self.rect.x, self.rect.y, self.rect.w, theme.px(1.3)), "small", "quiet"
            )
        painter.box(field, "accent_soft" if self.hovered and self.enabled else "field", "faint", 0.35)
        inner = inset(field, theme.px(0.6), 0)
        sign = theme.px(0.7)
        painter.text(
            self.words(),
            Rect(inner.x, inner.y, inner.w - sign - theme.px(0.3), inner.h),
            colour="ink" if self.enabled else "quiet",
        )
        x, y = inner.right - sign, field.centery - sign // 4
        points = [(x, y), (x + sign, y), (x + sign / 2, y + sign * 0.6)]
        painter.smooth(points, "quiet")

    def _line_height(self, theme: Theme) -> int:
        return theme.px(1.9)

    def _lines_shown(self, theme: Theme) -> int:
        room = max(self._line_height(theme), self._window.h - theme.px(1.2))
        return max(1, min(len(self.choices), room // self._line_height(theme)))

    def _list_rect(self, theme: Theme) -> Rect:
        field = self._field(theme)
        height = self._lines_shown(theme) * self._line_height(theme) + theme.px(0.4)
        width = min(max(field.w, self.width(theme)), self._window.w)
        y = field.bottom + theme.px(0.15)
        if y + height > self._window.bottom:
            y = max(self._window.y, min(field.top - height, self._window.bottom - height))
        x = min(field.x, self._window.right - width)
        return Rect(x, y, width, height)

    def over_rect(self) -> Rect:
        """Where the opened list lies (as last drawn)."""
        return self._over if self.open else self.rect

    def draw_over(self, painter: Painter) -> None:
        """The opened list, with the pointed line marked by a bar as well as by colour."""
        theme = painter.theme
        painter.box(self._over, "field", "ink", 0.35)
        for rect, index in self._placed(theme):
            choice = self.choices[index]
            if index == self.pointed:
                painter.box(rect, "accent_soft", None, 0.2)
                painter.box(Rect(rect.x, rect.y, theme.px(0.2), rect.h), "accent", None, 0)
            role = "bold" if choice.value == self.value else "body"
            painter.text(choice.words, inset(rect, theme.px(0.6), 0), role)

    def _placed(self, theme: Theme) -> list[tuple[Rect, int]]:
        height, pad = self._line_height(theme), theme.px(0.2)
        shown = range(self.first, min(len(self.choices), self.first + self._lines_shown(theme)))
        across = self._over.w - 2 * pad
        top = self._over.y + pad
        return [
            (Rect(self._over.x + pad, top + (index - self.first) * height, across, height), index)
            for index in shown
        ]

    def _point_at(self, index: int, theme: Theme) -> None:
        self.pointed = min(max(index, 0), len(self.choices) - 1)
        shown = self._lines_shown(theme)
        self.first = min(max(self.first, self.pointed - shown + 1), self.pointed)

    def _open(self, theme: Theme) -> None:
        self.open = True
        values = [choice.value for choice in self.choices]
        self._window = Rect((0, 0), theme.window)
        self._point_at(values.index(self.value) if self.value in values else 0, theme)
        self._over = self._list_rect(theme)

    def choose(self, index: int) -> None:
        """Take a choice, close, and tell when it is new."""
        self.open = False
        value = self.choices[index].value
        if value != self.value:
            self.value = value
            self.chosen(value)

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """Open; or, when open, take the line pressed, or close when pressed elsewhere."""
        if not self.enabled:
            return False
        if not self.open:
            self._open(theme)
            return False
        for rect, index in self._placed(theme):
            if rect.collidepoint(position):
                self.choose(index)
                return False
        self.open = False
        return False

    def hover(self, position: tuple[int, int], theme: Theme) -> None:
        """Point at the line under the pointer."""
        if self.open:
            for rect, index in self._placed(theme):
                if rect.collidepoint(position):
                    self.pointed = index

    def wheel(self, steps: float, theme: Theme) -> bool:
        """Scroll an opened list."""
        if self.open:
            self._point_at(self.pointed - int(steps), theme)
        return self.open

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Closed: Enter, Space or Down opens. Open: arrows, Home, End, first letters; Enter takes, Escape closes."""
        if not self.enabled:
            return False
        if not self.open:
            if event.key in (*ACTIVATING_KEYS, pygame.K_DOWN):
                self._open(theme)
                return True
            return False
        steps = {pygame.K_DOWN: 1, pygame.K_UP: -1, pygame.K_PAGEDOWN: 8, pygame.K_PAGEUP: -8}
        if event.key in steps:
            self._point_at(self.pointed + steps[event.key], theme)
        elif event.key == pygame.K_HOME:
            self._point_at(0, theme)
        elif event.key == pygame.K_END:
            self._point_at(len(self.choices) - 1, theme)
        elif event.key in ACTIVATING_KEYS:
            self.choose(self.pointed)
        elif event.key in (pygame.K_ESCAPE, pygame.K_TAB):
            self.open = False
        else:
            self._jump(event.unicode, theme)
        return True

    def _jump(self, letter: str, theme: Theme) -> None:
        if not letter:
            return
        order = list(range(self.pointed + 1, len(self.choices))) + list(range(self.pointed + 1))
        for index in order:
            if self.choices[index].words.lower().startswith(letter.lower()):
                self._point_at(index, theme)
                return
