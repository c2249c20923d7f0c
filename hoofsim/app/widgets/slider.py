"""A slider: words, value with unit, a groove with a tick at the start value, and a thumb that keys can move too."""

from collections.abc import Callable

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines

PAGE_STEPS = 10


def rounded(value: float, step: float, low: float, high: float) -> float:
    """The value on the nearest step, within the ends; the ends themselves are always reachable."""
    if value <= low or value >= high:
        return min(max(value, low), high)
    on_step = round(round(value / step) * step, 6)
    return min(max(on_step, low), high)


class Slider(Widget):
    """Holds a number between two ends.

    `changed(value, gesture)` is called on every change; the gesture is the same text all through one drag or one run
    of the same key, so that an undo can take it back as one.
    """

    focusable = True

    def __init__(
        self,
        name: str,
        value: float,
        low: float,
        high: float,
        step: float,
        default: float,
        changed: Callable[[float, str], None],
        shown: Callable[[float], str],
        explain: str = "",
        colour: str = "accent",
    ) -> None:
        super().__init__(name, explain)
        self.value = value
        self.low, self.high, self.step, self.default = low, high, step, default
        self.changed = changed
        self.shown = shown
        self.colour = colour
        self.baseline: float | None = None  # drawn as a hollow mark when it differs from the value
        self._gesture = 0
        self._dragging = False

    def _value_width(self, theme: Theme) -> int:
        pixels, face = theme.text_pixels("number")
        widest = max((self.shown(v) for v in (self.low, self.high, self.value)), key=len)
        return theme.fonts.width(widest, face, pixels) + theme.px(0.2)

    def _label_lines(self, width: int, theme: Theme) -> int:
        pixels, face = theme.text_pixels("body")
        room = width - self._value_width(theme) - theme.px(0.5)
        return len(wrap_lines(self.name, lambda part: theme.fonts.width(part, face, pixels), room))

    def _label_height(self, width: int, theme: Theme) -> int:
        pixels, face = theme.text_pixels("body")
        return theme.fonts.line_height(face, pixels) * self._label_lines(width, theme)

    def height_for(self, width: int, theme: Theme) -> int:
        """Lines of the words, and the groove."""
        return self._label_height(width, theme) + theme.px(1.25)

    def groove(self, theme: Theme) -> Rect:
        """Where the groove runs."""
        margin = theme.px(0.5)
        return Rect(
            self.rect.x + margin,
            self.rect.bottom - theme.px(0.72),
            self.rect.w - 2 * margin,
            max(2, theme.px(0.28)),
        )

    def position_of(self, value: float, theme: Theme) -> float:
        """Window x of a value."""
        groove = self.groove(theme)
        return groove.x + groove.w * (value - self.low) / (self.high - self.low)

    def draw(self, painter: Painter) -> None:
        """Words left, value right, groove under both."""
        theme, rect = painter.theme, self.rect
        height = self._label_height(rect.w, theme)
        value_width = self._value_width(theme)
        label = Rect(rect.x, rect.y, rect.w - value_width - theme.px(0.5), height)
        ink = "ink" if self.enabled else "quiet"
        painter.text(self.name, label, "body", ink, wrap=True)
        changed = self.value != self.default
        number = Rect(rect.right - value_width, rect.y, value_width, height)
        painter.text(
            self.shown(self.value),
            number,
            "number",
            self.colour if changed and self.enabled else ink,
            align="right",
            valign="top",
        )
        groove = self.groove(theme)
        painter.box(groove, "groove", "faint" if theme.contrast else None, 0.14)
        home, here = self.position_of(self.default, theme), self.position_of(self.value, theme)
        if changed:
            left, right = sorted((home, here))
            painter.box(
                Rect(round(left), groove.y, max(1, round(right - left)), groove.h), self.colour, None, 0.1
            )
        tick = theme.px(0.32)
        painter.line(
            (home, groove.centery - tick), (home, groove.centery + tick), "faint", max(1, theme.px(0.1))
        )
        if self.baseline is not None and self.baseline != self.value:
            pygame.draw.aacircle(
                painter.surface,
                theme.colour("faint"),
                (self.position_of(self.baseline, theme), groove.centery),
                theme.px(0.3),
                max(1, theme.px(0.1)),
            )
        self._draw_thumb(painter, here, groove.centery)

    def _draw_thumb(self, painter: Painter, x: float, y: int) -> None:
        """A shield pointing down, like a nail head seen from the side."""
        theme = painter.theme
        half, tall = theme.px(0.36), theme.px(0.52)
        corners = [
            (x - half, y - tall),
            (x + half, y - tall),
            (x + half, y + tall * 0.35),
            (x, y + tall),
            (x - half, y + tall * 0.35),
        ]
        live = self.enabled and (self.hovered or self.focused or self._dragging)
        painter.smooth(corners, "ink" if live else self.colour if self.enabled else "faint")
        if live:
            painter.line((x, y - tall * 0.55), (x, y + tall * 0.2), "field", max(1, theme.px(0.12)))

    def set(self, value: float, gesture: str) -> None:
        """Take a value (rounded to the step) and tell, if it is new."""
        value = rounded(value, self.step, self.low, self.high)
        if value != self.value:
            self.value = value
            self.changed(value, gesture)

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """Jump to the place pressed; a double press goes back to the start value."""
        if not self.enabled:
            return False
        self._gesture += 1
        if double:
            self.set(self.default, f"{self.name} reset {self._gesture}")
            return False
        if position[1] < self.groove(theme).centery - theme.px(0.75):
            return False  # on the words: take the focus, move nothing
        self._dragging = True
        self.drag(position, theme)
        return True

    def drag(self, position: tuple[int, int], theme: Theme) -> None:
        """Follow the pointer."""
        groove = self.groove(theme)
        share = (position[0] - groove.x) / max(1, groove.w)
        self.set(self.low + share * (self.high - self.low), f"{self.name} drag {self._gesture}")

    def release(self, position: tuple[int, int], theme: Theme) -> None:
        """End of a drag."""
        self._dragging = False

    def wheel(self, steps: float, theme: Theme) -> bool:
        """The wheel moves only the slider that has the focus, so that scrolling a panel changes nothing."""
        if not (self.focused and self.enabled):
            return False
        self.set(self.value + steps * self.step, f"{self.name} wheel")
        return True

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Arrows one step, Page ten, Home and End the ends, Backspace the start value."""
        if not self.enabled:
            return False
        moves = {
            pygame.K_LEFT: -1,
            pygame.K_DOWN: -1,
            pygame.K_RIGHT: 1,
            pygame.K_UP: 1,
            pygame.K_PAGEDOWN: -PAGE_STEPS,
            pygame.K_PAGEUP: PAGE_STEPS,
        }
        targets = {pygame.K_HOME: self.low, pygame.K_END: self.high, pygame.K_BACKSPACE: self.default}
        if event.key in moves:
            self.set(self.value + moves[event.key] * self.step, f"{self.name} keys")
        elif event.key in targets:
            self.set(targets[event.key], f"{self.name} keys")
        else:
            return False
        return True
