"""The ground under the foot: firm ground, a yielding bed, a wedge."""

import numpy as np

from hoofsim.drawing.display_list import Item, Polygon, Polyline, as_points
from hoofsim.drawing.foot_shown import Options, ShownFoot
from hoofsim.foot.curves import points_of
from hoofsim.frames import Array, rotate

GROUND_SHOWN_MM = 7.0  # how much earth is drawn below the surface
BEYOND_MM = 8.0  # how far ground reaches past toe and heel
LEAST_WEDGE_DEG = 0.05


def ground_direction(shown: ShownFoot) -> Array:
    """Direction (2,) of the surface the foot stands on, toward the toe."""
    return rotate(np.array([1.0, 0.0]), float(np.radians(shown.foot.values.get("wedge_deg", 0.0))))


def ground_items(shown: ShownFoot, options: Options) -> list[Item]:
    """Earth, bed and wedge, as far as the foot has them."""
    if not options.ground:
        return []
    wedge = shown.foot.values.get("wedge_deg", 0.0)
    depth = shown.foot.values.get("bed_depth_mm", 0.0)
    pivot, along = shown.rest_points["toe"], ground_direction(shown)
    size = abs(float(shown.rest_points["toe"][0] - shown.rest_points["heel_hairline"][0]))
    front, back = pivot + BEYOND_MM * along, pivot - (size + BEYOND_MM) * along
    base = min(float(front[1]), float(back[1]))
    items: list[Item] = []
    left, right = float(back[0]), float(front[0])
    if abs(wedge) < LEAST_WEDGE_DEG:
        surface = np.array([[left, base], [right, base]])
        lower = base - (depth if depth > 0 else 0.0)
        if depth > 0:
            items.append(Polygon(as_points([*surface, [right, lower], [left, lower]]), "bed", "bed"))
        base = lower
    else:
        under = (left, base) if wedge > 0 else (right, base)  # below the raised end
        items.append(Polygon(as_points(points_of(back, front, under)), "wedge", "wedge"))
    earth = [[left, base], [right, base], [right, base - GROUND_SHOWN_MM], [left, base - GROUND_SHOWN_MM]]
    items.append(Polygon(as_points(earth), "ground", "ground"))
    items.append(Polyline(as_points(earth[:2]), "ground_line", "ground"))
    return items
