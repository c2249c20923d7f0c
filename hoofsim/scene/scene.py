"""The moving foot on a fixed clock: asked for seconds, it marches whole windows and shows a moment between two of them.

Frames may come at any pace: the windows, and so the numbers, are the same. With the same foot, seed and acts at the same
windows every number is the same, bit for bit, on one machine.
"""

import math

import numpy as np
from numpy.typing import ArrayLike

from hoofsim.errors import BadInput
from hoofsim.foot.parameters import checked
from hoofsim.mechanics import bodies
from hoofsim.mechanics.assembly import evaluate, no_history, pose_gradient
from hoofsim.mechanics.equilibrium import CONVERGED, SLACK, first_guess, largest_force, solve
from hoofsim.mechanics.linear import solve_symmetric
from hoofsim.mechanics.loads import load_case
from hoofsim.mechanics.model import Model, build
from hoofsim.mechanics.types import Array
from hoofsim.model import Foot, Force
from hoofsim.scene.grab import Hold, hold_at
from hoofsim.scene.march import WINDOW, March
from hoofsim.scene.shown import MOVING, MovingFoot, baselines
from hoofsim.scene.snapshot import Act, Snapshot
from hoofsim.scene.space import AIR_DRAG_PER_S, DRAG_PER_S, SUBSTEPS_PER_SECOND, FootSpace
from hoofsim.scene.stride import LIFT_SPREAD, Stride, footing

WINDOW_S = WINDOW / SUBSTEPS_PER_SECOND
SLOWEST, FASTEST = 0.05, 1.0
# Settled: no freedom faster than this (turns count at `bodies.ARM_MM`), mm/s, and no force unbalanced by more, N.
STILL_MM_PER_S = 0.02
BALANCED_N = 0.02
# Longest stretch of missed time that is caught up; a longer pause of the program is simply lost.
LONGEST_CATCH_UP_S = 0.25
# Clock ticks: whole nanoseconds, so that frames of any length add up alike.
TICKS_PER_SECOND = 1_000_000_000
_WINDOW_TICKS = round(WINDOW_S * TICKS_PER_SECOND)


