"""Places on the foot that can be taken hold of, and the control that each of them moves."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from hoofsim.foot.parameters import BY_NAME
from hoofsim.frames import Array

Point = tuple[float, float]


@dataclass(frozen=True)
class Handle:
    """A handle beside a landmark. Dragging it by `along` (a direction, mm) adds `per_mm` to the control a mm."""

    key: str
    words: str
    control: str
    landmark: str
    beside: Point
    along: Point
    per_mm: float

    def place(self, points: Mapping[str, Array]) -> Point:
        """Where the handle stands, mm."""
        x, y = np.asarray(points[self.landmark], dtype=float)
        return float(x) + self.beside[0], float(y) + self.beside[1]

    def value_after(self, start: float, moved: Point) -> float:
        """The control's value when the handle was dragged by `moved` mm from where the value was `start`."""
        length = float(np.hypot(*self.along))
        along = (moved[0] * self.along[0] + moved[1] * self.along[1]) / length
        control = BY_NAME[self.control]
        return float(np.clip(start + along * self.per_mm, control.low, control.high))


# How far a handle moves its control for a millimetre of drag: lengths one to one (the toe along the slope of the
# wall), angles and shares by what is comfortable in the hand.
HANDLES = (
    Handle("heel", "Heel", "heel_change_mm", "heel_hairline", (-9.0, -6.0), (0.0, 1.0), 1.0),
    Handle("toe", "Toe", "toe_change_mm", "toe", (9.0, 5.0), (1.0, 0.0), 1.6),
    Handle("breakover", "Breakover", "breakover_setback_mm", "breakover", (0.0, -8.0), (-1.0, 0.0), 1.0),
    Handle("sole", "Sole", "sole_change_mm", "sole_under_tip", (-14.0, -10.0), (0.0, -1.0), 0.5),
    Handle("wedge", "Wedge", "wedge_deg", "heel_ground", (-24.0, -8.0), (0.0, 1.0), 0.4),
    Handle("pull", "Tendon pull", "tendon_pull_percent", "tendon_origin", (-6.0, 12.0), (-0.45, 0.9), 5.0),
    Handle("load", "Load", "load_percent", "p2_dorsal_proximal", (12.0, 14.0), (0.0, -1.0), 3.0),
)


def handle_at(handles: Mapping[str, Point], pixel: Point, reach: float) -> str | None:
    """The key of the nearest handle (window positions) within `reach` pixels."""
    near = [(float(np.hypot(x - pixel[0], y - pixel[1])), key) for key, (x, y) in handles.items()]
    close = min(near, default=(np.inf, ""))
    return close[1] if close[0] <= reach else None
