"""Tension-only lines: ligaments, the extensor tendon, and the deep flexor tendon's pull along its path."""

from dataclasses import dataclass

import numpy as np

from hoofsim.mechanics.elements.one_sided import one_sided
from hoofsim.mechanics.types import Array, LineLaw, Numbers

SLACK_WIDTH_MM = 0.4


@dataclass(frozen=True)
class LineConstants:
    """stiffness (N/mm) past the slack length (mm); tone (N): steady muscle tension, pulling even when slack."""

    stiffness: Array
    slack: Array
    tone: Array


def line(length: Numbers, c: LineConstants) -> LineLaw:
    """Energy (N mm), tension (N) and stiffness (N/mm) of a line of `length` mm."""
    energy, force, slope = one_sided(length - c.slack, SLACK_WIDTH_MM)
    return LineLaw(c.stiffness * energy + c.tone * length, c.stiffness * force + c.tone, c.stiffness * slope)


def slack_length(reference: Array, tension: Array, stiffness: Array) -> Array:
    """Slack length (mm) of a line that carries `tension` N at `reference` mm; exact above one slack width."""
    return reference - tension / stiffness - 0.5 * SLACK_WIDTH_MM


def chord(moving: Array, fixed: Array, turn: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """Length (mm) between `fixed` and `moving` turned about the origin, with its first and second derivative by turn.

    Points (..., 2) mm from the joint's centre; `turn` (...) radians, tip down (clockwise) positive.
    """
    mx, my, fx, fy = moving[..., 0], moving[..., 1], fixed[..., 0], fixed[..., 1]
    cosine, sine = np.cos(turn), np.sin(turn)
    x, y = cosine * mx + sine * my, -sine * mx + cosine * my
    length = np.sqrt((x - fx) ** 2 + (y - fy) ** 2)
    # d(x, y)/dturn = (y, -x); half the square of the length has derivative -(fx y - fy x).
    first = (-fx * y + fy * x) / length
    second = (fx * x + fy * y - first * first) / length
    return length, first, second
