"""The area that a drawing needs."""

from collections.abc import Iterable

from hoofsim.drawing.display_list import Bounds, Circle, Point, Polygon, Polyline, Primitive, Text
from hoofsim.drawing.text_size import text_box


def bounds_of(primitives: Iterable[Primitive]) -> Bounds:
    """The area that primitives cover, texts included."""
    boxes: list[Bounds] = []
    for one in primitives:
        if isinstance(one, Text):
            boxes.append(text_box(one))
            continue
        places: tuple[Point, ...]
        if isinstance(one, Circle):
            (x, y), r = one.centre, one.radius
            places = ((x - r, y - r), (x + r, y + r))
        elif isinstance(one, Polygon | Polyline):
            places = one.points
        else:
            places = (one.start, one.end)
        xs, ys = zip(*places, strict=True)
        boxes.append((min(xs), min(ys), max(xs), max(ys)))
    left, bottom, right, top = zip(*boxes, strict=True)
    return min(left), min(bottom), max(right), max(top)
