"""The moving foot on a fixed clock: asked for seconds, it marches whole windows and shows a moment between two of them.

Frames may come at any pace: the windows, and so the numbers, are the same. With the same foot, seed and acts at the same
windows every number is the same, bit for bit, on one machine.
"""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from hoofsim.errors import BadInput
from hoofsim.foot.parameters import checked
from hoofsim.mechanics import bodies
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.assembly import evaluate, no_history, pose_gradient
from hoofsim.mechanics.equilibrium import CONVERGED, SLACK, first_guess, largest_force, solve
from hoofsim.mechanics.loads import Moment, load_case
from hoofsim.mechanics.model import under
from hoofsim.mechanics.types import Array
from hoofsim.model import Foot, Force
from hoofsim.scene.grab import Hold, hold_at
from hoofsim.scene.march import WINDOW, March
from hoofsim.scene.ramp import RAMP_WINDOWS, between, eased, feet_between
from hoofsim.scene.shown import MOVING, Instant, MovingFoot, baselines
from hoofsim.scene.snapshot import Act, Snapshot
from hoofsim.scene.space import (
    DRAG_PER_S,
    HANGING_DRAG_PER_S,
    SUBSTEPS_PER_SECOND,
    SWING_DRAG_PER_S,
    FootSpace,
)
from hoofsim.scene.stride import LIFT_SPREAD, Stride, footing, hung

WINDOW_S = WINDOW / SUBSTEPS_PER_SECOND
SLOWEST, FASTEST = 0.05, 1.0
# Settled: no freedom faster than this (turns count at `bodies.ARM_MM`), mm/s, and no force unbalanced by more, N.
STILL_MM_PER_S = 0.02
BALANCED_N = 0.02
# How far the ground comes up in one window under a foot that is put down, mm (choice: 160 mm a second).
PUT_DOWN_MM = 1.6
# Longest stretch of missed time that is caught up; a longer pause of the program is simply lost.
LONGEST_CATCH_UP_S = 0.25
# Clock ticks: whole nanoseconds, so that frames of any length add up alike.
TICKS_PER_SECOND = 1_000_000_000
_WINDOW_TICKS = round(WINDOW_S * TICKS_PER_SECOND)


