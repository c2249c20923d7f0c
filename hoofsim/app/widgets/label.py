"""Plain words in a panel: wrapped text, a heading, a ruled line."""

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines


class Label(Widget):
    """Wrapped text in one role and colour; `text` may be changed at any time before the next layout."""

    def __init__(self, text: str, role: str = "body", colour: str = "ink", align: str = "left") -> None:
        super().__init__(text)
        self.text = text
        self.role = role
        self.colour = colour
        self.align = align

    def content(self) -> object:
        """The words."""
        return self.text

    def height_for(self, width: int, theme: Theme) -> int:
        """Lines that the width needs."""
        pixels, face = theme.text_pixels(self.role)
        lines = wrap_lines(self.text, lambda part: theme.fonts.width(part, face, pixels), width)
        return theme.fonts.line_height(face, pixels) * len(lines)

    def draw(self, painter: Painter) -> None:
        """Draw from the top."""
        painter.text(self.text, self.rect, self.role, self.colour, self.align, "top", wrap=True)


class Heading(Label):
    """A heading with a coloured bar before it, the colour of its group."""

    def __init__(self, text: str, colour: str = "accent", role: str = "heading") -> None:
        super().__init__(text, role, "ink")
        self.bar = colour

    def height_for(self, width: int, theme: Theme) -> int:
        """As a label that is a bar narrower."""
        return super().height_for(width - theme.px(0.7), theme)

    def draw(self, painter: Painter) -> None:
        """Bar and words."""
        theme = painter.theme
        bar = Rect(self.rect.x, self.rect.y + theme.px(0.2), theme.px(0.26), self.rect.h - theme.px(0.4))
        painter.box(bar, self.bar, None, 0.1)
        words = Rect(self.rect.x + theme.px(0.7), self.rect.y, self.rect.w - theme.px(0.7), self.rect.h)
        painter.text(self.text, words, self.role, self.colour, valign="top", wrap=True)


class Rule(Widget):
    """A thin line between groups."""

    def __init__(self) -> None:
        super().__init__("rule")

    def height_for(self, width: int, theme: Theme) -> int:
        """A little air."""
        return theme.px(0.5)

    def draw(self, painter: Painter) -> None:
        """The line in the middle of its height."""
        y = self.rect.centery
        painter.line((self.rect.x, y), (self.rect.right, y), "line", painter.theme.hairline)
