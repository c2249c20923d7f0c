"""A plot with short words at places of its data, set where they touch neither one another nor the frame."""

import itertools
import math
from dataclasses import dataclass

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.plot import XY, Plot, Scale


@dataclass(frozen=True)
class Tag:
    """Words beside the data point `at`; those not `needed` are left out where a line would strike them through."""

    at: XY
    words: str
    colour: str = "ink"
    needed: bool = True


class TaggedPlot(Plot):
    """A plot whose `tags` stand beside their points; one that finds no free place is left out."""

    def __init__(self, name: str, explain: str = "") -> None:
        super().__init__(name, explain)
        self.tags: tuple[Tag, ...] = ()

    def content(self) -> object:
        """Picture and tags."""
        return self.picture, self.tags

    def draw(self, painter: Painter) -> None:
        """The plot, and its tags over it."""
        super().draw(painter)
        for tag, box in self.placed(painter.theme):
            painter.text(tag.words, box, "small_bold", tag.colour)

    def placed(self, theme: Theme) -> list[tuple[Tag, Rect]]:
        """The tags that find a place, and where; off the lines where that can be."""
        scale = self.scale(theme)
        taken = [_around(scale.to_window(mark.at), theme.px(0.5)) for mark in self.picture.marks]
        inked = self._inked(scale, theme.px(0.3))
        found = []
        for tag in self.tags:
            size = (theme.text_width(tag.words, "small_bold"), theme.line_height("small_bold"))
            free = [
                box
                for box in _beside(scale.to_window(tag.at), size, theme.px(0.55))
                if scale.frame.contains(box) and box.collidelist(taken) < 0
            ]
            struck = [sum(box.collidepoint(place) for place in inked) for box in free]
            if free and (tag.needed or min(struck) == 0):
                box = free[struck.index(min(struck))]
                taken.append(box.inflate(theme.px(0.4), 0))
                found.append((tag, box))
        return found

    def _inked(self, scale: Scale, step: int) -> list[XY]:
        """Window places along the lines, no further apart than `step` pixels."""
        places: list[XY] = []
        for line in self.picture.lines:
            for start, end in itertools.pairwise(line.points):
                if start is None or end is None:
                    continue
                (x, y), (to_x, to_y) = scale.to_window(start), scale.to_window(end)
                count = 1 + int(math.hypot(to_x - x, to_y - y) / step)
                places += [(x + (to_x - x) * i / count, y + (to_y - y) * i / count) for i in range(count + 1)]
        return places


def _around(centre: XY, reach: int) -> Rect:
    return Rect(round(centre[0]) - reach, round(centre[1]) - reach, 2 * reach, 2 * reach)


def _beside(at: XY, size: tuple[int, int], gap: int) -> list[Rect]:
    """Boxes of `size` on the eight sides of a window place, the best first."""
    width, height = size
    x, y = round(at[0]), round(at[1])
    left, middle, right = x - gap - width, x - width // 2, x + gap
    above, level, below = y - gap - height, y - height // 2, y + gap
    corners = [
        (right, level), (left, level), (middle, above), (middle, below),
        (right, above), (left, above), (right, below), (left, below),
    ]  # fmt: skip
    return [Rect(corner, size) for corner in corners]
