"""A button with a word, a sign, or both; optionally one that stays down (a choice among tools)."""

from collections.abc import Callable

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.icons import draw_icon
from hoofsim.app.widgets.layout import centred, inset
from hoofsim.app.widgets.painter import Painter

ACTIVATING_KEYS = (pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE)


class Button(Widget):
    """Calls `action` when pressed and released inside, or on Enter or Space."""

    focusable = True

    def __init__(
        self,
        name: str,
        action: Callable[[], None],
        explain: str = "",
        icon: str | None = None,
        words: bool = True,
        kind: str = "plain",
        colour: str = "accent",
        keys: str = "",
    ) -> None:
        """`kind`: plain, main (filled), quiet (no edge until pointed at), entry (of a list: words at the left).

        `keys`: the shortcut, for the tooltip.
        """
        super().__init__(name, explain)
        self.action = action
        self.icon = icon
        self.words = words
        self.kind = kind
        self.colour = colour
        self.keys = keys
        self.down = False  # stays so for a chosen tool
        self.held = False

    def width(self, theme: Theme) -> int:
        """Width in pixels that shows sign and words."""
        pixels, face = theme.text_pixels("bold" if self.kind == "main" else "body")
        words = theme.fonts.width(self.name, face, pixels) if self.words else 0
        icon = theme.px(1.3) if self.icon else 0
        between = theme.px(0.4) if self.words and self.icon else 0
        return words + icon + between + theme.px(1.3 if self.words else 0.9)

    def tip_text(self) -> str:
        """Name (where the button shows only a sign), sentence and key."""
        parts = [] if self.words else [self.name]
        if self.explain:
            parts.append(self.explain)
        text = ": ".join(parts) if len(parts) == 2 else "".join(parts)
        return f"{text}  [{self.keys}]" if text and self.keys else text

    def draw(self, painter: Painter) -> None:
        """Draw the button in its state."""
        theme, rect = painter.theme, self.rect
        ink = "ink" if self.enabled else "faint"
        fill: str | None = "field"
        edge: str | None = "line"
        if self.kind == "main":
            fill, edge, ink = (self.colour, None, "on_accent") if self.enabled else ("groove", None, "quiet")
        elif self.kind == "quiet":
            fill, edge = ("accent_soft", None) if self.hovered and self.enabled else (None, None)
        elif self.hovered and self.enabled:
            fill = "accent_soft"
        if self.down:
            fill, edge, ink = "accent_soft", self.colour, "ink"
        if not self.enabled and self.kind in ("plain", "entry"):
            fill = "card"
        painter.box(rect, fill, edge, 0.35, theme.px(0.14) if self.down else None)
        if self.kind == "main" and (self.hovered or self.held):
            painter.box(rect, None, "ink", 0.35, theme.px(0.1))
        inner = inset(rect, theme.px(0.45), 0)
        if self.icon and not self.words:
            draw_icon(painter, self.icon, centred(rect, theme.px(1.35), theme.px(1.35)), ink)
            return
        role = "bold" if self.kind == "main" else "body"
        text_width = painter.text_width(self.name, role)
        icon_room = theme.px(1.3) + theme.px(0.4) if self.icon else 0
        group = min(text_width + icon_room, inner.w)
        x = inner.x + (theme.px(0.3) if self.kind == "entry" else (inner.w - group) // 2)
        if self.icon:
            box = Rect(x, rect.centery - theme.px(0.65), theme.px(1.3), theme.px(1.3))
            draw_icon(painter, self.icon, box, ink)
            x += icon_room
        text_ink = ink if self.enabled or self.kind == "main" else "quiet"
        painter.text(self.name, Rect(x, rect.y, inner.right - x, rect.h), role, text_ink)

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """Hold, to act on release."""
        self.held = self.enabled
        return self.held

    def release(self, position: tuple[int, int], theme: Theme) -> None:
        """Act when the pointer is still on the button."""
        if self.held and self.rect.collidepoint(position):
            self.held = False
            self.action()
        self.held = False

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Enter and Space act."""
        if self.enabled and event.key in ACTIVATING_KEYS:
            self.action()
            return True
        return False
