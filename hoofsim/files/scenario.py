"""The scenario: one foot, what is changed on it, one load, a question, and what is expected to come out."""

from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, model_validator

from hoofsim.errors import BadInput, nearest
from hoofsim.files.kinds import Kind, kind_word
from hoofsim.files.names import check_control, check_measure
from hoofsim.files.reader import Document, Path_, read_file
from hoofsim.files.typed import Misplaced, Strict, validate
from hoofsim.foot.parameters import BY_NAME, checked
from hoofsim.foot.presets import PRESETS
from hoofsim.measures.table import MEASURES
from hoofsim.mechanics.equilibrium import STATUSES
from hoofsim.mechanics.loads import CASES
from hoofsim.sources import SOURCES

MOST_STEPS = 1001

Direction = Literal["rises", "falls", "unchanged"]
Text = Annotated[str, Field(min_length=1, max_length=2000)]
Controls = Annotated[dict[str, float], Field(json_schema_extra={"propertyNames": {"enum": list(BY_NAME)}})]


class WrittenFoot(Strict):
    """Which foot: a preset, and under `set` the values in which this foot differs from it."""

    preset: str = Field(
        "sound",
        description="name of a ready foot; hoofsim list presets",
        json_schema_extra={"enum": list(PRESETS)},
    )
    set: Controls = Field(default_factory=dict, description="control: value, as in hoofsim list controls")

    @model_validator(mode="after")
    def _names_exist(self) -> "WrittenFoot":
        if self.preset not in PRESETS:
            raise Misplaced(("preset",), f"unknown foot '{self.preset}'; {nearest(self.preset, PRESETS)}")
        check_controls(self.set, ("set",))
        return self


class WrittenLoad(Strict):
    """Which load, and for walk and trot the moment of the stance in percent."""

    case: str = Field(
        "standing", description="load case; hoofsim list loads", json_schema_extra={"enum": list(CASES)}
    )
    stance_percent: float | None = Field(None, ge=0, le=100, description="share of the stance elapsed")

    @model_validator(mode="after")
    def _stance_belongs_to_a_gait(self) -> "WrittenLoad":
        if self.case not in CASES:
            raise Misplaced(("case",), f"unknown load '{self.case}'; {nearest(self.case, CASES)}")
        if self.stance_percent is not None and not CASES[self.case].moves:
            gaits = " and ".join(name for name, case in CASES.items() if case.moves)
            raise Misplaced(("stance_percent",), f"only {gaits} have a stance; the case is '{self.case}'")
        return self


class Sweep(Strict):
    """One control run through many values: `from`, `to` and `steps` (equal steps, both ends), or `values`."""

    control: str = Field(description="hoofsim list controls", json_schema_extra={"enum": list(BY_NAME)})
    start: float | None = Field(None, alias="from")
    to: float | None = None
    steps: int | None = Field(None, ge=2, le=MOST_STEPS)
    values: list[float] | None = Field(None, min_length=1, max_length=MOST_STEPS)

    @model_validator(mode="after")
    def _is_complete(self) -> "Sweep":
        check_control(self.control, ("control",))
        ends = (self.start, self.to, self.steps)
        if (self.values is None) == all(part is None for part in ends) or (
            self.values is None and any(part is None for part in ends)
        ):
            raise Misplaced((), "give either 'from', 'to' and 'steps', or 'values'")
        for path, value in ((("from",), self.start), (("to",), self.to)):
            if value is not None:
                _check_value(self.control, value, path)
        for index, value in enumerate(self.values or ()):
            _check_value(self.control, value, ("values", index))
        return self

    def points(self) -> list[float]:
        """The control's values in order."""
        if self.values is not None:
            return list(self.values)
        if self.start is None or self.to is None or self.steps is None:
            return []
        gap = (self.to - self.start) / (self.steps - 1)
        return [self.start + index * gap for index in range(self.steps)]


