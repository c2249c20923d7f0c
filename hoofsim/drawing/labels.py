"""Labels beside a picture: placed left or right of it without overlap, each joined to its target by a leader line.

The labels of one side keep the order of their targets, so that leaders do not cross, and each stands as near the height
of its target as its neighbours allow.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.drawing.display_list import Bounds, Item, Point, Polyline, Text
from hoofsim.drawing.text_size import LINE_HEIGHT, text_box, text_width, wrapped

Edge = Callable[
    [float, float], float
]  # from a lower and an upper height to how far the picture reaches there


@dataclass(frozen=True)
class PictureLabel:
    """Words for a target (mm); `side` is "left", "right", or "nearest"; `part` makes label and leader pickable."""

    target: Point
    words: str
    part: str | None = None
    side: str = "nearest"
    role: str = "label"


@dataclass(frozen=True)
class _Block:
    label: PictureLabel
    lines: tuple[str, ...]
    height: float
    width: float


def place(
    labels: Sequence[PictureLabel], left_edge: Edge, right_edge: Edge, *,
    height: float = 4.0, width: float = 44.0, gap: float = 5.0,
) -> list[Item]:  # fmt: skip
    """Texts and leader lines of all labels.

    `left_edge` and `right_edge` say how far the picture reaches between two heights, so that labels stand just outside
    it; `height` is the type size, `width` the longest line, `gap` the room between picture and label, all in mm.
    """
    items: list[Item] = []
    sided = [
        (one, one.side if one.side != "nearest" else _nearer(one, left_edge, right_edge)) for one in labels
    ]
    for side, edge in (("left", left_edge), ("right", right_edge)):
        blocks = [_block(label, height, width) for label, chosen in sided if chosen == side]
        blocks.sort(key=lambda block: (block.label.target[1], block.label.words))
        wanted, sizes = [block.label.target[1] for block in blocks], [block.height for block in blocks]
        for block, centre in zip(blocks, stacked(wanted, sizes, 0.35 * height), strict=True):
            items.extend(_drawn(block, centre, side, edge, gap, height))
    return items


def _nearer(label: PictureLabel, left_edge: Edge, right_edge: Edge) -> str:
    x, y = label.target
    return "left" if x - left_edge(y, y) < right_edge(y, y) - x else "right"


def _block(label: PictureLabel, height: float, width: float) -> _Block:
    lines = tuple(wrapped(label.words, height, width))
    return _Block(
        label, lines, LINE_HEIGHT * height * len(lines), max(text_width(line, height) for line in lines)
    )


def stacked(wanted: Sequence[float], sizes: Sequence[float], gap: float) -> list[float]:
    """Centres for blocks of `sizes`, in the given order upward, `gap` apart, as near `wanted` as can be.

    Blocks that would overlap are pooled and move together.
    """
    pools: list[tuple[float, list[int]]] = []  # bottom of the pool as it would like to be, and its blocks

    def bottom_of(members: list[int]) -> float:
        below, likes = 0.0, []
        for index in members:
            likes.append(wanted[index] - 0.5 * sizes[index] - below)
            below += sizes[index] + gap
        return float(np.mean(likes))

    def span(members: list[int]) -> float:
        return sum(sizes[index] + gap for index in members)

    for index in range(len(wanted)):
        members = [index]
        while pools and pools[-1][0] + span(pools[-1][1]) > bottom_of(members) - 1e-9:
            members = pools.pop()[1] + members
        pools.append((bottom_of(members), members))
    centres = [0.0] * len(wanted)
    for bottom, members in pools:
        for index in members:
            centres[index] = bottom + 0.5 * sizes[index]
            bottom += sizes[index] + gap
    return centres


def _drawn(block: _Block, centre: float, side: str, edge: Edge, gap: float, height: float) -> list[Item]:
    top, bottom = centre + 0.5 * block.height, centre - 0.5 * block.height
    away = -1.0 if side == "left" else 1.0
    x = edge(bottom, top) + away * gap
    anchor = "right" if side == "left" else "left"
    label = block.label
    near = (x - away * 0.25 * height, centre)
    items: list[Item] = [Polyline((label.target, near), "leader", label.part)]
    for row, line in enumerate(block.lines):
        y = top - (row + 0.5) * LINE_HEIGHT * height
        items.append(Text((x, y), line, label.role, height, (anchor, "middle"), 0, label.part))
    return items


def overlaps(one: Bounds, other: Bounds, slack: float = 1e-6) -> bool:
    """Whether two areas (left, bottom, right, top) share more than an edge."""
    return (one[0] < other[2] - slack and other[0] < one[2] - slack
            and one[1] < other[3] - slack and other[1] < one[3] - slack)  # fmt: skip


def colliding(texts: Sequence[Text]) -> list[tuple[Text, Text]]:
    """Every pair of texts that overlap."""
    boxes = [text_box(text) for text in texts]
    return [(texts[i], texts[j]) for i in range(len(texts)) for j in range(i) if overlaps(boxes[i], boxes[j])]
