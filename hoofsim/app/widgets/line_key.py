"""The key of a plot: a stroke of each line, its sign and its words."""

from collections.abc import Sequence
from dataclasses import dataclass

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.layout import flow
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.plot import draw_curve


@dataclass(frozen=True)
class KeyEntry:
    """One line of a plot: the sign that stands beside it there, its words, and how it is drawn."""

    sign: str
    words: str
    colour: str
    dashed: bool = False


class LineKey(Widget):
    """Entries one after another, set like words."""

    def __init__(self, name: str, entries: Sequence[KeyEntry]) -> None:
        super().__init__(name)
        self.entries = list(entries)

    def _rects(self, rect: Rect, theme: Theme) -> list[Rect]:
        widths = [theme.px(3.8) + theme.text_width(one.words, "small") for one in self.entries]
        return flow(rect, [max(widths)] * len(widths), theme.line_height("small"))

    def height_for(self, width: int, theme: Theme) -> int:
        """All lines of entries."""
        return self._rects(Rect(0, 0, width, 0), theme)[-1].bottom

    def draw(self, painter: Painter) -> None:
        """Stroke, sign and words of each."""
        theme = painter.theme
        for one, rect in zip(self.entries, self._rects(self.rect, theme), strict=True):
            stroke = [(float(rect.x + along), float(rect.centery)) for along in (0, theme.px(1.6))]
            draw_curve(painter, stroke, one.colour, theme.px(0.14), one.dashed)
            sign = Rect(rect.x + theme.px(2), rect.y, theme.px(1), rect.h)
            painter.text(one.sign, sign, "small_bold", one.colour)
            left = rect.x + theme.px(3.1)
            painter.text(one.words, Rect(left, rect.y, rect.right - left, rect.h), "small")
