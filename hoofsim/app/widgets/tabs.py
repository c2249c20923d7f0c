"""A column or a row of tabs, one chosen: one stop for Tab, arrows move the choice."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.icons import draw_icon
from hoofsim.app.widgets.painter import Painter


@dataclass(frozen=True)
class TabItem:
    """One tab: its key, word, sign and colour."""

    key: str
    words: str
    icon: str
    colour: str = "accent"
    explain: str = ""


class Tabs(Widget):
    """Upright: sign over word, one under another. Otherwise side by side, sign and word in one line."""

    focusable = True

    def __init__(
        self,
        name: str,
        items: Sequence[TabItem],
        selected: str,
        chosen: Callable[[str], None],
        upright: bool = True,
    ) -> None:
        super().__init__(name)
        self.items = list(items)
        self.selected = selected
        self.chosen = chosen
        self.upright = upright
        self._rects: list[Rect] = []
        self._pointed: str | None = None

    def width(self, theme: Theme) -> int:
        """Width of an upright column."""
        return max(theme.text_width(item.words, "small_bold") for item in self.items) + theme.px(1.0)

    def tab_height(self, theme: Theme) -> int:
        """Height of one upright tab."""
        return theme.px(1.7) + theme.line_height("small_bold") + theme.px(0.55)

    def height_for(self, width: int, theme: Theme) -> int:
        """Whole column, or one row."""
        if self.upright:
            return (self.tab_height(theme) + theme.px(0.25)) * len(self.items)
        return theme.px(2.2)

    def place(self, rect: Rect, theme: Theme) -> None:
        """Place every tab."""
        super().place(rect, theme)
        if self.upright:
            tall = self.tab_height(theme)
            step = tall + theme.px(0.25)
            self._rects = [Rect(rect.x, rect.y + i * step, rect.w, tall) for i in range(len(self.items))]
        else:
            wide = rect.w / len(self.items)
            self._rects = [
                Rect(round(rect.x + i * wide), rect.y, round(wide) - theme.px(0.15), rect.h)
                for i in range(len(self.items))
            ]

    def draw(self, painter: Painter) -> None:
        """The chosen tab is joined to its panel and carries its colour as a bar."""
        theme = painter.theme
        for item, rect in zip(self.items, self._rects, strict=True):
            chosen = item.key == self.selected
            if chosen:
                painter.box(rect, "card", "line", 0.35)
                bar = Rect(rect.x, rect.y + theme.px(0.35), theme.px(0.24), rect.h - theme.px(0.7))
                if not self.upright:
                    bar = Rect(
                        rect.x + theme.px(0.35),
                        rect.bottom - theme.px(0.24),
                        rect.w - theme.px(0.7),
                        theme.px(0.24),
                    )
                painter.box(bar, item.colour, None, 0.1)
            elif item.key == self._pointed:
                painter.box(rect, "accent_soft", None, 0.35)
            ink = item.colour if chosen else "quiet"
            size = theme.px(1.35)
            if self.upright:
                sign = Rect(rect.centerx - size // 2, rect.y + theme.px(0.35), size, size)
                draw_icon(painter, item.icon, sign, ink)
                words = Rect(
                    rect.x, sign.bottom + theme.px(0.1), rect.w, rect.bottom - sign.bottom - theme.px(0.2)
                )
                painter.text(item.words, words, "small_bold" if chosen else "small", "ink", "centre")
            else:
                painter.text(item.words, rect, "bold" if chosen else "body", "ink", "centre")

    def choose(self, key: str) -> None:
        """Take a tab and tell, if it is new."""
        if key != self.selected:
            self.selected = key
            self.chosen(key)

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """Take the tab pressed."""
        for item, rect in zip(self.items, self._rects, strict=True):
            if rect.collidepoint(position):
                self.choose(item.key)
        return False

    def hover(self, position: tuple[int, int], theme: Theme) -> None:
        """Mark the tab under the pointer."""
        found = [i for i, r in zip(self.items, self._rects, strict=True) if r.collidepoint(position)]
        self._pointed = found[0].key if found else None
        self.explain = found[0].explain if found else ""

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Arrows, Home and End."""
        keys = [item.key for item in self.items]
        here = keys.index(self.selected) if self.selected in keys else 0
        targets = {
            pygame.K_DOWN: here + 1,
            pygame.K_RIGHT: here + 1,
            pygame.K_UP: here - 1,
            pygame.K_LEFT: here - 1,
            pygame.K_HOME: 0,
            pygame.K_END: len(keys) - 1,
        }
        if event.key not in targets:
            return False
        self.choose(keys[targets[event.key] % len(keys)])
        return True
