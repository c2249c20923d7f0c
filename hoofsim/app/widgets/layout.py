"""Dividing a rectangle, as pure functions: what they return is what is drawn and what the tests measure."""

import itertools
from collections.abc import Sequence

import pygame

Rect = pygame.Rect


def inset(rect: Rect, across: int, down: int | None = None) -> Rect:
    """The rectangle less a margin on every side (pixels)."""
    vertical = across if down is None else down
    return Rect(
        rect.x + across, rect.y + vertical, max(0, rect.w - 2 * across), max(0, rect.h - 2 * vertical)
    )


def rows(rect: Rect, heights: Sequence[int], gap: int = 0) -> list[Rect]:
    """Rectangles of the given heights one under another from the top; they may run past the bottom."""
    placed, y = [], rect.y
    for height in heights:
        placed.append(Rect(rect.x, y, rect.w, height))
        y += height + gap
    return placed


def columns(rect: Rect, shares: Sequence[float], gap: int = 0) -> list[Rect]:
    """Rectangles side by side whose widths stand in the given proportions; together they fill the width exactly."""
    space = rect.w - gap * (len(shares) - 1)
    total = sum(shares)
    edges = [rect.x]
    passed = 0.0
    for index, share in enumerate(shares):
        passed += share
        edges.append(rect.x + round(space * passed / total) + gap * (index + 1))
    return [Rect(left, rect.y, right - left - gap, rect.h) for left, right in itertools.pairwise(edges)]


def from_left(rect: Rect, widths: Sequence[int], gap: int = 0) -> list[Rect]:
    """Rectangles of the given widths from the left edge."""
    placed, x = [], rect.x
    for width in widths:
        placed.append(Rect(x, rect.y, width, rect.h))
        x += width + gap
    return placed


def split_top(rect: Rect, height: int, gap: int = 0) -> tuple[Rect, Rect]:
    """A strip of `height` at the top, and what is left under it."""
    height = min(height, rect.h)
    return Rect(rect.x, rect.y, rect.w, height), Rect(
        rect.x, rect.y + height + gap, rect.w, max(0, rect.h - height - gap)
    )


def split_bottom(rect: Rect, height: int, gap: int = 0) -> tuple[Rect, Rect]:
    """What is left above, and a strip of `height` at the bottom."""
    height = min(height, rect.h)
    return Rect(rect.x, rect.y, rect.w, max(0, rect.h - height - gap)), Rect(
        rect.x, rect.bottom - height, rect.w, height
    )


def split_left(rect: Rect, width: int, gap: int = 0) -> tuple[Rect, Rect]:
    """A strip of `width` at the left, and what is left of it to the right."""
    width = min(width, rect.w)
    return Rect(rect.x, rect.y, width, rect.h), Rect(
        rect.x + width + gap, rect.y, max(0, rect.w - width - gap), rect.h
    )


def split_right(rect: Rect, width: int, gap: int = 0) -> tuple[Rect, Rect]:
    """What is left, and a strip of `width` at the right."""
    width = min(width, rect.w)
    return Rect(rect.x, rect.y, max(0, rect.w - width - gap), rect.h), Rect(
        rect.right - width, rect.y, width, rect.h
    )


def centred(rect: Rect, width: int, height: int) -> Rect:
    """A rectangle of the given size in the middle, never larger than `rect`."""
    width, height = min(width, rect.w), min(height, rect.h)
    return Rect(rect.x + (rect.w - width) // 2, rect.y + (rect.h - height) // 2, width, height)


def flow(rect: Rect, widths: Sequence[int], height: int, gap: int = 0) -> list[Rect]:
    """Rectangles of the given widths set like words: a new line when the width is used up."""
    placed, x, y = [], rect.x, rect.y
    for width in widths:
        width = min(width, rect.w)
        if x > rect.x and x + width > rect.right:
            x, y = rect.x, y + height + gap
        placed.append(Rect(x, y, width, height))
        x += width + gap
    return placed
