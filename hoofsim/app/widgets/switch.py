"""A switch with its words beside it; off and on differ in place and in word, not in colour alone."""

from collections.abc import Callable

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.button import ACTIVATING_KEYS
from hoofsim.app.widgets.icons import draw_icon
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines


class Switch(Widget):
    """Holds on or off; `changed` is called with the new state."""

    focusable = True

    def __init__(
        self,
        name: str,
        on: bool,
        changed: Callable[[bool], None],
        explain: str = "",
        colour: str = "accent",
        words: tuple[str, str] = ("off", "on"),
    ) -> None:
        super().__init__(name, explain)
        self.on = on
        self.changed = changed
        self.colour = colour
        self.words = words

    def _label_width(self, width: int, theme: Theme) -> int:
        return width - theme.px(2.7) - self._word_width(theme)

    def _word_width(self, theme: Theme) -> int:
        pixels, face = theme.text_pixels("small_bold")
        return max(theme.fonts.width(word, face, pixels) for word in self.words) + theme.px(0.6)

    def height_for(self, width: int, theme: Theme) -> int:
        """As many lines as the words need."""
        pixels, face = theme.text_pixels("body")
        lines = wrap_lines(
            self.name, lambda part: theme.fonts.width(part, face, pixels), self._label_width(width, theme)
        )
        return max(theme.px(1.9), theme.fonts.line_height(face, pixels) * len(lines) + theme.px(0.4))

    def draw(self, painter: Painter) -> None:
        """Words, then a track with a thumb at its left (off) or right (on), and the state's word."""
        theme, rect = painter.theme, self.rect
        label = Rect(rect.x, rect.y, self._label_width(rect.w, theme), rect.h)
        painter.text(self.name, label, "body", "ink" if self.enabled else "quiet", wrap=True)
        track = Rect(rect.right - theme.px(2.4), rect.centery - theme.px(0.6), theme.px(2.4), theme.px(1.2))
        word = Rect(label.right, rect.y, track.x - theme.px(0.4) - label.right, rect.h)
        painter.text(self.words[int(self.on)], word, "small_bold", "quiet", align="right")
        painter.box(track, self.colour if self.on else "groove", "ink" if self.hovered else "faint", 0.6)
        x = track.right - theme.px(0.62) if self.on else track.x + theme.px(0.62)
        pygame.draw.aacircle(painter.surface, theme.colour("field"), (x, track.centery), theme.px(0.46))
        pygame.draw.aacircle(painter.surface, theme.colour("faint"), (x, track.centery), theme.px(0.46), 1)
        if self.on:
            box = Rect(0, 0, theme.px(0.5), theme.px(0.5))
            box.center = (x, track.centery)
            draw_icon(painter, "tick", box, self.colour)

    def toggle(self) -> None:
        """Turn over and tell."""
        self.on = not self.on
        self.changed(self.on)

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """A press turns the switch."""
        if self.enabled:
            self.toggle()
        return False

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Space and Enter turn it; Left sets off, Right on."""
        if not self.enabled:
            return False
        wanted = {pygame.K_LEFT: False, pygame.K_RIGHT: True}.get(event.key)
        if event.key in ACTIVATING_KEYS or (wanted is not None and wanted != self.on):
            self.toggle()
            return True
        return wanted is not None
