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


def hatch(points: Array, pattern: str, spacing: float) -> list[Array]:
    """Hatching lines, each (2, 2) mm, inside polygon `points` (N, 2), `spacing` mm apart.

    The lines are counted from the polygon's first point, so that the pattern travels with a part that moves.
    """
    lines: list[Array] = []
    for angle in ANGLES[pattern]:
        turn = np.radians(angle)
        level = rotate(points, -turn, points[0])
        lines.extend(rotate(line, turn, points[0]) for line in _level_lines(level, spacing))
    return lines


def _level_lines(points: Array, spacing: float) -> list[Array]:
    following = np.roll(points, -1, axis=0)
    origin = points[0, 1]
    first = int(np.ceil((points[:, 1].min() - origin) / spacing - 0.5))
    last = int(np.floor((points[:, 1].max() - origin) / spacing - 0.5))
    heights = origin + spacing * (np.arange(first, last + 1) + 0.5)
    lines: list[Array] = []
    for height in heights:
        crosses = (points[:, 1] <= height) != (following[:, 1] <= height)
        start, end = points[crosses], following[crosses]
        at = np.sort(
            start[:, 0] + (height - start[:, 1]) / (end[:, 1] - start[:, 1]) * (end[:, 0] - start[:, 0])
        )
        lines.extend(np.array([[a, height], [b, height]]) for a, b in zip(at[::2], at[1::2], strict=True))
    return lines


def dots(points: Array, spacing: float) -> Array:
    """Centres (M, 2) of dots on a staggered lattice, where they lie inside polygon `points` (N, 2), mm."""
    centres: list[tuple[float, float]] = []
    for line in _level_lines(points, spacing * 0.87):
        (left, height), right = line[0], line[1, 0]
        row = round((height - points[0, 1]) / (spacing * 0.87) - 0.5)
        origin = points[0, 0] + (0.5 * spacing if row % 2 else 0.0)
        first = int(np.ceil((left + RIM_MM - origin) / spacing))
        last = int(np.floor((right - RIM_MM - origin) / spacing))
        centres.extend((origin + spacing * step, float(height)) for step in range(first, last + 1))
    return np.array(centres).reshape(-1, 2)
