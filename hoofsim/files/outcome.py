"""Run a scenario: the unchanged foot, every step of the sweep, and whether what it expects came out."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from hoofsim.files.scenario import Expectation, Scenario, Sweep
from hoofsim.measures.table import MEASURES
from hoofsim.model import Foot, LoadedFoot, sweep
from hoofsim.units import show, shown_unit

# A change smaller than this share of the value is the solver's noise, not a direction.
NOISE = 1e-6


@dataclass(frozen=True)
class StepResult:
    """One foot of a scenario: the swept control's value (None without a sweep), and what came out.

    Without a confirmed state of rest every measure is None: such a foot is never tabulated as a result.
    """

    at: float | None
    foot: Foot
    status: str
    measures: dict[str, float | None]
    is_baseline: bool = False

    @property
    def at_rest(self) -> bool:
        """True when the solver confirmed a state of rest."""
        return any(value is not None for value in self.measures.values())


@dataclass(frozen=True)
class Finding:
    """One expectation, whether it held, and one sentence on what was expected and what came out."""

    expectation: Expectation
    holds: bool
    sentence: str


@dataclass(frozen=True)
class Outcome:
    """Everything that came out of one scenario."""

    scenario: Scenario
    baseline: StepResult
    steps: tuple[StepResult, ...]
    findings: tuple[Finding, ...]

    def load(self, step: StepResult) -> LoadedFoot:
        """The loaded foot of one step, for a picture of it."""
        return step.foot.load(self.scenario.load.case, self.scenario.load.stance_percent)

    @property
    def last_at_rest(self) -> StepResult:
        """The last foot with a confirmed state of rest: the one worth showing; the baseline when no other has it."""
        return next((step for step in reversed(self.steps) if step.at_rest), self.baseline)

    @property
    def holds(self) -> bool:
        """True when every expectation held."""
        return all(finding.holds for finding in self.findings)


def run_scenario(scenario: Scenario, progress: Callable[[int, int], None] | None = None) -> Outcome:
    """Load every foot of the scenario and judge its expectations; `progress(done, of)` is called as feet are done.

    BadInput for values that are each allowed and together make no foot.
    """
    unchanged = Foot(scenario.foot.preset, **scenario.foot.set).as_own()
    changed = unchanged.change(**scenario.changes)
    (baseline,) = (replace(step, is_baseline=True) for step in _steps(scenario, unchanged, None, None))
    steps = _steps(scenario, changed, scenario.sweep, progress)
    findings = tuple(_judge(expectation, baseline, steps) for expectation in scenario.expect)
    return Outcome(scenario, baseline, tuple(steps), findings)


def _steps(
    scenario: Scenario, foot: Foot, swept: Sweep | None, progress: Callable[[int, int], None] | None
) -> list[StepResult]:
    """The foot under the scenario's load, at every value of the sweep or once without one."""
    points: list[float | None] = [None] if swept is None else [*swept.points()]
    settings = {} if swept is None else {swept.control: swept.points()}
    table = sweep(foot, settings, scenario.load.case, scenario.load.stance_percent, progress)
    return [
        StepResult(
            at,
            foot if swept is None or at is None else foot.change(**{swept.control: at}),
            str(table.status[row]),
            {name: _plain(float(table[name][row])) for name in MEASURES},
        )
        for row, at in enumerate(points)
    ]


def _plain(value: float) -> float | None:
    """None in place of the sweep's mark for "not defined"."""
    return None if math.isnan(value) else value


def _judge(expectation: Expectation, baseline: StepResult, steps: list[StepResult]) -> Finding:
    """One expectation against the step it speaks of (the last one unless it says `at`)."""
    step = steps[-1]
    if expectation.at is not None:
        step = min(steps, key=lambda one: abs((one.at or 0.0) - float(expectation.at or 0.0)))
    where = "" if step.at is None else f" at {step.at:g}"
    if expectation.measure is None:
        holds = step.status == expectation.status
        return Finding(
            expectation, holds, f"status{where}: expected {expectation.status}, came out {step.status}"
        )
    measure = MEASURES[expectation.measure]
    value, before = step.measures[measure.name], baseline.measures[measure.name]
    head = f"{measure.label}{where}"
    if not step.at_rest:
        return Finding(expectation, False, f"{head}: there is no state of rest to measure ({step.status})")
    if value is None:
        return Finding(expectation, False, f"{head}: is not defined for this foot and load")
    if expectation.change is None:
        low, high = _range(expectation)
        holds = low <= value <= high
        return Finding(
            expectation,
            holds,
            f"{head}: expected {_range_words(expectation, measure.unit)}, came out "
            f"{show(value, measure.unit)}",
        )
    if before is None:
        return Finding(expectation, False, f"{head}: is not defined for the unchanged foot")
    change = value - before
    holds = _moves_as_expected(expectation, change, max(abs(value), abs(before)))
    by = (
        f" by at least {_given(expectation.at_least, measure.unit)}"
        if expectation.at_least is not None
        else ""
    )
    within = (
        f" within {_given(expectation.tolerance, measure.unit)}" if expectation.tolerance is not None else ""
    )
    return Finding(
        expectation,
        holds,
        f"{head}: expected '{expectation.change}'{by}{within}, changed by "
        f"{show(change, measure.unit, signed=True)}",
    )


def _moves_as_expected(expectation: Expectation, change: float, size: float) -> bool:
    """Whether a change has the expected direction and size; `size` is the scale of the measure itself."""
    if expectation.change == "unchanged":
        return abs(change) <= (expectation.tolerance or 0.0)
    along = change if expectation.change == "rises" else -change
    return along > NOISE * max(size, 1e-3) and along >= (expectation.at_least or 0.0)


def _range(expectation: Expectation) -> tuple[float, float]:
    """Lowest and highest value that fulfils the expectation."""
    if expectation.value is not None:
        tolerance = expectation.tolerance or 0.0
        return expectation.value - tolerance, expectation.value + tolerance
    low = float("-inf") if expectation.low is None else expectation.low
    return low, float("inf") if expectation.high is None else expectation.high


def _range_words(expectation: Expectation, unit: str) -> str:
    """The expected range in words."""
    if expectation.value is not None:
        return f"{_given(expectation.value, unit)} ± {_given(expectation.tolerance, unit)}"
    if expectation.low is None:
        return f"at most {_given(expectation.high, unit)}"
    if expectation.high is None:
        return f"at least {_given(expectation.low, unit)}"
    return f"{_given(expectation.low, unit)} to {_given(expectation.high, unit)}"


def _given(value: float | None, unit: str) -> str:
    """A number as its author wrote it, with its unit: rounding it for reading could turn a small tolerance into 0."""
    return " ".join(filter(None, ("none" if value is None else f"{value:g}", shown_unit(unit))))
