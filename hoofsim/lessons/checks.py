"""The named checks of a lesson, each with its parameters: what a foot must show, judged against the foot before.

A check is a name and numbers, never an expression: nothing in a lesson is evaluated as code.
"""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field, model_validator

from hoofsim.errors import nearest
from hoofsim.files.names import check_control, check_measure
from hoofsim.files.typed import Misplaced, Strict
from hoofsim.foot.parameters import BY_NAME
from hoofsim.lessons.state import FootState, change_between, setting_in_words
from hoofsim.measures import MEASURES
from hoofsim.mechanics.equilibrium import STATUSES
from hoofsim.units import show, shown_unit

SAME_SETTING = 1e-9


@dataclass(frozen=True)
class CheckResult:
    """Whether a check holds, and one sentence on what was wanted and what the foot shows."""

    holds: bool
    sentence: str


class _OfMeasure(Strict):
    measure: str = Field(description="hoofsim list measures", json_schema_extra={"enum": list(MEASURES)})

    @model_validator(mode="after")
    def _measure_exists(self) -> "_OfMeasure":
        check_measure(self.measure, ("measure",))
        return self

    @property
    def label(self) -> str:
        """The measure's words."""
        return MEASURES[self.measure].label

    @property
    def unit(self) -> str:
        """The measure's unit."""
        return MEASURES[self.measure].unit


class MeasureBetween(_OfMeasure):
    """The measure lies from `low` to `high` (either may be left out)."""

    check: Literal["measure_between"]
    low: float | None = None
    high: float | None = None

    @model_validator(mode="after")
    def _has_an_end(self) -> "MeasureBetween":
        if self.low is None and self.high is None:
            raise Misplaced((), "give 'low', 'high' or both")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise Misplaced(("low",), f"low {self.low:g} is above high {self.high:g}")
        return self

    def judge(self, before: FootState, after: FootState, length_unit: str = "mm") -> CheckResult:
        """See the class."""
        value = after.measure(self.measure)
        low = float("-inf") if self.low is None else self.low
        high = float("inf") if self.high is None else self.high
        if self.low is None:
            wanted = f"at most {_given(high, self.unit, length_unit)}"
        elif self.high is None:
            wanted = f"at least {_given(low, self.unit, length_unit)}"
        else:
            wanted = f"{_given(low, self.unit, length_unit)} to {_given(high, self.unit, length_unit)}"
        holds = value is not None and low <= value <= high
        return CheckResult(holds, f"{self.label}: wanted {wanted}, now {show(value, self.unit, length_unit)}")


class MeasureMoves(_OfMeasure):
    """The measure rises or falls by at least `by` from the foot before."""

    check: Literal["measure_rises", "measure_falls"]
    by: float = Field(gt=0)

    def judge(self, before: FootState, after: FootState, length_unit: str = "mm") -> CheckResult:
        """See the class."""
        change = change_between(before, after, self.measure)
        rises = self.check == "measure_rises"
        holds = change is not None and (change if rises else -change) >= self.by
        way = "a rise" if rises else "a fall"
        came = moved(change, self.unit, length_unit)
        wanted = f"wanted {way} of at least {_given(self.by, self.unit, length_unit)}"
        return CheckResult(holds, f"{self.label}: {wanted}, it {came}")


class MeasureStays(_OfMeasure):
    """The measure stays within `within` of the foot before."""

    check: Literal["measure_stays"]
    within: float = Field(gt=0)

    def judge(self, before: FootState, after: FootState, length_unit: str = "mm") -> CheckResult:
        """See the class."""
        change = change_between(before, after, self.measure)
        holds = change is not None and abs(change) <= self.within
        wanted = f"wanted no change beyond {_given(self.within, self.unit, length_unit)}"
        return CheckResult(holds, f"{self.label}: {wanted}, it {moved(change, self.unit, length_unit)}")


class ControlBetween(Strict):
    """A control stands from `low` to `high`."""

    check: Literal["control_between"]
    control: str = Field(json_schema_extra={"enum": list(BY_NAME)})
    low: float
    high: float

    @model_validator(mode="after")
    def _control_exists(self) -> "ControlBetween":
        check_control(self.control, ("control",))
        if self.low > self.high:
            raise Misplaced(("low",), f"low {self.low:g} is above high {self.high:g}")
        return self

    def judge(self, before: FootState, after: FootState, length_unit: str = "mm") -> CheckResult:
        """See the class."""
        control, value = BY_NAME[self.control], after.value(self.control)
        wanted = f"{self.low:g} to {setting_in_words(self.control, self.high)}"
        now = setting_in_words(self.control, value)
        return CheckResult(self.low <= value <= self.high, f"{control.label}: wanted {wanted}, now {now}")


class OneChange(Strict):
    """Exactly one control differs from the foot before: a fair test changes one thing."""

    check: Literal["one_change"]

    def judge(self, before: FootState, after: FootState, length_unit: str = "mm") -> CheckResult:
        """See the class."""
        old, new = before.foot.values, after.foot.values
        changed = [BY_NAME[name].label for name in new if abs(new[name] - old[name]) > SAME_SETTING]
        if len(changed) == 1:
            return CheckResult(True, f"one thing was changed: {changed[0]}")
        if not changed:
            return CheckResult(False, "nothing is changed yet")
        return CheckResult(False, f"change one thing only; now these differ: {', '.join(changed)}")


class StatusIs(Strict):
    """The search for a state of rest ended so."""

    check: Literal["status_is"]
    status: str = Field(json_schema_extra={"enum": list(STATUSES)})

    @model_validator(mode="after")
    def _status_exists(self) -> "StatusIs":
        if self.status not in STATUSES:
            raise Misplaced(("status",), f"unknown status '{self.status}'; {nearest(self.status, STATUSES)}")
        return self

    def judge(self, before: FootState, after: FootState, length_unit: str = "mm") -> CheckResult:
        """See the class."""
        found = after.loaded.status
        return CheckResult(found == self.status, f"state of rest: wanted '{self.status}', now '{found}'")


Check = Annotated[
    MeasureBetween | MeasureMoves | MeasureStays | ControlBetween | OneChange | StatusIs,
    Field(discriminator="check"),
]
CHECK_NAMES = (
    "measure_between",
    "measure_rises",
    "measure_falls",
    "measure_stays",
    "control_between",
    "one_change",
    "status_is",
)


def moved(change: float | None, unit: str, length_unit: str = "mm") -> str:
    """A change in words: "rose by 3.0 deg", "fell by 250 N", "did not move", or that there is none to read."""
    if change is None:
        return "cannot be measured here"
    size = show(abs(change), unit, length_unit)
    if size == show(0.0, unit, length_unit):
        return "did not move"
    return f"{'rose' if change > 0 else 'fell'} by {size}"


def _given(value: float, unit: str, length_unit: str) -> str:
    """A number as its author wrote it, with its unit (or in inches, as the learner reads lengths)."""
    if unit == "mm" and length_unit != "mm":
        return show(value, unit, length_unit)
    return f"{value:g} {shown_unit(unit)}".strip()
