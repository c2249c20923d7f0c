"""The two pictures: of one moment, at one scale, showing one place, each painted when there is time for it."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any

from hoofsim.app.foot_picture import bare_picture_of
from hoofsim.app.pace import STEPS_A_PICTURE
from hoofsim.app.screens.pair.pairing import SIDES, Side
from hoofsim.app.screens.pair.twins import Twins
from hoofsim.app.screens.sandbox.foot_view import Actions, FootView
from hoofsim.app.screens.sandbox.sheet import NEWTONS_PER_MM
from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import Bounds, Point
from hoofsim.scene.stride import LIFT_MM

if TYPE_CHECKING:
    from hoofsim.app.application import Application

# Up to this pace a picture is made and painted in two turns, so that no frame takes long; above, the feet's motion
# leaves so little of a frame that pictures in pieces would come too seldom.
SLOW = 0.5


class Sheets:
    """Holds a view a side; the bones in them can be pulled, there are no rings and no tools."""

    def __init__(self, app: "Application", twins: Twins, grab: Callable[[Side, Point], bool]) -> None:
        self._app, self._twins = app, twins
        self.views = {
            side: FootView(f"{side.capitalize()} foot", _hands(side, twins, grab)) for side in SIDES
        }
        for view in self.views.values():
            view.paints_later, view.handles_shown = True, False
            view.keys_hold, view.say = True, app.say
        self.feet: dict[Side, Any] = {}  # of one moment, both of them
        self._waiting: dict[
            str, Callable[[], None]
        ] = {}  # work on their pictures that is still to be done, in order
        self._steps = 0
        self._fitted: object = None

    # -- what is seen --------------------------------------------------------------------------------------------

    def fit(self, again: bool = False) -> None:
        """One area for both feet, which is one scale; it stays while only a value changes."""
        pairing = self._twins.pairing
        room = (
            self.views["left"].sheet.size,
            pairing.preset,
            pairing.control,
            pairing.case,
            self._twins.playing,
        )
        if room == self._fitted and not again:
            return
        self._fitted = room
        feet = {
            side: shown.target if shown.at_rest else shown.foot for side, shown in self._twins.shown.items()
        }
        left, bottom, right, top = zip(*(self._picture(side, feet)[0].bounds for side in SIDES), strict=True)
        flight = 1.08 * LIFT_MM[pairing.case] if self._twins.playing else 0.0
        both: Bounds = (min(left), min(bottom), max(right), max(top) + flight)
        narrowest = min(self.views.values(), key=lambda view: view.sheet.w)
        narrowest.show_all(self._app.theme.em, lambda text_mm: both)
        self._look_alike(narrowest)

    def zoom(self, steps: int) -> None:
        """Both nearer (positive) or farther."""
        view = self.views["left"]
        view.zoom(steps)
        self._look_alike(view)

    def cameras(self) -> dict[Side, Camera | None]:
        """Where both look, to be given to `follow` after something was done."""
        return {side: view.camera for side, view in self.views.items()}

    def follow(self, before: dict[Side, Camera | None]) -> None:
        """Where one view was moved by hand, the other shows the same."""
        for side, view in self.views.items():
            if view.camera is not before[side]:
                self._look_alike(view)

    def _look_alike(self, leader: FootView) -> None:
        for view in self.views.values():
            if view is not leader and leader.camera is not None:
                view.camera = replace(leader.camera, size=(max(8, view.sheet.w), max(8, view.sheet.h)))

    def _picture(self, side: Side, feet: dict[Side, Any]) -> tuple[Any, list[str]]:
        """One foot's display list and the notes that belong to it; the right one with the left one's outline."""
        left = feet["left"] if side == "right" and feet["left"].at_rest else None
        unit = self._app.settings.length_unit
        return bare_picture_of(
            feet[side], left, newtons_per_mm=NEWTONS_PER_MM, length_unit=unit, compared="the left foot"
        )

    # -- painting ------------------------------------------------------------------------------------------------

    def advance(self) -> None:
        """A step of the clock has passed."""
        self._steps += 1
        for side, view in self.views.items():
            if view.holding and self._twins.shown[side].held is None:  # another deed took it out of the hand
                view.let_go()

    def begin(self, moving: bool) -> None:
        """A frame is about to be drawn, while things move or not."""
        for view in self.views.values():
            view.hasty = view.hasty and moving

    def due(self, moving: bool, stale: bool) -> dict[str, Callable[[], None]]:
        """The pictures to be made and painted, by name; they are of one moment, and come before any others."""
        changed = any(shown.changed for shown in self._twins.shown.values())
        old = changed and (not self._twins.moving or self._steps >= STEPS_A_PICTURE)
        unpainted = not all(view.painted(self._app.theme) for view in self.views.values())
        if not self._waiting and (stale or old or unpainted):
            self._take_feet(moving)
        return dict(self._waiting)

    def paint_both(self, moving: bool) -> None:
        """Both as they are now."""
        self._take_feet(moving)
        for work in list(self._waiting.values()):
            work()

    def _take_feet(self, moving: bool) -> None:
        self._steps, self._waiting = 0, {}
        for side, shown in self._twins.shown.items():
            self.feet[side], shown.changed = shown.foot, False
            make, paint = partial(self._make, side, moving), partial(self._paint, side)
            if self._twins.pace <= SLOW:
                self._waiting |= {side: make, f"{side} paint": paint}
            else:
                self._waiting[side] = partial(_both, make, paint)

    def _make(self, side: Side, moving: bool) -> None:
        view, scene = self.views[side], self._twins.shown[side].scene
        view.hasty = moving
        view.picture, view.notes = self._picture(side, self.feet)
        view.points = self.feet[side].points
        view.hand = None if scene is None else scene.hand
        self._waiting.pop(side)

    def _paint(self, side: Side) -> None:
        self.views[side].paint(self._app.theme)
        self._waiting.pop(f"{side} paint", None)


def _both(first: Callable[[], None], then: Callable[[], None]) -> None:
    first()
    then()


def _hands(side: Side, twins: Twins, grab: Callable[[Side, Point], bool]) -> Actions:
    """What can be done to one foot: a bone is pulled, and the other foot's with it."""
    return Actions(
        lambda handle: None,
        lambda handle, way: None,
        lambda tool, at, radius, first: False,
        lambda: None,
        lambda at: grab(side, at),
        lambda to: twins.pull(side, to),
        twins.release,
    )
