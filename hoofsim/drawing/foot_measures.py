"""Measures drawn on the foot as dimension lines and angles; the numbers come from the foot's own measures."""

from collections.abc import Callable, Mapping

import numpy as np

from hoofsim.drawing.display_list import Arrow, Item, Polyline, as_point, as_points
from hoofsim.drawing.foot_shown import Options, ShownFoot
from hoofsim.drawing.labels import PictureLabel
from hoofsim.drawing.text_size import unbroken
from hoofsim.errors import BadInput, nearest
from hoofsim.foot.curves import arc, between, left_of, points_of, unit
from hoofsim.frames import Array
from hoofsim.measures.table import MEASURES
from hoofsim.units import show

Points = Mapping[str, Array]
Drawn = tuple[list[Item], Array]  # what is drawn, and the place its label points to
LEVEL = np.array([1.0, 0.0])


def _span(start: Array, end: Array) -> Drawn:
    """A dimension from start to end, with a head at each end."""
    middle = between(start, end, 0.5)
    head = min(2.2, 0.45 * float(np.hypot(*(end - start))))
    return [
        Arrow(as_point(middle), as_point(place), "dimension", None, head) for place in (start, end)
    ], middle


def _help(*line: Array) -> Item:
    return Polyline(as_points(points_of(*line)), "construction")


def _upright(points: Points, upper: str, lower_height: float) -> Drawn:
    top = points[upper]
    return _span(top, np.array([top[0], lower_height]))


def _sole_depth(points: Points, upper: str) -> Drawn:
    """Straight down to the line between the two marked points of the sole's surface."""
    rear, front, at = points["sole_under_palmar_process"], points["sole_under_tip"], points[upper]
    slope = (front[1] - rear[1]) / (front[0] - rear[0])
    return _upright(points, upper, float(front[1] + slope * (at[0] - front[0])))


def _tip_to_frog(points: Points) -> Drawn:
    """Along the underside of P3 from the tip to the foot of the perpendicular from the true frog point."""
    tip, frog = points["tip"], points["frog_point"]
    along = unit(points["palmar_process"] - tip)
    foot = tip + float(np.dot(frog - tip, along)) * along
    items, middle = _span(tip, foot)
    return [_help(frog, foot), _help(tip, foot + 6.0 * along), *items], middle


def _founder(points: Points, marker: str) -> Drawn:
    """Between the levels of the marker and of the extensor process."""
    high, low = points[marker], points["extensor_process"]
    x = 0.5 * (high[0] + low[0]) + 6.0
    up, down = np.array([x, high[1]]), np.array([x, low[1]])
    items, middle = _span(up, down)
    return [_help(high, up + 3.0 * LEVEL), _help(low, down + 3.0 * LEVEL), *items], middle


def _square_to_wall(points: Points, start: Array) -> Drawn:
    toe, hairline = points["toe"], points["toe_hairline"]
    along = unit(hairline - toe)
    return _span(start, toe + float(np.dot(start - toe, along)) * along)


def _lucent(points: Points, level: str) -> Drawn:
    start = points[f"p3_dorsal_{level}"]
    out = -left_of(unit(points["toe_hairline"] - points["toe"]))
    return _span(start, start + float(np.dot(points[f"wall_inner_{level}"] - start, out)) * out)


def _angle(corner: Array, level: Array, upper: Array, radius: float) -> Drawn:
    """An angle at its toe end, opening palmarly, between a level line and a line to `upper`."""
    start = corner + radius * unit(level - corner)
    end = corner + radius * unit(upper - corner)
    rising = float(end[1]) >= float(start[1])
    curve = arc(corner, start, end, clockwise=rising)
    reach = 1.12 * radius
    lines = [_help(corner, corner + reach * unit(one - corner)) for one in (level, upper)]
    return [*lines, Polyline(as_points(curve), "dimension")], curve[len(curve) // 2]


def _to_ground(points: Points, toe_end: str, other_end: str, radius: float) -> Drawn:
    corner = points[toe_end]
    return _angle(corner, corner - LEVEL, points[other_end], radius)


def _along_ground(points: Points, one: str, other: str, below: float) -> Drawn:
    """Horizontally between two landmarks, drawn below the ground."""
    start, end = (np.array([points[name][0], -below]) for name in (one, other))
    items, middle = _span(start, end)
    return [_help(points[one], start), _help(points[other], end), *items], middle


_DRAWINGS: Mapping[str, Callable[[Points], Drawn]] = {
    "hoof_angle": lambda p: _to_ground(p, "toe", "toe_hairline", 20.0),
    "p3_dorsal_angle": lambda p: _to_ground(p, "tip", "extensor_process", 17.0),
    "palmar_angle": lambda p: _to_ground(p, "tip", "palmar_process", 62.0),
    "founder_distance": lambda p: _founder(p, "firm_horn"),
    "founder_distance_hairline": lambda p: _founder(p, "toe_hairline"),
    "wall_to_bone_proximal": lambda p: _square_to_wall(p, p["extensor_process"]),
    "wall_to_bone_distal": lambda p: _square_to_wall(p, p["tip"]),
    "lucent_zone_proximal": lambda p: _lucent(p, "proximal"),
    "lucent_zone_middle": lambda p: _lucent(p, "middle"),
    "lucent_zone_distal": lambda p: _lucent(p, "distal"),
    "sole_depth_tip": lambda p: _sole_depth(p, "tip"),
    "sole_depth_palmar": lambda p: _sole_depth(p, "palmar_process"),
    "ground_depth_tip": lambda p: _upright(p, "tip", 0.0),
    "ground_depth_palmar": lambda p: _upright(p, "palmar_process", 0.0),
    "tip_to_frog": _tip_to_frog,
    "toe_to_cor": lambda p: _along_ground(p, "cor", "toe", 4.0),
    "breakover_to_tip": lambda p: _along_ground(p, "tip", "breakover", 4.0),
}
DRAWABLE = tuple(_DRAWINGS)


def measure_items(shown: ShownFoot, options: Options) -> tuple[list[Item], list[PictureLabel]]:
    """Dimension lines of the chosen measures, and a label with the value of each.

    BadInput, naming the nearest one, for a measure that has no drawing.
    """
    if not options.measures:
        return [], []
    values = shown.measures()
    items: list[Item] = []
    labels: list[PictureLabel] = []
    for name in options.measures:
        if name not in _DRAWINGS:
            raise BadInput(f"measure '{name}' cannot be drawn on the foot; {nearest(name, _DRAWINGS)}")
        made, target = _DRAWINGS[name](shown.points)
        items.extend(made)
        value = show(values.get(name), MEASURES[name].unit, options.length_unit)
        words = f"{MEASURES[name].label}: {unbroken(value)}"
        labels.append(PictureLabel(as_point(target), words, role="dimension_text"))
    return items, labels
