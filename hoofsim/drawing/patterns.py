"""Hatching and dots inside any polygon, as plain geometry, so that every backend draws the same pattern."""

import numpy as np

from hoofsim.frames import Array, rotate

ANGLES = {
    "rising": (-45.0,),
    "falling": (45.0,),
    "crossed": (-45.0, 45.0),
    "level": (0.0,),
}  # degrees, clockwise

RIM_MM = 0.4  # dots keep off the edge by so much, so that none is cut


def hatch(points: Array, pattern: str, spacing: float) -> Array:
    """Hatching lines (K, 2, 2) mm inside polygon `points` (N, 2), `spacing` mm apart.

    The lines are counted from the polygon's first point, so that the pattern travels with a part that moves.
    """
    lines = []
    for angle in ANGLES[pattern]:
        turn = np.radians(angle)
        level = _level_lines(rotate(points, -turn, points[0]), spacing)
        lines.append(rotate(level, turn, points[0]))
    return np.concatenate(lines)


def _level_lines(points: Array, spacing: float) -> Array:
    """Level lines (K, 2, 2) inside a polygon, upward and each row from left to right."""
    following = np.concatenate([points[1:], points[:1]])
    origin = points[0, 1]
    first = int(np.ceil((points[:, 1].min() - origin) / spacing - 0.5))
    last = int(np.floor((points[:, 1].max() - origin) / spacing - 0.5))
    heights = origin + spacing * (np.arange(first, last + 1) + 0.5)
    low, high = points[:, 1] <= heights[:, None], following[:, 1] <= heights[:, None]
    rows, sides = np.nonzero(low != high)
    start, end = points[sides], following[sides]
    height = heights[rows]
    at = start[:, 0] + (height - start[:, 1]) / (end[:, 1] - start[:, 1]) * (end[:, 0] - start[:, 0])
    order = np.lexsort((at, rows))  # a row crosses the outline an even number of times
    return np.stack([at[order], height], axis=1).reshape(-1, 2, 2)


def dots(points: Array, spacing: float) -> Array:
    """Centres (M, 2) of dots on a staggered lattice, where they lie inside polygon `points` (N, 2), mm."""
    lines = _level_lines(points, spacing * 0.87)
    left, right, height = lines[:, 0, 0], lines[:, 1, 0], lines[:, 0, 1]
    row = np.round((height - points[0, 1]) / (spacing * 0.87) - 0.5)
    origin = points[0, 0] + np.where(row % 2 == 1, 0.5 * spacing, 0.0)
    first = np.ceil((left + RIM_MM - origin) / spacing).astype(int)
    last = np.floor((right - RIM_MM - origin) / spacing).astype(int)
    count = np.maximum(last - first + 1, 0)
    place = np.repeat(np.arange(len(lines)), count)
    step = np.arange(len(place)) - np.repeat(np.cumsum(count) - count, count) + first[place]
    return np.stack([origin[place] + spacing * step, height[place]], axis=1)
