"""One line to type in."""

from collections.abc import Callable

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.layout import inset, split_bottom
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines

FIELD = 2.2  # height of the field under its title, in text sizes


class TextField(Widget):
    """Holds a line of text; `entered(text)` is called on Enter. The caret can be moved, the end is always in view."""

    focusable = True

    def __init__(
        self, name: str, text: str, entered: Callable[[str], None], explain: str = "", longest: int = 200
    ) -> None:
        super().__init__(name, explain)
        self.text = text
        self.entered = entered
        self.longest = longest
        self.caret = len(text)

    def height_for(self, width: int, theme: Theme) -> int:
        """Title, in as many lines as it needs, and field."""
        lines = wrap_lines(self.name, lambda part: theme.text_width(part, "small"), width)
        return theme.line_height("small") * len(lines) + theme.px(0.1) + theme.px(FIELD)

    def draw(self, painter: Painter) -> None:
        """Title over a field; text longer than the field is shown from its caret's side."""
        theme = painter.theme
        title, field = split_bottom(self.rect, theme.px(FIELD))
        painter.text(self.name, title, "small", "quiet", valign="top", wrap=True)
        painter.box(field, "field", "accent" if self.focused else "faint", 0.35)
        inner = inset(field, theme.px(0.6), theme.px(0.2))
        start = 0
        while start < self.caret and painter.text_width(self.text[start : self.caret]) > inner.w - theme.px(
            0.3
        ):
            start += 1
        end = len(self.text)
        while end > self.caret and painter.text_width(self.text[start:end]) > inner.w:
            end -= 1
        painter.text(self.text[start:end], inner)
        if self.focused:
            x = inner.x + painter.text_width(self.text[start : self.caret])
            painter.line(
                (x, inner.y + theme.px(0.1)), (x, inner.bottom - theme.px(0.1)), "ink", max(1, theme.px(0.1))
            )

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """Put the caret at the end."""
        self.caret = len(self.text)
        return False

    def typed(self, text: str) -> bool:
        """Insert at the caret what can be printed and fits."""
        clean = "".join(sign for sign in text if sign.isprintable())[: self.longest - len(self.text)]
        self.text = self.text[: self.caret] + clean + self.text[self.caret :]
        self.caret += len(clean)
        return True

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Enter enters; arrows, Home, End move; Backspace and Delete take away; every letter belongs to the field."""
        if event.key in (pygame.K_RETURN, pygame.K_KP_ENTER):
            self.entered(self.text)
        elif event.key == pygame.K_BACKSPACE:
            if self.caret:
                self.text = self.text[: self.caret - 1] + self.text[self.caret :]
                self.caret -= 1
        elif event.key == pygame.K_DELETE:
            self.text = self.text[: self.caret] + self.text[self.caret + 1 :]
        elif event.key in (pygame.K_LEFT, pygame.K_RIGHT):
            step = 1 if event.key == pygame.K_RIGHT else -1
            self.caret = min(max(self.caret + step, 0), len(self.text))
        elif event.key in (pygame.K_HOME, pygame.K_END):
            self.caret = 0 if event.key == pygame.K_HOME else len(self.text)
        else:
            return bool(event.unicode) and event.unicode.isprintable()
        return True
