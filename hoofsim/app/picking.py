"""Which structure of a picture lies under a point."""

from collections.abc import Iterable

import numpy as np

from hoofsim.drawing.display_list import Arrow, Circle, Point, Polygon, Polyline, Primitive, Tie
from hoofsim.frames import Array


def part_at(primitives: Iterable[Primitive], point: Point, reach: float) -> str | None:
    """The part of the topmost primitive at a point (mm); lines count within `reach` mm of them."""
    found = None
    for primitive in primitives:
        if primitive.part is not None and covers(primitive, point, reach):
            found = primitive.part
    return found


def covers(primitive: Primitive, point: Point, reach: float) -> bool:
    """True when the point lies on a primitive; text covers nothing."""
    if isinstance(primitive, Polygon):
        return inside(np.array(primitive.points), point)
    if isinstance(primitive, Circle):
        away = np.hypot(primitive.centre[0] - point[0], primitive.centre[1] - point[1])
        return bool(away <= max(primitive.radius, reach))
    if isinstance(primitive, Polyline):
        return distance_to_line(np.array(primitive.points), point) <= reach
    if isinstance(primitive, Arrow | Tie):
        return distance_to_line(np.array([primitive.start, primitive.end]), point) <= reach
    return False


def inside(corners: Array, point: Point) -> bool:
    """True when the point is inside a closed outline (N, 2), by the even-odd rule."""
    x, y = point
    following = np.roll(corners, -1, axis=0)
    crosses = (corners[:, 1] > y) != (following[:, 1] > y)
    if not crosses.any():
        return False
    first, second = corners[crosses], following[crosses]
    at = first[:, 0] + (y - first[:, 1]) * (second[:, 0] - first[:, 0]) / (second[:, 1] - first[:, 1])
    return bool(np.count_nonzero(at > x) % 2)


def distance_to_line(points: Array, point: Point) -> float:
    """Distance in mm from a point to an open line (N, 2), N at least 2."""
    start, end = points[:-1], points[1:]
    along = end - start
    length = np.maximum(np.einsum("ij,ij->i", along, along), 1e-12)
    offset = np.array(point) - start
    share = np.clip(np.einsum("ij,ij->i", offset, along) / length, 0.0, 1.0)
    nearest = start + share[:, None] * along
    return float(np.min(np.hypot(*(nearest - np.array(point)).T)))
