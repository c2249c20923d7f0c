"""What the sheet shows: the sitting's equilibrium, the way there, a stride, or a foot in the hand."""

from typing import Any

import numpy as np

from hoofsim.app.blend import BLEND_SECONDS, Blend
from hoofsim.app.slow_motion import LIFE
from hoofsim.drawing.display_list import Point
from hoofsim.drawing.foot_shown import Unloaded
from hoofsim.model import LoadedFoot
from hoofsim.scene.ramp import eased
from hoofsim.scene.scene import Scene
from hoofsim.session.commands import MOVING_CASES
from hoofsim.session.session import Session, foot_of
from hoofsim.session.state import State

# Damage that a pull by hand has left beyond what the load itself does, as a share of a bond.
LASTING_DAMAGE = 0.01
# Slowest that a playing foot's own clock goes: what is shown is up to 0.01 s of that clock late.
SLOWEST_CLOCK = 0.25
MEASURED_EVERY = 0.09  # seconds; numbers that change faster cannot be read


class Shown:
    """Follows a sitting; `foot` is what to draw now, `changed` is set whenever that became another.

    A moving scene exists only while a stride runs, a part is in the hand, or the foot has yet to settle after that.
    """

    def __init__(self, session: Session, reduced_motion: bool) -> None:
        self.session = session
        self.reduced_motion = reduced_motion
        self.target: LoadedFoot = session.loaded
        self.foot: Any = self.target
        self.baseline: LoadedFoot = session.baseline
        self.at_rest = True
        self.scene: Scene | None = None
        self.frozen = False
        self.pace = LIFE
        self.changed = True
        self._from: Any = None
        self._share = 1.0
        self._of_scene: State | None = None
        self._mended: Scene | None = (
            None  # the torn foot that was mended last, as long as nothing else was done
        )
        self._measured: dict[str, float | None] = {}
        self._since_measured = 0.0
        self.follow(at_once=True)

    # -- following the sitting -----------------------------------------------------------------------------------

    def follow(self, at_once: bool) -> None:
        """The sitting changed: go to its equilibrium, at once (while dragging) or as a short movement.

        A foot that finds no rest is shown as it was before the load, and `at_rest` says so.
        """
        found = self.session.loaded
        self.at_rest = found.at_rest
        self.baseline = self.session.baseline
        self.changed = True
        if self._of_scene != self.session.state:
            self._mended = None
        if self.scene is not None and self._of_scene != self.session.state:
            self._scene_follows(self.scene)
        if not found.at_rest:
            self.scene = None
            self.foot, self._share = Unloaded(found.foot, found.status, found.rest_points), 1.0
            return
        at_once = at_once or isinstance(self.foot, Unloaded) or self.reduced_motion or self.frozen
        self._from, self.target = self.foot, found
        self._share = 1.0 if at_once else 0.0
        if at_once and self.scene is None:
            self.foot = found

    def _scene_follows(self, scene: Scene) -> None:
        """Give a running stride the sitting's new controls; anything else starts from the equilibrium again."""
        state, before = self.session.state, self._of_scene
        if not scene.playing or before is None or before.foot.preset != state.foot.preset:
            self.scene = None
        elif before.load != state.load:
            self.scene = None
            self.play(state.load.case in MOVING_CASES)
        else:
            wanted = foot_of(state.foot).values
            changes = {name: value for name, value in wanted.items() if value != scene.foot.values[name]}
            changes.pop("stance_percent", None)
            scene.change(**changes)
            self._of_scene = state

    # -- motion --------------------------------------------------------------------------------------------------

    @property
    def playing(self) -> bool:
        """True while a stride runs."""
        return self.scene is not None and self.scene.playing > 0

    def play(self, on: bool) -> None:
        """Start or stop the stride; only walk and trot have one."""
        if not on:
            self.scene = None
            self.follow(at_once=False)
        elif self.session.state.load.case in MOVING_CASES and self.session.loaded.at_rest:
            self.scene = self._fresh_scene()
            self.set_pace(self.pace)

    def set_pace(self, pace: float) -> None:
        """Show strides, and changes, at so many times life's pace.

        The foot's own clock goes slower with the stride, as far as a hand's pull is still answered at once; beyond
        that only the stride does.
        """
        self.pace = pace
        if self.scene is not None and self.session.state.load.case in MOVING_CASES:
            self.scene.play(pace / self._clock)

    @property
    def _clock(self) -> float:
        """Seconds of a playing foot's clock in one of the clock on the wall."""
        return max(self.pace, SLOWEST_CLOCK)

    def _fresh_scene(self) -> Scene:
        state = self.session.state
        self._of_scene = state
        self._measured, self._mended = {}, None
        return Scene(foot_of(state.foot), state.load.case, stance_percent=state.load.stance_percent)

    def grab(self, at: Point) -> bool:
        """Take hold of the part at a place (mm); False for a foot that finds no rest."""
        if not self.at_rest:
            return False
        if self.scene is None:
            self.scene = self._fresh_scene()
        self.scene.grab(at)
        return True

    def pull(self, to: Point) -> None:
        """Pull what is held towards a place (mm)."""
        if self.scene is not None and self.scene.held is not None:
            self.scene.pull(to)

    def release(self) -> None:
        """Let go."""
        if self.scene is not None and self.scene.held is not None:
            self.scene.release()

    @property
    def held(self) -> str | None:
        """The body in the hand, or None."""
        return self.scene.held if self.scene is not None else None

    @property
    def torn_by_hand(self) -> bool:
        """Whether a pull has torn bonds that the load alone leaves whole."""
        if self.scene is None or self.playing:
            return False
        pulled, alone = self.scene.loaded.stations, self.target.stations
        return any(
            bool(np.any(pulled[kind].damage > alone[kind].damage + LASTING_DAMAGE))
            for kind in ("laminae", "quarters", "solar_dermis")
        )

    def mend(self) -> bool:
        """Go back from a foot torn by hand to the equilibrium; False when none is."""
        if not self.torn_by_hand:
            return False
        self.release()
        self.scene, mended = None, self.scene
        self.follow(at_once=False)
        self._mended = mended
        return True

    @property
    def mended(self) -> bool:
        """Whether a foot torn by hand was mended, and nothing else done since."""
        return self._mended is not None

    def tear_again(self) -> bool:
        """Go back to the foot torn by hand that was mended last; False when something else was done since."""
        if self._mended is None:
            return False
        self.scene, self._mended, self._measured = self._mended, None, {}
        self.foot, self.changed = self.scene.loaded, True
        return True

    @property
    def moving(self) -> bool:
        """True while the picture changes by itself."""
        return not self.frozen and (self._scene_moves or (self.scene is None and self._share < 1.0))

    @property
    def _scene_moves(self) -> bool:
        scene = self.scene
        return scene is not None and (scene.playing > 0 or scene.held is not None or not scene.settled)

    def advance(self, seconds: float) -> None:
        """Let time pass."""
        if self.frozen:
            return
        if self.scene is not None:
            self._advance_scene(self.scene, seconds)
        elif self._share < 1.0:
            self._share = min(1.0, self._share + seconds * self.pace / BLEND_SECONDS)
            done = self._share >= 1.0
            self.foot = self.target if done else Blend(self._from, self.target, eased(self._share))
            self.changed = True

    def _advance_scene(self, scene: Scene, seconds: float) -> None:
        if not self._scene_moves:
            if not self.torn_by_hand:  # settled where the equilibrium is: nothing more to simulate
                self.scene = None
                self._from, self._share = self.foot, 0.0
            return
        scene.advance(seconds * self._clock if scene.playing else seconds)
        self._since_measured += seconds
        self.foot, self.changed = scene.loaded, True

    # -- numbers -------------------------------------------------------------------------------------------------

    def values(self) -> dict[str, float | None]:
        """Every measure of what is shown; while it moves, of a moment up to `MEASURED_EVERY` ago."""
        if self.scene is None:
            return self.session.loaded.measures()
        if not self._measured or self._since_measured >= MEASURED_EVERY or not self._scene_moves:
            self._measured, self._since_measured = self.scene.loaded.measures(), 0.0
        return self._measured

    def values_before(self) -> dict[str, float | None]:
        """Every measure of what is compared with; empty where a moment of a stride has nothing to compare with."""
        if not self.playing:
            return self.session.baseline.measures()
        assert self.scene is not None
        return self.scene.loaded.baseline.measures() if self.session.state.baseline is None else {}

    def stance_percent(self) -> float | None:
        """The moment of the stance shown; None where the load has none, and while the foot is in the air."""
        if self.playing and self.scene is not None:
            return None if self.scene.loaded.lift_mm > 0 else self.scene.stance_percent
        return self.session.state.load.stance_percent