class Expectation(Strict):
    """What one measure (or the solver's status) should come out as, at the last or a named value of the sweep.

    A measure is held to `value` ± `tolerance`, to `low` and/or `high`, or to a `change` from the unchanged foot:
    `rises`/`falls` (by `at_least`, if given), or `unchanged` (within `tolerance`).
    """

    measure: str | None = Field(
        None, description="hoofsim list measures", json_schema_extra={"enum": [*MEASURES, None]}
    )
    value: float | None = None
    tolerance: float | None = Field(None, ge=0)
    low: float | None = None
    high: float | None = None
    change: Direction | None = None
    at_least: float | None = Field(None, ge=0)
    at: float | None = Field(
        None, description="value of the swept control where this holds; the last when not given"
    )
    status: str | None = Field(
        None,
        description="how the search for a state of rest ended",
        json_schema_extra={"enum": [*STATUSES, None]},
    )
    source: str | None = Field(None, description="source id of a published value; hoofsim list sources")
    because: Text | None = None

    @model_validator(mode="after")
    def _says_one_thing(self) -> "Expectation":
        if (self.measure is None) == (self.status is None):
            raise Misplaced((), "give either 'measure' or 'status'")
        ways = (
            self.value is not None,
            self.low is not None or self.high is not None,
            self.change is not None,
        )
        if self.status is not None:
            if self.status not in STATUSES:
                raise Misplaced(
                    ("status",), f"unknown status '{self.status}'; {nearest(self.status, STATUSES)}"
                )
            if any(ways) or self.tolerance is not None or self.at_least is not None:
                raise Misplaced((), "'status' stands alone, without a number")
        else:
            check_measure(str(self.measure), ("measure",))
            if sum(ways) != 1:
                raise Misplaced((), "give one of 'value' with 'tolerance', 'low'/'high', or 'change'")
        self._check_numbers()
        if self.source is not None and self.source not in SOURCES:
            raise Misplaced(("source",), f"unknown source '{self.source}'; {nearest(self.source, SOURCES)}")
        return self

    def _check_numbers(self) -> None:
        needs_tolerance = self.value is not None or self.change == "unchanged"
        if needs_tolerance and self.tolerance is None:
            raise Misplaced((), "key 'tolerance' is missing: how far from the value still counts")
        if self.tolerance is not None and not needs_tolerance:
            raise Misplaced(("tolerance",), "'tolerance' belongs to 'value' or to 'change: unchanged'")
        if self.at_least is not None and self.change not in ("rises", "falls"):
            raise Misplaced(("at_least",), "'at_least' belongs to 'change: rises' or 'change: falls'")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise Misplaced(("low",), f"low {self.low:g} is above high {self.high:g}")


class Scenario(Strict):
    """One question put to one foot, and what is expected to come out."""

    hoofsim: Literal[1]
    kind: Literal["scenario"]
    title: Annotated[str, Field(min_length=1, max_length=120)]
    question: Text
    foot: WrittenFoot = Field(default_factory=lambda: WrittenFoot.model_validate({}))
    changes: Controls = Field(
        default_factory=dict, description="control: value, set after the baseline is taken"
    )
    load: WrittenLoad = Field(default_factory=lambda: WrittenLoad.model_validate({}))
    sweep: Sweep | None = None
    expect: list[Expectation] = Field(default_factory=list, max_length=100)

    @model_validator(mode="after")
    def _fits_together(self) -> "Scenario":
        check_controls(self.changes, ("changes",))
        if "stance_percent" in {**self.foot.set, **self.changes}:
            raise Misplaced((), "set the moment of the stance under 'load', as 'stance_percent'")
        if self.sweep is None:
            for index, expectation in enumerate(self.expect):
                if expectation.at is not None:
                    raise Misplaced(("expect", index, "at"), "'at' needs a 'sweep'")
            return self
        if self.sweep.control in self.changes:
            raise Misplaced(
                ("changes", self.sweep.control), "this control is also swept; keep it in one place"
            )
        points = self.sweep.points()
        for index, expectation in enumerate(self.expect):
            if expectation.at is not None and min(abs(expectation.at - point) for point in points) > 1e-6:
                near = min(points, key=lambda point, at=expectation.at: abs(at - point))  # type: ignore[misc]
                raise Misplaced(
                    ("expect", index, "at"),
                    f"{expectation.at:g} is not one of the sweep's values; nearest {near:g}",
                )
        return self


def _check_value(name: str, value: float, path: Path_) -> None:
    try:
        checked(name, value)
    except BadInput as error:
        raise Misplaced(path, str(error)) from None


def check_controls(controls: Controls, path: Path_) -> None:
    """Misplaced, under `path`, when a control is unknown or its value out of range."""
    for name, value in controls.items():
        check_control(name, (*path, name))
        _check_value(name, value, (*path, name))


def load_scenario(document: Document) -> Scenario:
    """The document as a scenario; BadInput with line and column for everything that is wrong."""
    kind_word(document, (SCENARIO.name,))
    return validate(Scenario, document)


def read_scenario(path: Path | str) -> Scenario:
    """The scenario in a file."""
    return load_scenario(read_file(path))


SCENARIO = Kind(
    "scenario",
    "One question put to one foot: what is changed, under which load, and what is expected to come out.",
    Scenario,
    load_scenario,
)
