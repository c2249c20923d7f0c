"""A panel that shows a column of widgets taller than itself."""

from collections.abc import Sequence

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget, walk
from hoofsim.app.widgets.painter import Painter


class ScrollPanel(Widget):
    """A column of widgets in a window of its own; takes the focus itself only when nothing inside could."""

    def __init__(self, name: str, items: Sequence[Widget], gap: float = 0.55) -> None:
        """`gap` between items, in text sizes."""
        super().__init__(name)
        self.items = list(items)
        self.gap = gap
        self.offset = 0
        self.content_height = 0
        self._theme: Theme | None = None
        self._grip: int | None = None

    @property
    def focusable(self) -> bool:  # type: ignore[override]
        """True for a panel of mere text that is taller than its place."""
        return self.overflows() and not any(widget.focusable for widget in walk(self.items))

    def overflows(self) -> bool:
        """True when there is more than can be seen."""
        return self.content_height > self.rect.h + 1

    def children(self) -> Sequence[Widget]:
        """What is inside."""
        return self.items

    def content(self) -> object:
        """What the items show."""
        return tuple(item.content() for item in self.items if item.visible)

    def height_for(self, width: int, theme: Theme) -> int:
        """Height that would show everything."""
        shown = [item for item in self.items if item.visible]
        gaps = theme.px(self.gap) * max(0, len(shown) - 1)
        return sum(item.height_for(width, theme) for item in shown) + gaps

    def place(self, rect: Rect, theme: Theme) -> None:
        """Place every item, moved up by the offset; all know the clip they are seen through."""
        self.rect, self._theme = Rect(rect), theme
        width = rect.w
        self.content_height = self.height_for(width, theme)
        if self.overflows():
            width = rect.w - theme.px(0.9)
            self.content_height = self.height_for(width, theme)
        self.offset = min(max(0, self.offset), max(0, self.content_height - rect.h))
        y = rect.y - self.offset
        for item in self.items:
            if not item.visible:
                continue
            height = item.height_for(width, theme)
            item.place(Rect(rect.x, y, width, height), theme)
            y += height + theme.px(self.gap)
        clip = self.rect if self.clip is None else self.rect.clip(self.clip)
        for widget in walk(self.items):
            widget.clip = clip

    def draw(self, painter: Painter) -> None:
        """The visible items and, when there is more, a bar."""
        with painter.clipped(self.rect):
            for item in self.items:
                if item.visible and item.rect.colliderect(self.rect):
                    item.draw(painter)
            if self.overflows():
                track, thumb = self._bar(painter.theme)
                painter.box(track, "groove", None, 0.2)
                painter.box(thumb, "faint" if not self.hovered else "quiet", None, 0.2)

    def _bar(self, theme: Theme) -> tuple[Rect, Rect]:
        track = Rect(self.rect.right - theme.px(0.45), self.rect.y, theme.px(0.45), self.rect.h)
        height = max(theme.px(1.5), track.h * self.rect.h // max(1, self.content_height))
        spare = max(1, self.content_height - self.rect.h)
        y = track.y + (track.h - height) * self.offset // spare
        return track, Rect(track.x, y, track.w, height)

    def scroll(self, pixels: int) -> None:
        """Move the content up by so many pixels."""
        if self._theme is not None:
            self.offset += pixels
            self.place(self.rect, self._theme)

    def reveal(self, widget: Widget) -> None:
        """Scroll so that a widget inside can be seen whole."""
        margin = self._theme.px(0.6) if self._theme else 0
        if widget.rect.top < self.rect.top + margin:
            self.scroll(widget.rect.top - self.rect.top - margin)
        elif widget.rect.bottom > self.rect.bottom - margin:
            self.scroll(min(widget.rect.bottom - self.rect.bottom + margin, widget.rect.top - self.rect.top))

    def wheel(self, steps: float, theme: Theme) -> bool:
        """Three lines a step."""
        if self.overflows():
            self.scroll(round(-steps * theme.px(3.6)))
            return True
        return False

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """Take hold of the bar."""
        if not self.overflows():
            return False
        track, thumb = self._bar(theme)
        if not track.inflate(theme.px(0.5), 0).collidepoint(position):
            return False
        self._grip = (
            position[1] - thumb.y if thumb.collidepoint((thumb.centerx, position[1])) else thumb.h // 2
        )
        self.drag(position, theme)
        return True

    def drag(self, position: tuple[int, int], theme: Theme) -> None:
        """Move the bar with the pointer."""
        if self._grip is None:
            return
        track, thumb = self._bar(theme)
        share = (position[1] - self._grip - track.y) / max(1, track.h - thumb.h)
        self.offset = round(share * (self.content_height - self.rect.h))
        self.place(self.rect, theme)

    def release(self, position: tuple[int, int], theme: Theme) -> None:
        """Let go of the bar."""
        self._grip = None

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Arrows, Page, Home and End scroll."""
        moves = {
            pygame.K_DOWN: theme.px(2),
            pygame.K_UP: -theme.px(2),
            pygame.K_PAGEDOWN: self.rect.h - theme.px(2),
            pygame.K_PAGEUP: theme.px(2) - self.rect.h,
            pygame.K_HOME: -self.content_height,
            pygame.K_END: self.content_height,
        }
        if event.key not in moves or not self.overflows():
            return False
        self.scroll(moves[event.key])
        return True
