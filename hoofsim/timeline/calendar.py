"""The foot on day t: toe, heel and sole from growth, wear and trims, as values of the engine's own controls."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from hoofsim.errors import BadInput
from hoofsim.foot.geometry import rest_foot
from hoofsim.foot.landmarks import HEEL_LINE_ANGLE_DEG
from hoofsim.foot.parameters import BY_NAME
from hoofsim.frames import Array
from hoofsim.model import Foot, Table, sweep
from hoofsim.timeline.rates import DAYS_PER_MONTH, SOLE_GAIN, WALL_GROWTH, Keeping, keeping
from hoofsim.timeline.trim import Trim


@dataclass(frozen=True)
class Calendar:
    """A foot over days. `days` (D,); `controls` name -> (D,) mm: what to set on that foot on that day."""

    foot: Foot
    keeping: Keeping
    growth_mm_per_month: float
    trims: tuple[Trim, ...]
    days: Array
    controls: dict[str, Array]

    def on(self, day: float) -> Foot:
        """The foot on one of the calendar's days."""
        where = np.flatnonzero(np.isclose(self.days, day))
        if where.size == 0:
            raise BadInput(f"day {day:g} is not in this calendar of {self.days.size} days")
        return self.foot.change(**{name: float(values[where[0]]) for name, values in self.controls.items()})

    def load(self, case: str = "standing", stance_percent: float | None = None) -> Table:
        """Every measure on every day under one load case."""
        return sweep(self.foot, self.controls, case, stance_percent)


def bearing_length(foot: Foot) -> float:
    """Ground length from heel to projected toe of the foot as it is, mm."""
    points = rest_foot({name: np.array([value]) for name, value in foot.values.items()}).points
    return float(np.linalg.norm(points["toe"] - points["heel_ground"]))


def weeks(
    foot: Foot,
    days: ArrayLike,
    kept: str = "shod",
    trims: Sequence[Trim] = (),
    growth_mm_per_month: float = WALL_GROWTH.value,
) -> Calendar:
    """Toe, heel and sole of `foot` on each of `days` (D,), counted from day 0 when it is as given.

    Growth is along the horn tubules and the same at toe and heel (R7); wear works against it; a trim acts on its day,
    before it is read. Heel height is measured upright, so along the heel's line it counts with the sine of its angle.
    `BadInput` names the first day on which a control leaves its range, and an unknown keeping.
    """
    when = np.atleast_1d(np.asarray(days, dtype=float))
    if when.ndim != 1 or when.size == 0 or not np.isfinite(when).all() or (when < 0).any():
        raise BadInput("days must be numbers of 0 or more")
    low, high = 0.0, 2.0 * WALL_GROWTH.high
    if not low <= growth_mm_per_month <= high:
        raise BadInput(f"growth of {growth_mm_per_month:g} mm a month: allowed {low:g} to {high:g}")
    how = keeping(kept)
    months = when / DAYS_PER_MONTH
    upright = np.sin(np.radians(HEEL_LINE_ANGLE_DEG))
    change = {
        "toe_change_mm": months * (growth_mm_per_month - how.toe_wear.value),
        "heel_change_mm": months * (growth_mm_per_month - how.heel_wear.value) * upright,
        "sole_change_mm": months * SOLE_GAIN.value,
    }
    length = bearing_length(foot)
    for trim in trims:
        after = when >= trim.day
        change["toe_change_mm"] = change["toe_change_mm"] - after * trim.wall_mm
        change["heel_change_mm"] = change["heel_change_mm"] - after * trim.heel_cut(
            length, foot.values["hoof_angle_deg"]
        )
        change["sole_change_mm"] = change["sole_change_mm"] - after * trim.sole_mm
    controls = {name: foot.values[name] + value for name, value in change.items()}
    for name, values in controls.items():
        _refuse_out_of_range(name, values, when)
    return Calendar(foot, how, growth_mm_per_month, tuple(trims), when, controls)


def _refuse_out_of_range(name: str, values: Array, days: Array) -> None:
    low, high = BY_NAME[name].low, BY_NAME[name].high
    wrong = np.flatnonzero((values < low) | (values > high))
    if wrong.size:
        first = wrong[0]
        raise BadInput(
            f"on day {days[first]:g} {name} would be {values[first]:.1f} mm: allowed {low:g} to {high:g} mm; "
            "a trim before that day keeps it in range"
        )
