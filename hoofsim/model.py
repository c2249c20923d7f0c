"""The facade: a foot, the foot under load, and sweeps of many feet, for notebooks, screens and commands alike.

>>> import hoofsim
>>> loaded = hoofsim.Foot("sound", heel_change_mm=10).load("standing")
>>> loaded.status
'converged'
>>> round(loaded.measures()["palmar_angle"], 1) > 4.0
True
>>> table = hoofsim.sweep("sound", {"heel_change_mm": [-5 + 0.02 * step for step in range(1000)]}, load="standing")
>>> table["tendon_tension"].shape
(1000,)
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hoofsim.errors import BadInput
from hoofsim.foot.drawn_once import Landmarks
from hoofsim.foot.parameters import BY_NAME, checked, parameter
from hoofsim.foot.presets import preset as find_preset
from hoofsim.frames import Array, rotate
from hoofsim.measures.compute import measure_all
from hoofsim.measures.table import MEASURES
from hoofsim.mechanics.equilibrium import CHUNK, CONVERGED, Equilibrium, solve
from hoofsim.mechanics.loads import load_case
from hoofsim.mechanics.model import Model, build
from hoofsim.mechanics.outputs import Outputs, observe

# Feet solved between two calls of a sweep's progress function: as many as are solved in one go, since more take no less time
# and more memory.
SWEEP_BLOCK = CHUNK


class Pose(NamedTuple):
    """Move of one body since rest: shift in mm, turn in radians (tip down positive) about its pivot (2,)."""

    x: float
    y: float
    turn: float
    pivot: Array

    def move(self, points: Array) -> Array:
        """Rest points (..., 2) of this body, moved."""
        moved: Array = rotate(points, self.turn, self.pivot) + np.array([self.x, self.y])
        return moved


class Stations(NamedTuple):
    """Stations of one kind: ends (S, 2) mm; attached and damage 0-1; normal and shear (S,) in MPa (N for the ground)."""

    bone_end: Array
    horn_end: Array
    attached: Array
    damage: Array
    normal: Array
    shear: Array


class Force(NamedTuple):
    """A force (2,) in N acting at a point (2,) in mm."""

    at: Array
    force: Array


@dataclass(frozen=True)
class Foot:
    """A foot: a preset and the controls changed on it. Frozen; `change` gives another foot.

    `Foot("pony", wedge_deg=3)`. `BadInput` names an unknown preset or control, or a value out of range.
    """

    preset: str
    values: Mapping[str, float]
    own: Mapping[str, float]
    """Values of the foot's own baseline, from which changes are counted: the preset's, unless `as_own` said otherwise."""

    def __init__(self, preset: str = "sound", /, **changes: float) -> None:
        start = find_preset(preset).values
        self._set(preset, start | {name: checked(name, value) for name, value in changes.items()}, start)

    def _set(self, preset: str, values: Mapping[str, float], own: Mapping[str, float]) -> None:
        for name, value in (("preset", preset), ("values", values), ("own", own)):
            object.__setattr__(self, name, value)

    def change(self, **changes: float) -> "Foot":
        """The same foot with some controls set to other values."""
        foot = Foot(self.preset, **{**self.values, **changes})
        foot._set(self.preset, foot.values, self.own)
        return foot

    def as_own(self) -> "Foot":
        """The same foot as its own baseline: changes made from here on are counted from here."""
        foot = Foot(self.preset)
        foot._set(self.preset, self.values, self.values)
        return foot

    @property
    def changes(self) -> dict[str, float]:
        """The controls that differ from the foot's own baseline."""
        return {name: value for name, value in self.values.items() if value != self.own[name]}

    def load(
        self, case: str = "standing", stance_percent: float | None = None, worst: Array | None = None
    ) -> "LoadedFoot":
        """The foot at rest under a load case; `worst` (bonded,) carries damage from an earlier load."""
        values = dict(self.values)
        if stance_percent is not None:
            values["stance_percent"] = checked("stance_percent", stance_percent)
        model = build({name: np.array([value]) for name, value in values.items()}, load_case(case))
        found = solve(model, None if worst is None else worst[:, None])
        return LoadedFoot(self, case, values["stance_percent"], model, found)


def _baseline(foot: Foot, case: str, stance_percent: float) -> "LoadedFoot":
    return _loaded_once(foot.preset, tuple(foot.own.items()), case, stance_percent)


@lru_cache(maxsize=16)
def _loaded_once(
    preset: str, own: tuple[tuple[str, float], ...], case: str, stance_percent: float
) -> "LoadedFoot":
    return Foot(preset, **dict(own)).as_own().load(case, stance_percent)


