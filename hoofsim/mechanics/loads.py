"""Load cases: what the limb above does to one front foot, by gait and by share of the stance.

Vertical force shapes are smooth curves through published peaks. The fetlock extends in a straight line with that force,
the same line for every gait (F5c). The pastern's turn over the stance, and the timing of the curves, are recalled typical
kinematics (status: memory); the moments and tendon forces that come out are predictions of the model from them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

import numpy as np

from hoofsim.errors import BadInput, nearest
from hoofsim.mechanics.types import Array

GRAVITY = 9.81
STANDING_SHARE = 0.29
# Fetlock angle at the two published peaks: 216 deg at 6.16 N/kg (walk) and 232 deg at 10.73 N/kg (trot); F5c.
FETLOCK_DEG_PER_N_PER_KG = (232.0 - 216.0) / (10.73 - 6.16)


def fetlock_change(force_per_kg_change: Array) -> Array:
    """Extension of the fetlock, rad, that a change of the limb's force (N per kg of body mass) brings (F5c)."""
    change: Array = np.radians(FETLOCK_DEG_PER_N_PER_KG * force_per_kg_change)
    return change


class Moment(NamedTuple):
    """What a load case applies at one moment. Force in N per kg of body mass; turns in radians; (B,) arrays."""

    force_per_kg: Array
    pastern_turn: Array
    fetlock_extension: Array


@dataclass(frozen=True)
class LoadCase:
    """A named load. Curves are knots over the stance (%): force N/kg and pastern turn in degrees.

    Pastern turn is positive when the middle phalanx tips forward over the foot, which extends the coffin joint.
    `lifted`: the foot hangs clear of the ground.
    """

    name: str
    label: str
    sentence: str
    source: str
    stance_s: float | None
    percent: tuple[float, ...]
    force_per_kg: tuple[float, ...]
    pastern_deg: tuple[float, ...]
    lifted: bool = False

    @property
    def moves(self) -> bool:
        """Whether the case changes over a stance."""
        return len(self.percent) > 1

    def at(self, stance_percent: Array) -> Moment:
        """The load at a share of the stance (B,), percent; still cases ignore it."""
        force = _smooth(stance_percent, self.percent, self.force_per_kg)
        return Moment(
            force,
            np.radians(_smooth(stance_percent, self.percent, self.pastern_deg)),
            fetlock_change(force - _STANDING_PER_KG),
        )


@cache
def _curve(knots: tuple[float, ...], values: tuple[float, ...]) -> tuple[Array, Array, Array, Array]:
    """Knots and values as arrays, the steps between knots, and the cubic's slope at each."""
    x, y = np.array(knots), np.array(values)
    step, rise = np.diff(x), np.diff(y) / np.diff(x)
    slope = np.zeros_like(y)
    same = rise[:-1] * rise[1:] > 0
    weight = 2 * step[1:] + step[:-1], step[1:] + 2 * step[:-1]
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = (weight[0] + weight[1]) / (weight[0] / rise[:-1] + weight[1] / rise[1:])
    slope[1:-1] = np.where(same, mean, 0.0)
    return x, y, step, slope


def _smooth(at: Array, knots: tuple[float, ...], values: tuple[float, ...]) -> Array:
    """Shape-keeping cubic through the knots (zero slope at local peaks, so that a published peak stays the peak)."""
    at = np.asarray(at, dtype=float)
    if len(knots) == 1:
        return np.full(at.shape, values[0])
    x, y, step, slope = _curve(knots, values)
    index = np.clip(np.searchsorted(x, at, side="right") - 1, 0, len(x) - 2)
    t = np.clip((at - x[index]) / step[index], 0.0, 1.0)
    h = step[index]
    ends = y[index] * (1 + 2 * t) * (1 - t) ** 2 + y[index + 1] * t * t * (3 - 2 * t)
    tangents = slope[index] * h * t * (1 - t) ** 2 + slope[index + 1] * h * t * t * (t - 1)
    out: Array = ends + tangents
    return out


_STANDING_PER_KG = STANDING_SHARE * GRAVITY

_CASES = (
    LoadCase("standing", "Standing", "Square standing: each front foot carries 29 % of body weight.", "F1", None,
             (0,), (_STANDING_PER_KG,), (0,)),
    LoadCase("other_lifted", "Other foot lifted", "The other front foot is held up: twice the standing load.", "F1", None,
             (0,), (2 * _STANDING_PER_KG,), (-4,)),
    LoadCase("walk", "Walk", "The stance of a walk: two peaks, breakover in the last 16 %.", "F5", 0.898,
             (0, 8, 25, 48, 65, 84, 93, 100), (0.3, 3.2, 6.16, 4.9, 6.16, 3.6, 1.2, 0.1),
             (0, -5, -9, -2, 8, 17, 16, 12)),
    LoadCase("trot", "Trot", "The stance of a trot: one peak, breakover from 86 %.", "F5", 0.30,
             (0, 10, 25, 50, 70, 86, 94, 100), (0.4, 3.4, 7.8, 10.73, 7.4, 2.2, 0.8, 0.1),
             (0, -5, -11, -8, 4, 14, 14, 10)),
    LoadCase("suspended", "Suspended", "The foot hangs clear of the ground.", "", None, (0,), (0.0,), (0,), True),
)  # fmt: skip

CASES: Mapping[str, LoadCase] = {case.name: case for case in _CASES}


def load_case(name: str) -> LoadCase:
    """The load case called `name`; `BadInput` naming the nearest one if there is none."""
    if name not in CASES:
        raise BadInput(f"unknown load '{name}': {nearest(name, CASES)}")
    return CASES[name]
