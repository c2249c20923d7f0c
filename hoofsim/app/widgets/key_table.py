"""A table of keys: each key on a cap, what it does beside it, or under it where the column is narrow."""

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines

Groups = tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


class KeyTable(Widget):
    """Groups of (key, what it does)."""

    def __init__(self, groups: Groups) -> None:
        super().__init__("keys")
        self.groups = groups

    def _key_width(self, theme: Theme) -> int:
        return max(
            theme.text_width(key, "small_bold") for _, lines in self.groups for key, _ in lines
        ) + theme.px(0.9)

    def _places(self, rect: Rect, theme: Theme) -> list[tuple[str, str, Rect, Rect]]:
        """For every line: key, words, and their rectangles; for a group's title the key is empty."""
        key_width = self._key_width(theme)
        beside = rect.w > key_width + theme.px(11)
        line = theme.line_height()
        placed, y = [], rect.y
        for index, (title, lines) in enumerate(self.groups):
            y += theme.px(0.7) if index else 0
            placed.append(("", title, Rect(rect.x, y, 0, 0), Rect(rect.x, y, rect.w, line)))
            y += line + theme.px(0.3)
            for key, words in lines:
                left = key_width + theme.px(0.7) if beside else theme.px(0.6)
                room = rect.w - left
                tall = line * len(wrap_lines(words, theme.text_width, room))
                cap = Rect(rect.x, y, theme.text_width(key, "small_bold") + theme.px(0.8), line)
                if not beside:
                    y += line + theme.px(0.1)
                placed.append((key, words, cap, Rect(rect.x + left, y, room, tall)))
                y += tall + theme.px(0.35)
        return placed

    def height_for(self, width: int, theme: Theme) -> int:
        """To the foot of the last line."""
        return self._places(Rect(0, 0, width, 0), theme)[-1][3].bottom

    def draw(self, painter: Painter) -> None:
        """Caps and words."""
        for key, words, cap, text in self._places(self.rect, painter.theme):
            if key:
                painter.box(cap, "field", "faint", 0.25)
                painter.text(key, cap, "small_bold", align="centre")
                painter.text(words, text, wrap=True, valign="top")
            else:
                painter.text(words, text, "small_bold", "quiet")