class Scene:
    """A foot that moves. `case` as in `hoofsim.mechanics.loads`; it starts at rest under that load.

    A walk or trot stands at `stance_percent` until `play`. `seed` decides the small differences between strides.
    """

    def __init__(
        self,
        foot: Foot | None = None,
        case: str = "standing",
        seed: int = 0,
        stance_percent: float | None = None,
    ) -> None:
        self.foot = Foot() if foot is None else foot
        self.case = load_case(case).name
        self._start = Snapshot(self.foot, self.case, stance_percent, seed, (), 0)
        self._acts: list[Act] = []
        if stance_percent is not None:
            self.foot = self.foot.change(stance_percent=stance_percent)
        self._random = np.random.default_rng(seed)
        self._ticks, self.windows = 0, 0
        self._elapsed, self._speed = 0.0, 0.0
        self._stride: Stride | None = None
        self._hold: Hold | None = None
        # The feet still to come on the way to what was asked for; the present one's values and laws.
        self._way = feet_between(self.foot.values, self.foot.values, load_case(self.case))
        self._values, self._built = self._way.pop()
        self._set_moment()
        # The load and posture when something was last asked for, those now, and how far the way between is gone.
        self._left = self._moment = self._target()
        self._share = 1.0
        # How far the ground of a foot that is being put down has still to come, mm.
        self._away, self._put_down, self._lifted = 0.0, False, load_case(self.case).lifted
        found = solve(self._built)
        rest = str(found.status[0]) in (CONVERGED, SLACK)
        self._freedoms: Array = (found.freedoms if rest else first_guess(self._built))[:, 0]
        self.worst: Array = found.worst if rest else no_history(self._built)
        self._status = str(found.status[0]) if rest else MOVING
        self._residual = 0.0 if rest else math.inf
        self._standing = self._model = self._built
        self._space = FootSpace(self._built, self._freedoms)
        self._march = March(self._space)
        self._before = self._now = self._instant()
        self._shown: tuple[tuple[int, int], MovingFoot] | None = None

    # -- the clock -----------------------------------------------------------------------------------------------

    @property
    def time(self) -> float:
        """Time passed, s."""
        return self.windows * WINDOW_S + self._ticks / TICKS_PER_SECOND

    def advance(self, seconds: float) -> None:
        """Let time pass, in seconds of the clock on the wall."""
        if not seconds >= 0:
            raise BadInput(f"a scene cannot go back by {-seconds:g} s: time passed must be 0 or more")
        self._ticks += round(min(seconds, LONGEST_CATCH_UP_S) * TICKS_PER_SECOND)
        while self._ticks >= _WINDOW_TICKS:
            self._ticks -= _WINDOW_TICKS
            self._window()

    def settle(self, max_seconds: float = 5.0) -> bool:
        """March until the foot has settled, or for so long; says whether it has."""
        for _ in range(math.ceil(max_seconds / WINDOW_S)):
            if self.settled:
                break
            self._window()
        return self.settled

    @property
    def settled(self) -> bool:
        """Whether speeds and unbalanced forces have died away under a load that does not change."""
        return self._status != MOVING

    def _window(self) -> None:
        self.windows += 1
        self._before = self._now
        if self.settled:
            return
        coming = self._come_on()
        if self._speed:
            self._run_on()
        astray = self._pose_limb()
        pull = np.zeros(bodies.COUNT)
        if self._hold is not None:
            pull = self._hold.generalised(self._model, self._freedoms)
        self.worst, force = self._march.window(self._model, self.worst, pull)
        self._freedoms, speeds = self._space.read()
        self._now = self._instant()
        self._residual = float(largest_force(force[:, None])[0])
        still = np.abs(speeds / bodies.scales()).max() < STILL_MM_PER_S and self._residual < BALANCED_N
        if still and not (self._speed or coming or astray):
            self._rest()

    def _come_on(self) -> bool:
        """One window further on the way to the foot and load that were asked for; says whether it goes on."""
        if self._way:
            self._values, self._built = self._way.pop(0)
            freedoms, speeds = self._space.read()
            self._space.fit(self._built)
            self._space.place(self._built, freedoms, speeds)
            self._march.forget()
        if self._away:
            self._away = max(0.0, self._away - PUT_DOWN_MM)
        else:
            self._share = min(1.0, self._share + 1.0 / RAMP_WINDOWS)
        return bool(self._way) or self._share < 1.0

    def _run_on(self) -> None:
        """Let the stride's clock run for one window."""
        assert self._stride is not None
        before = self._elapsed // self._stride.duration_s
        self._elapsed += WINDOW_S * self._speed
        if self._elapsed // self._stride.duration_s != before:
            self._stride = self._fresh_stride()

    def _pose_limb(self) -> bool:
        """Put the limb's load, posture and footing of this moment into the laws; says whether the foot stands astray."""
        grip, touching = footing(self._model, self._freedoms, self._speed > 0, self._hold is not None)
        self._space.drag(DRAG_PER_S if touching else SWING_DRAG_PER_S if self._speed else HANGING_DRAG_PER_S)
        self._moment = between(self._left, self._target(), eased(self._share))
        model = under(self._built, self._moment)
        model = replace(model, stations=replace(model.stations, grip=grip))
        if self._put_down and self._share < 1.0:
            model = hung(model, self._away, 1.0 - eased(self._share))
        self._standing = model
        self._model = model if self._stride is None else self._stride.carried(model, self._elapsed)
        self._space.turn_limb(self._model)
        return touching and self._hold is None and bool(grip.any())

    def _target(self) -> Moment:
        """The load and posture that case and stride ask for now."""
        if self._stride is not None:
            return self._stride.moment(self._elapsed)
        return load_case(self.case).at(np.array([self.foot.values["stance_percent"]]))

    def _rest(self) -> None:
        """Stand still and say in what kind of rest."""
        self._space.place(self._model, self._freedoms, np.zeros(bodies.COUNT))
        state = evaluate(self._model, self._freedoms[:, None], self.worst)
        scale = bodies.scales()
        stable = np.linalg.eigvalsh(state.hessian[:, :, 0] * np.outer(scale, scale))[0] > 0.0
        self._status = CONVERGED if stable else SLACK

    # -- acts ----------------------------------------------------------------------------------------------------

    def change(self, **controls: float) -> None:
        """Set controls while running; they come on within a moment. What bonds have suffered stays."""
        foot = self.foot.change(**controls)
        self._ask_for(foot, self.case, "stance_percent" in controls)
        self._act("change", **controls)

    def set_load(self, case: str, stance_percent: float | None = None) -> None:
        """Put the foot under another load; a walk or trot stands at that moment of its stance until `play`."""
        new, foot = load_case(case).name, self.foot
        if stance_percent is not None:
            foot = foot.change(stance_percent=checked("stance_percent", stance_percent))
        self._ask_for(foot, new, True)
        self._speed = 0.0
        self._act("set_load", case=case, stance_percent=stance_percent)

    def play(self, speed: float = 1.0) -> None:
        """Let a walk or trot run, stride after stride, at 0.05 to 1 times life's pace."""
        if not load_case(self.case).moves:
            raise BadInput(f"nothing to play under '{self.case}': strides belong to walk and trot")
        if not SLOWEST <= speed <= FASTEST:
            raise BadInput(
                f"a stride's pace of {speed:g} is out of range: allowed {SLOWEST:g} to {FASTEST:g}"
            )
        baselines(self.foot.preset, self.case)  # solved now, so that no frame of the stride has to
        self._speed = speed
        self._act("play", speed=speed)

    def pause(self) -> None:
        """Hold the stride at its present moment; the foot settles there."""
        self._speed = 0.0
        self._act("pause")

    def mend(self) -> None:
        """Take back all damage and put the foot down afresh, with the same controls and in the same pose."""
        self.worst = no_history(self._built)
        stations = self._model.stations
        self._model = replace(self._model, stations=replace(stations, grip=np.zeros_like(stations.grip)))
        self._act("mend")

    def grab(self, point: ArrayLike) -> str:
        """Take hold of the part at or nearest to `point` (2,) mm as shown; says which body."""
        where = np.asarray(point, dtype=float)
        self._hold = hold_at(self._model, self._freedoms, where - self._lift())
        self._act("grab", point=tuple(where.tolist()))
        return self._hold.body

    def pull(self, point: ArrayLike) -> None:
        """Pull what is held towards `point` (2,) mm."""
        if self._hold is None:
            raise BadInput("nothing is held: grab a part before pulling it")
        where = np.asarray(point, dtype=float)
        self._hold = replace(self._hold, target=where - self._lift())
        self._act("pull", point=tuple(where.tolist()))

    def release(self) -> None:
        """Let go."""
        self._hold = None
        self._act("release")

    def _act(self, name: str, **values: object) -> None:
        """Remember what was asked, and wake."""
        act = Act(self.windows, name, tuple(values.items()))
        if name == "pull" and self._acts[-1].name == name and self._acts[-1].window == act.window:
            self._acts.pop()  # only where the pointer is when the window begins is ever felt
        self._acts.append(act)
        self._status, self._shown = MOVING, None

    def _ask_for(self, foot: Foot, case: str, new_moment: bool) -> None:
        """Set out for another foot or load; `BadInput` before anything is changed."""
        self._way = feet_between(self._values, foot.values, load_case(case))
        self.foot, self.case, self._left = foot, case, self._moment
        if new_moment:
            self._set_moment()
        lifted = load_case(case).lifted
        if lifted != self._lifted:
            self._lifted, self._put_down, self._away = lifted, not lifted, 0.0 if lifted else places.LIFT_MM
        # A foot that is lifted loses its load with its ground, at once.
        self._share = 1.0 if lifted else 0.0

    def _set_moment(self) -> None:
        """Put the stride's clock, if there is a stride, at the stance moment of the foot's controls."""
        self._stride = self._fresh_stride() if load_case(self.case).moves else None
        if self._stride is not None:
            self._elapsed = self.foot.values["stance_percent"] / 100.0 * self._stride.stance_s

    def _fresh_stride(self) -> Stride:
        height = 1.0 + LIFT_SPREAD * float(np.clip(self._random.standard_normal(), -2.0, 2.0))
        return Stride(load_case(self.case), height)

    # -- what it shows -------------------------------------------------------------------------------------------

    @property
    def held(self) -> str | None:
        """The body in hand, or None."""
        return None if self._hold is None else self._hold.body

    @property
    def hand(self) -> Force | None:
        """The pointer's pull: where (2,) mm as shown, and how strong (2,) N; None when nothing is held."""
        if self._hold is None:
            return None
        at, force = self._hold.force(self._model, self._freedoms)
        return Force(at + self._lift(), force)

    @property
    def stance_percent(self) -> float:
        """Moment of the stance now, percent; 100 in the swing."""
        if self._stride is None:
            return self.foot.values["stance_percent"]
        percent = self._stride.stance_percent(self._elapsed)
        return 100.0 if percent is None else percent

    @property
    def playing(self) -> float:
        """Pace of the running stride, 0 when nothing runs."""
        return self._speed

    def _instant(self) -> Instant:
        lift = 0.0 if self._stride is None else self._stride.lift_mm(self._elapsed)
        return Instant(self._freedoms, self._moment, lift)

    def _lift(self) -> Array:
        """How far (2,) mm the foot is shown above where the scene, travelling with the limb, has it."""
        return np.array([0.0, self._now.lift_mm])

    @property
    def loaded(self) -> MovingFoot:
        """The foot at the moment shown, up to one window ago, with everything a foot at rest has.

        The same object as long as the foot rests, so that nothing need be computed or drawn again.
        """
        resting = self.settled and self._before is self._now
        key = (-1, 0) if resting else (self.windows, self._ticks)
        if self._shown is None or self._shown[0] != key:
            foot = MovingFoot.of(
                self.foot, self.case, self.stance_percent, self._standing,
                self._before.towards(self._now, self._ticks / _WINDOW_TICKS), self.worst, self._residual,
                self._status,
            )  # fmt: skip
            self._shown = key, foot
        return self._shown[1]

    @property
    def energy(self) -> float:
        """Potential and kinetic energy, N mm, at the last window's end."""
        freedoms, speeds = self._space.read()
        potential = pose_gradient(self._model, freedoms[:, None], self.worst)[0][0]
        return float(potential + 0.5 * (self._space.inertia * speeds**2).sum())

    # -- going back ----------------------------------------------------------------------------------------------

    def snapshot(self) -> Snapshot:
        """The present moment, to come back to."""
        return replace(self._start, acts=tuple(self._acts), windows=self.windows)

    @classmethod
    def replay(cls, snapshot: Snapshot) -> "Scene":
        """A new scene at the moment of a snapshot, built and marched anew."""
        scene = cls(snapshot.foot, snapshot.case, snapshot.seed, snapshot.stance_percent)
        for act in snapshot.acts:
            scene._march_to(act.window)
            getattr(scene, act.name)(**dict(act.values))
        scene._march_to(snapshot.windows)
        return scene

    def _march_to(self, window: int) -> None:
        while self.windows < window:
            self._window()