class Scene:
    """A foot that moves. `case` as in `hoofsim.mechanics.loads`; it starts at rest under that load.

    `seed` decides the small differences between strides.
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
        self._random = np.random.default_rng(seed)
        if stance_percent is not None:
            self.foot = self.foot.change(stance_percent=stance_percent)
        self._stride: Stride | None = None
        self._elapsed, self._speed = 0.0, 0.0
        self._hold: Hold | None = None
        self._ticks, self.windows = 0, 0
        self._built = self._build()
        self._model = self._built
        found = solve(self._built)
        rest = str(found.status[0]) in (CONVERGED, SLACK)
        freedoms = (found.freedoms if rest else first_guess(self._built))[:, 0]
        self.worst: Array = found.worst if rest else no_history(self._built)
        self._space = FootSpace(self._built, freedoms)
        self._march = March(self._space)
        self._residual = 0.0 if rest else math.inf
        self._freedoms = self._before = freedoms
        self._status = str(found.status[0]) if rest else MOVING
        self._shown: tuple[tuple[int, int], MovingFoot] | None = None
        self._set_moment()

    # -- the clock -----------------------------------------------------------------------------------------------

    @property
    def time(self) -> float:
        """Time shown, s: one window behind the marched one, so that a moment between two can be drawn."""
        return self.windows * WINDOW_S + self._ticks / TICKS_PER_SECOND

    def advance(self, seconds: float) -> None:
        """Let time pass, in seconds of the clock on the wall."""
        if not seconds >= 0:
            raise BadInput(f"a scene cannot go back by {seconds:g} s: time passed must be 0 or more")
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
        self._before = self._freedoms
        if self._speed:
            self._step_stride()
        elif self.settled:
            return
        else:
            self._space.drag(DRAG_PER_S)
        pull = np.zeros(bodies.COUNT)
        if self._hold is not None:
            pull = self._hold.generalised(self._model, self._freedoms)
        self.worst, force = self._march.window(self._model, self.worst, pull)
        self._freedoms, speeds = self._space.read()
        self._residual = float(largest_force(force[:, None])[0])
        still = np.abs(speeds / bodies.scales()).max() < STILL_MM_PER_S
        if still and self._residual < BALANCED_N and not self._speed:
            self._rest()

    def _rest(self) -> None:
        """Stand still and say in what kind of rest."""
        self._space.place(self._model, self._freedoms, np.zeros(bodies.COUNT))
        state = evaluate(self._model, self._freedoms[:, None], self.worst)
        assert state.hessian is not None
        stable = solve_symmetric(state.hessian, np.zeros((bodies.COUNT, 1)))[1][0] > 0
        self._status = CONVERGED if stable else SLACK

    def _step_stride(self) -> None:
        assert self._stride is not None
        before = self._elapsed // self._stride.duration_s
        self._elapsed += WINDOW_S * self._speed
        if self._elapsed // self._stride.duration_s != before:
            self._stride = self._fresh_stride()
        self._footing, touching = footing(self._model, self._freedoms)
        self._space.drag(DRAG_PER_S if touching else AIR_DRAG_PER_S)
        self._pose_limb()

    def _pose_limb(self) -> None:
        self._model = self._built
        if self._stride is not None:
            self._model = self._stride.model(self._built, self._elapsed, self._footing)
        self._space.turn_limb(self._model)

    # -- acts ----------------------------------------------------------------------------------------------------

    def change(self, **controls: float) -> None:
        """Set controls while running; what bonds have suffered stays."""
        self._act("change", **controls)
        self.foot = self.foot.change(**controls)
        self._rebuilt("stance_percent" in controls)

    def mend(self) -> None:
        """Take back all damage: a fresh foot with the same controls, in the same pose."""
        self._act("mend")
        self.worst = no_history(self._built)
        self._stir()

    def set_load(self, case: str, stance_percent: float | None = None) -> None:
        """Put the foot under another load; a walk or trot stands at that moment of its stance until `play`."""
        new = load_case(case).name
        changed = self.foot
        if stance_percent is not None:
            changed = self.foot.change(stance_percent=checked("stance_percent", stance_percent))
        self._act("set_load", case=case, stance_percent=stance_percent)
        self.case, self.foot, self._speed = new, changed, 0.0
        self._rebuilt(True)

    def play(self, speed: float = 1.0) -> None:
        """Let a walk or trot run, stride after stride, at 0.05 to 1 times life's pace."""
        if not load_case(self.case).moves:
            raise BadInput(f"nothing to play under '{self.case}': strides belong to walk and trot")
        if not SLOWEST <= speed <= FASTEST:
            raise BadInput(
                f"a stride's pace of {speed:g} is out of range: allowed {SLOWEST:g} to {FASTEST:g}"
            )
        self._act("play", speed=speed)
        baselines(self.foot.preset, self.case)  # solved now, so that no frame of the stride has to
        self._speed = speed
        self._stir()

    def pause(self) -> None:
        """Hold the stride at its present moment; the foot settles there."""
        self._act("pause")
        self._speed = 0.0
        self._stir()

    def grab(self, point: ArrayLike) -> str:
        """Take hold of the part at or nearest to `point` (2,) mm as shown; says which body."""
        self._act("grab", point=tuple(np.asarray(point, dtype=float).tolist()))
        where = np.asarray(point, dtype=float) - (0.0, self._lift())
        shown = {name: at - (0.0, self._lift()) for name, at in self._present().points.items()}
        self._hold = hold_at(self._model, self._freedoms, shown, where)
        self._stir()
        return self._hold.body

    def pull(self, point: ArrayLike) -> None:
        """Pull what is held towards `point` (2,) mm."""
        if self._hold is None:
            raise BadInput("nothing is held: grab a part before pulling it")
        self._act("pull", point=tuple(np.asarray(point, dtype=float).tolist()))
        self._hold = Hold(
            self._hold.body, self._hold.point, np.asarray(point, dtype=float) - (0.0, self._lift())
        )
        self._stir()

    def release(self) -> None:
        """Let go."""
        self._act("release")
        self._hold = None
        self._stir()

    def _act(self, name: str, **values: object) -> None:
        self._acts.append(Act(self.windows, name, tuple(values.items())))

    def _stir(self) -> None:
        self._status, self._shown = MOVING, None

    def _build(self) -> Model:
        values = {name: np.array([value]) for name, value in self.foot.values.items()}
        return build(values, load_case(self.case))

    def _fresh_stride(self) -> Stride:
        height = 1.0 + LIFT_SPREAD * float(np.clip(self._random.standard_normal(), -2.0, 2.0))
        return Stride(load_case(self.case), height)

    def _set_moment(self) -> None:
        """Put the stride's clock, if there is a stride, at the stance moment of the foot's controls."""
        self._stride = self._fresh_stride() if load_case(self.case).moves else None
        self._footing = self._built.stations.grip
        if self._stride is not None:
            self._elapsed = self.foot.values["stance_percent"] / 100.0 * self._stride.stance_s

    def _rebuilt(self, moment_changed: bool) -> None:
        """The foot, its load or its moment changed: new laws for bodies that stay where they are."""
        self._built = self._build()
        if moment_changed:
            self._set_moment()
        freedoms, speeds = self._space.read()
        self._space.fit(self._built)
        self._pose_limb()
        self._space.place(self._model, freedoms, speeds)
        self._march.forget()
        self._stir()

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
        return Force(at + (0.0, self._lift()), force)

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

    def _lift(self) -> float:
        return 0.0 if self._stride is None else self._stride.lift_mm(self._elapsed)

    def _present(self) -> MovingFoot:
        share = self._ticks / _WINDOW_TICKS
        freedoms = self._before + share * (self._freedoms - self._before)
        return MovingFoot.of(
            self.foot, self.case, self.stance_percent, self._model, freedoms, self.worst, self._residual,
            self._status, self._lift(),
        )  # fmt: skip

    @property
    def loaded(self) -> MovingFoot:
        """The foot at the moment shown, with everything a foot at rest has."""
        key = (self.windows, self._ticks)
        if self._shown is None or self._shown[0] != key:
            self._shown = key, self._present()
        return self._shown[1]

    @property
    def energy(self) -> float:
        """Potential and kinetic energy, N mm, of the last window's end."""
        freedoms, speeds = self._space.read()
        potential = pose_gradient(self._model, freedoms[:, None], self.worst)[0][0]
        return float(potential + 0.5 * (self._space.inertia * speeds**2).sum())

    # -- going back ----------------------------------------------------------------------------------------------

    def snapshot(self) -> Snapshot:
        """The present moment, to come back to."""
        start = self._start
        return Snapshot(
            start.foot, start.case, start.stance_percent, start.seed, tuple(self._acts), self.windows
        )

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
