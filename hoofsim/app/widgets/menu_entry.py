"""A wide button with a sign, a word and a sentence under it, for a menu."""

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.icons import draw_icon
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines


class MenuEntry(Button):
    """Sign at the left; beside it the name and, smaller, the sentence that a plain button keeps for its tooltip."""

    def _room(self, width: int, theme: Theme) -> int:
        return width - theme.px(3.7)

    def _height(self, words: str, role: str, width: int, theme: Theme) -> int:
        lines = wrap_lines(words, lambda part: theme.text_width(part, role), self._room(width, theme))
        return theme.line_height(role) * len(lines)

    def height_for(self, width: int, theme: Theme) -> int:
        """Name and sentence."""
        name = self._height(self.name, "bold", width, theme)
        return theme.px(1.0) + name + self._height(self.explain, "small", width, theme)

    def tip_text(self) -> str:
        """Nothing: everything is on the button."""
        return ""

    def draw(self, painter: Painter) -> None:
        """The main entry is filled; the others have an edge."""
        theme, rect = painter.theme, self.rect
        main = self.kind == "main"
        ink, quiet = ("on_accent", "on_accent") if main else ("ink", "quiet")
        fill = "accent" if main else "accent_soft" if self.hovered else "field"
        painter.box(rect, fill, None if main else "line", 0.5)
        if main and self.hovered:
            painter.box(rect, None, "ink", 0.5, theme.px(0.12))
        side = theme.px(1.7)
        sign = Rect(rect.x + theme.px(0.8), rect.centery - side // 2, side, side)
        draw_icon(painter, self.icon or "more", sign, ink if main else "accent")
        words = Rect(
            rect.x + theme.px(3.2), rect.y + theme.px(0.5), self._room(rect.w, theme), rect.h - theme.px(1)
        )
        used = painter.text(self.name, words, "bold", ink, valign="top", wrap=True)
        below = Rect(words.x, words.y + used, words.w, words.h - used)
        painter.text(self.explain, below, "small", quiet, valign="top", wrap=True)
        if self.keys:
            width = theme.text_width(self.keys, "small")
            if theme.text_width(self.name, "bold") + width + theme.px(1) < words.w:
                key = Rect(rect.right - width - theme.px(0.7), words.y, width, used)
                painter.text(self.keys, key, "small", quiet)
