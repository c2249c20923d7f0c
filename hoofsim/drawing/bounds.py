"""The area that a drawing needs."""

from collections.abc import Iterable
from itertools import chain

import numpy as np

from hoofsim.drawing.display_list import Bounds, Circle, Point, Polygon, Polyline, Primitive, Text
from hoofsim.drawing.text_size import text_box


def bounds_of(primitives: Iterable[Primitive]) -> Bounds:
    """The area that primitives cover, texts included."""
    places: list[Point] = []
    for one in primitives:
        if isinstance(one, Polygon | Polyline):
            places += one.points
        elif isinstance(one, Text):
            left, bottom, right, top = text_box(one)
            places += ((left, bottom), (right, top))
        elif isinstance(one, Circle):
            (x, y), r = one.centre, one.radius
            places += ((x - r, y - r), (x + r, y + r))
        else:
            places += (one.start, one.end)
    corners = np.fromiter(chain.from_iterable(places), float, 2 * len(places)).reshape(-1, 2)
    (left, bottom), (right, top) = corners.min(axis=0), corners.max(axis=0)
    return float(left), float(bottom), float(right), float(top)
