"""What handles, blade and brush do to a sitting."""

from collections.abc import Callable

import numpy as np

from hoofsim.app.picking import distance_to_line
from hoofsim.app.screens.sandbox.controls import Give
from hoofsim.app.screens.sandbox.handles import Handle
from hoofsim.app.widgets.slider import rounded
from hoofsim.drawing.display_list import Point
from hoofsim.foot.parameters import BY_NAME
from hoofsim.frames import Array
from hoofsim.session.commands import THIRDS, BrushLaminae, CutTendon, SetControl
from hoofsim.session.session import Session

HANDLE_STEP = 0.1
BLADE_REACH_MM = 7.0
BRUSH_PERCENT_PER_STROKE = 12.0  # a stretch is gone after eight or nine strokes of the brush's own width


class Dragging:
    """Turns drags on the sheet into commands; every press begins a gesture of its own."""

    def __init__(self, session: Callable[[], Session], give: Give) -> None:
        self.session = session
        self.give = give
        self._count = 0
        self._start = 0.0
        self._brushed_at: Point | None = None

    @property
    def gesture(self) -> str:
        """Name of the present gesture."""
        return f"hand {self._count}"

    def begin(self, handle: Handle) -> None:
        """A handle was taken."""
        self._count += 1
        self._start = self.session().value(handle.control)

    def move(self, handle: Handle, moved: Point) -> None:
        """The handle was dragged by so many mm since it was taken."""
        control = BY_NAME[handle.control]
        value = rounded(handle.value_after(self._start, moved), HANDLE_STEP, control.low, control.high)
        if value != self.session().value(handle.control):
            self.give(SetControl(handle.control, value), self.gesture)

    def tool(self, tool: str, at: Point, radius: float, first: bool) -> bool:
        """Use a tool at a place (mm); False when nothing there can be worked on, so that the sheet moves instead."""
        if first:
            self._count += 1
            self._brushed_at = None
        if tool == "blade":
            return first and self._cut(at)
        return self._brush(tool == "brush_away", at, radius, first)

    def end(self) -> None:
        """The hand let go."""
        self._brushed_at = None

    def _cut(self, at: Point) -> bool:
        points = self.session().loaded.points
        path = [
            points[name] for name in ("tendon_origin", "tendon_upper", "navicular_flexor", "tendon_insertion")
        ]
        if distance_to_line(np.array(path), at) > BLADE_REACH_MM:
            return False
        self.give(CutTendon(self.session().value("tendon_cut") != 1.0), None)
        return True

    def _brush(self, away: bool, at: Point, radius: float, first: bool) -> bool:
        third = third_under(self.session(), at, radius)
        if third is None:
            return not first
        moved = radius if self._brushed_at is None else float(np.hypot(*np.subtract(at, self._brushed_at)))
        if not first and moved < 0.2 * radius:
            return True
        self._brushed_at = at
        change = BRUSH_PERCENT_PER_STROKE * min(moved / radius, 1.5) * (-1 if away else 1)
        before = self.session().value(THIRDS[third])
        after = float(np.clip(round(before + change), 0, 100))
        if after != before:
            self.give(BrushLaminae(third, after), self.gesture)
        return True


def third_under(session: Session, at: Point, radius: float) -> str | None:
    """The stretch of laminae under the brush: proximal, middle, distal or quarters; None when it touches none."""
    stations = session.loaded.stations
    near: list[tuple[float, str]] = []
    for kind in ("laminae", "quarters"):
        middles = 0.5 * (stations[kind].bone_end + stations[kind].horn_end)
        away = np.hypot(*(middles - np.array(at)).T)
        index = int(np.argmin(away))
        near.append((float(away[index]), third_of(kind, middles, index)))
    distance, third = min(near)
    return third if distance <= radius else None


def third_of(kind: str, middles: Array, index: int) -> str:
    """Name of the stretch that a station belongs to; stations run along the wall, whichever end they begin at."""
    if kind == "quarters":
        return "quarters"
    order = np.argsort(-middles[:, 1])
    place = int(np.nonzero(order == index)[0][0])
    return ("proximal", "middle", "distal")[3 * place // len(middles)]
