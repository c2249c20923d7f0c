"""Two sittings led as one: the same foot, load and clock but for one control, and the same pull on both."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from hoofsim.app.screens.pair.pairing import SIDES, History, Pairing, Side
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.drawing.display_list import Point
from hoofsim.errors import BadInput
from hoofsim.frames import rotate
from hoofsim.model import LoadedFoot
from hoofsim.session.commands import ChoosePreset, Command, SetControl, SetLoad
from hoofsim.session.session import Session

FIRST_PACE = 0.25


def other(side: Side) -> Side:
    """The foot on the other side."""
    return "right" if side == "left" else "left"


class Twins:
    """What both feet do. `trouble` tells, by side, why a foot asked for cannot be; it stays as it was then."""

    def __init__(self, reduced_motion: bool) -> None:
        self.history = History(Pairing())
        self.pace = FIRST_PACE
        self.trouble: dict[Side, str] = {}
        self._sessions: dict[Side, Session] = {side: Session() for side in SIDES}
        self.shown: Mapping[Side, Shown] = {
            side: Shown(session, reduced_motion) for side, session in self._sessions.items()
        }
        self._apart: tuple[float, float] = (0.0, 0.0)  # of the two places held, mm
        self._follow("start")

    @property
    def pairing(self) -> Pairing:
        """What is compared."""
        return self.history.now

    def session(self, side: Side) -> Session:
        """One foot's sitting."""
        return self._sessions[side]

    # -- what can be done ----------------------------------------------------------------------------------------

    def take(self, pairing: Pairing, gesture: str | None = None) -> None:
        """Compare something else, or something else about it."""
        self.history.take(pairing, gesture)
        self._follow(gesture)

    def undo(self) -> None:
        """Take back a pull that tore bonds, else the last step."""
        mended = [shown.mend() for shown in self.shown.values()]
        if any(mended):
            return
        self.history.undo()
        self._follow(None)

    def redo(self) -> None:
        """The step taken back last, again."""
        torn = [shown.tear_again() for shown in self.shown.values()]
        if any(torn):
            return
        self.history.redo()
        self._follow(None)

    def _follow(self, gesture: str | None) -> None:
        """Give both sittings what the pairing asks for, and let what is shown come after."""
        self.trouble = {}
        for side, session in self._sessions.items():
            try:
                for command in self._commands(side):
                    session.do(command, gesture)
            except BadInput as problem:
                self.trouble[side] = str(problem)
            self.shown[side].follow(at_once=gesture is not None)
        self._keep_together()

    def _commands(self, side: Side) -> list[Command]:
        """What leads one sitting to the pairing; a foot is begun anew only for another foot or control."""
        pairing, foot = self.pairing, self._sessions[side].state.foot
        commands: list[Command] = [SetLoad(pairing.case, pairing.moment)]
        if foot.preset != pairing.preset or any(name != pairing.control for name, _ in foot.changes):
            commands.append(ChoosePreset(pairing.preset))
        return [*commands, SetControl(pairing.control, pairing.value(side))]

    # -- motion --------------------------------------------------------------------------------------------------

    @property
    def playing(self) -> bool:
        """Whether the stride runs."""
        return all(shown.playing for shown in self.shown.values())

    @property
    def moving(self) -> bool:
        """Whether a picture changes by itself."""
        return any(shown.moving for shown in self.shown.values())

    def play(self, on: bool) -> None:
        """Start both strides from the same moment, or stop both where they are."""
        moment = self.shown["left"].stance_percent()
        for shown in self.shown.values():
            shown.pace = self.pace
            shown.play(on)
        if on:
            self._keep_together()
        elif moment is not None and self.pairing.moves:
            self.history.take(replace(self.pairing, stance_percent=round(moment, 1)), "stop")
            self._follow(None)

    def set_pace(self, pace: float) -> None:
        """So many times life's pace, for both."""
        self.pace = pace
        for shown in self.shown.values():
            shown.set_pace(pace)

    def _keep_together(self) -> None:
        """Where only one stride still runs, start both anew or, when the other foot finds no rest, stop it."""
        if len({shown.playing for shown in self.shown.values()}) == 1:
            return
        for on in (True, False):
            for shown in self.shown.values():
                shown.play(on)
            if len({shown.playing for shown in self.shown.values()}) == 1:
                return

    def advance(self, seconds: float) -> None:
        """The same time passes for both."""
        for shown in self.shown.values():
            shown.advance(seconds)

    # -- the hand ------------------------------------------------------------------------------------------------

    def grab(self, side: Side, at: Point) -> bool:
        """Take hold of a part at a place (mm) of one foot, and of the same place of that part on the other."""
        mine, twin = self.shown[side], self.shown[other(side)]
        if not (mine.at_rest and twin.at_rest and mine.grab(at)) or mine.scene is None:
            return False
        body = mine.scene.held
        assert body is not None
        waiting = twin.session.loaded if twin.scene is None else twin.scene.loaded
        there = _same_place(at, mine.scene.loaded, waiting, body)
        self._apart = (there[0] - at[0], there[1] - at[1])
        twin.grab(there)
        return True

    def pull(self, side: Side, to: Point) -> None:
        """Pull both parts held by the same way."""
        self.shown[side].pull(to)
        self.shown[other(side)].pull((to[0] + self._apart[0], to[1] + self._apart[1]))

    def release(self) -> None:
        """Let go of both."""
        for shown in self.shown.values():
            shown.release()

    @property
    def torn_by_hand(self) -> bool:
        """Whether the pull has torn bonds of either foot that its load leaves whole."""
        return any(shown.torn_by_hand for shown in self.shown.values())

    @property
    def mended(self) -> bool:
        """Whether such a pull was taken back last."""
        return any(shown.mended for shown in self.shown.values())


def _same_place(at: Point, mine: LoadedFoot, twin: LoadedFoot, body: str) -> Point:
    """Where the place `at` (mm) of a body of one loaded foot lies on the same body of the other."""
    pose = mine.poses[body]
    rest = rotate(np.array(at) - pose.pivot - np.array([pose.x, pose.y]), -pose.turn) + pose.pivot
    x, y = twin.poses[body].move(rest)
    return float(x), float(y)
