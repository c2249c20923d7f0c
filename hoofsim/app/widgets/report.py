"""The layout report: every text of a drawn screen with its box, and what is wrong with any of them."""

from collections.abc import Sequence

import pygame

from hoofsim.app.widgets.painter import TextRecord

Rect = pygame.Rect
# A line's box holds the space between lines; glyphs of neighbours do not touch while boxes overlap by less than this.
SLACK = 0.22
# Least room between texts in a line, as a share of the taller one's letters: about the space between two words.
LEAST_GAP = 0.3


def visible_box(record: TextRecord) -> Rect:
    """The part of a text's box that is not clipped away."""
    return Rect(record.box).clip(Rect(record.clip))


def cut_texts(records: Sequence[TextRecord]) -> list[str]:
    """Sentences about texts that end in an ellipsis or stand higher than the box they must fit."""
    found = []
    for record in records:
        box, fit = Rect(record.box), Rect(record.fit)
        if record.cut:
            found.append(f"'{record.text}' is cut: {fit.w} px are too few")
        elif (
            box.h * (1 - 2 * SLACK) > fit.h
            or box.top < fit.top - SLACK * box.h
            or (box.bottom > fit.bottom + SLACK * box.h)
        ):
            found.append(f"'{record.text}' does not fit its box: {tuple(box)} in {tuple(fit)}")
    return found


def outside_texts(records: Sequence[TextRecord], size: tuple[int, int]) -> list[str]:
    """Sentences about texts that leave the window of `size` pixels sideways, or vertically without a scroll clip."""
    window = Rect((0, 0), size)
    found = []
    for record in records:
        box = Rect(record.box)
        scrolled = Rect(record.clip) != window
        if box.left < 0 or box.right > size[0] or (not scrolled and not window.contains(box)):
            found.append(f"'{record.text}' leaves the window: {tuple(box)}")
    return found


def overlapping_texts(records: Sequence[TextRecord]) -> list[str]:
    """Sentences about pairs of texts of one layer whose glyphs touch."""
    shown = [(record, shrunk(visible_box(record))) for record in records]
    shown = [(record, box) for record, box in shown if box.w > 0 and box.h > 0]
    found = []
    for index, (first, box) in enumerate(shown):
        for second, other in shown[index + 1 :]:
            if first.layer == second.layer and box.colliderect(other):
                found.append(f"'{first.text}' {tuple(box)} overlaps '{second.text}' {tuple(other)}")
    return found


def crowded_texts(records: Sequence[TextRecord]) -> list[str]:
    """Sentences about texts that follow one another in a line of one layer with no room between them to be seen."""
    shown = [(record, shrunk(visible_box(record))) for record in records]
    shown = [(record, box) for record, box in shown if box.w > 0 and box.h > 0]
    found = []
    for first, box in shown:
        for second, other in shown:
            gap, tall = other.left - box.right, max(box.h, other.h)
            if first.layer == second.layer and box.top < other.bottom and other.top < box.bottom:
                goes_on = (
                    gap == 0 and abs(box.centery - other.centery) <= 1
                )  # a sentence with a word set apart
                if 0 <= gap < LEAST_GAP * tall and not goes_on:
                    found.append(
                        f"'{first.text}' ends {gap} px before '{second.text}': {tuple(box)}, {tuple(other)}"
                    )
    return found


def shrunk(box: Rect) -> Rect:
    """A text's box less the space between lines."""
    trim = round(box.h * SLACK)
    return Rect(box.x, box.y + trim, box.w, box.h - 2 * trim)


def complaints(records: Sequence[TextRecord], size: tuple[int, int]) -> list[str]:
    """Everything wrong with the texts of one drawn screen; empty when all is well."""
    return (
        cut_texts(records)
        + outside_texts(records, size)
        + overlapping_texts(records)
        + crowded_texts(records)
    )