@dataclass(frozen=True)
class LoadedFoot:
    """One foot under one load. Plain values: landmarks (2,) mm, measures by name; nothing is drawn from a failed search."""

    foot: Foot
    case: str
    stance_percent: float
    model: Model
    equilibrium: Equilibrium

    @property
    def status(self) -> str:
        """`converged`, `slack`, `torn through` or `no equilibrium` (see `hoofsim.mechanics.equilibrium`)."""
        return str(self.equilibrium.status[0])

    @property
    def at_rest(self) -> bool:
        """Whether a stable state of rest was confirmed: only then may it be shown as a result."""
        return self.status == CONVERGED

    @cached_property
    def outputs(self) -> Outputs:
        """Everything that can be seen, as arrays with a batch of one."""
        return observe(self.model, self.equilibrium.freedoms, self.equilibrium.worst)

    @cached_property
    def points(self) -> Landmarks:
        """Landmarks of the loaded foot, name -> (2,) mm."""
        return Landmarks({name: point[0] for name, point in self.outputs.points.items()})

    @cached_property
    def rest_points(self) -> Landmarks:
        """Landmarks of the unloaded foot on its ground, name -> (2,) mm."""
        return Landmarks({name: point[0] for name, point in self.model.rest.points.items()})

    @cached_property
    def poses(self) -> dict[str, Pose]:
        """Move of every body since rest."""
        return {
            body: Pose(float(pose.x[0]), float(pose.y[0]), float(pose.turn[0]), pose.pivot[0])
            for body, pose in self.outputs.poses.items()
        }

    @cached_property
    def stations(self) -> dict[str, Stations]:
        """State of laminae, quarters, solar dermis, junction, cushion and ground."""
        return {
            kind: Stations(*(part[:, 0] for part in state)) for kind, state in self.outputs.stations.items()
        }

    @cached_property
    def forces(self) -> dict[str, Force]:
        """Load, ground, tendon, navicular and extensor forces."""
        return {name: Force(arrow.at[0], arrow.force[0]) for name, arrow in self.outputs.forces.items()}

    @property
    def baseline(self) -> "LoadedFoot":
        """The same foot before its changes (see `Foot.own`) under the same load."""
        return _baseline(self.foot, self.case, self.stance_percent)

    def measures(self) -> dict[str, float | None]:
        """Every measure by name, in its unit; None where it is not defined or the foot found no rest."""
        return dict(self._measures)

    @cached_property
    def _measures(self) -> dict[str, float | None]:
        if not self.at_rest:
            return dict.fromkeys(MEASURES)
        values = measure_all(self.outputs.points, self.baseline.points, self.outputs.mechanics)
        return {name: None if value is None else float(np.ravel(value)[0]) for name, value in values.items()}


@dataclass(frozen=True)
class Table(Mapping[str, Array]):
    """A sweep's results: measure name -> (B,) array in the measure's unit, NaN where that foot found no rest.

    `status` (B,) says what each foot did; `settings` holds the controls that were swept; `steps` the Newton steps.
    """

    columns: Mapping[str, Array]
    status: NDArray[np.str_]
    settings: Mapping[str, Array]
    steps: NDArray[np.int_]
    case: str

    def __getitem__(self, name: str) -> Array:
        return self.columns[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.columns)

    def __len__(self) -> int:
        return len(self.columns)

    @property
    def count(self) -> int:
        """How many feet."""
        return len(self.status)


def sweep(
    foot: Foot | str,
    settings: Mapping[str, ArrayLike],
    load: str = "standing",
    stance_percent: float | None = None,
    progress: Callable[[int, int], bool | None] | None = None,
) -> Table:
    """Solve many feet at once: `foot` with each control in `settings` set to its array of values (all one length, or one).

    `progress(done, total)` is called between blocks; if it returns False the sweep stops and what is done is kept.
    `BadInput` names an unknown control or the first value out of range.
    """
    start = Foot(foot) if isinstance(foot, str) else foot
    swept = {name: np.atleast_1d(np.asarray(value, dtype=float)) for name, value in settings.items()}
    count = max((value.size for value in swept.values()), default=1)
    for name, value in swept.items():
        _check_column(name, value, count)
    swept = {name: np.broadcast_to(value, (count,)) for name, value in swept.items()}
    case = load_case(load)
    fixed = dict(start.values)
    if stance_percent is not None:
        fixed["stance_percent"] = checked("stance_percent", stance_percent)
    baseline = _baseline(start, load, fixed["stance_percent"])
    columns: list[dict[str, Array | None]] = []
    statuses, steps = [], []
    done = 0
    while done < count:
        block = slice(done, min(done + SWEEP_BLOCK, count))
        size = block.stop - block.start
        values = {name: np.full(size, value) for name, value in fixed.items()}
        values |= {name: value[block] for name, value in swept.items()}
        model = build(values, case)
        found = solve(model)
        seen = observe(model, found.freedoms, found.worst)
        columns.append(measure_all(seen.points, baseline.points, seen.mechanics))
        statuses.append(found.status)
        steps.append(found.steps)
        done = block.stop
        if progress is not None and progress(done, count) is False:
            break
    status = np.concatenate(statuses)
    lost = status != CONVERGED
    joined = {}
    for name in columns[0]:
        parts = [part[name] for part in columns]
        whole = np.concatenate([np.broadcast_to(p, s.shape) if p is not None else np.full(s.shape, np.nan)
                                for p, s in zip(parts, statuses, strict=True)])  # fmt: skip
        joined[name] = np.where(lost, np.nan, whole)
    kept = {name: value[: status.size] for name, value in swept.items()}
    return Table(joined, status, kept, np.concatenate(steps), load)


def _check_column(name: str, value: Array, count: int) -> None:
    parameter(name)
    if value.ndim != 1 or value.size not in (1, count):
        raise BadInput(
            f"{name} has {value.size} values where the others have {count}: give one value or {count}"
        )
    control = BY_NAME[name]
    wrong = ~((value >= control.low) & (value <= control.high))
    if wrong.any():
        checked(name, float(value[wrong][0]))
    if name == "tendon_cut":
        for one in np.unique(value):
            checked(name, float(one))
