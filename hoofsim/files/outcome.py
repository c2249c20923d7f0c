"""Run a scenario: the unchanged foot, every step of the sweep, and whether what it expects came out."""

from collections.abc import Callable
from dataclasses import dataclass

from hoofsim.files.scenario import Expectation, Scenario
from hoofsim.measures.table import MEASURES
from hoofsim.mechanics.equilibrium import CONVERGED
from hoofsim.model import Foot, LoadedFoot
from hoofsim.units import show

# A change smaller than this share of the value is the solver's noise, not a direction.
NOISE = 1e-6


@dataclass(frozen=True)
class Step:
    """One loaded foot of a scenario: the swept control's value (None without a sweep) and what came out.

    Without a confirmed state of rest every measure is None: such a foot is never tabulated as a result.
    """

    at: float | None
    loaded: LoadedFoot
    measures: dict[str, float | None]

    @property
    def at_rest(self) -> bool:
        """True when the solver confirmed a state of rest."""
        return self.loaded.status == CONVERGED


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
    baseline: Step
    steps: tuple[Step, ...]
    findings: tuple[Finding, ...]

    @property
    def last_at_rest(self) -> Step:
        """The last foot with a confirmed state of rest: the one worth showing; the baseline when no other has it."""
        return next((step for step in reversed(self.steps) if step.at_rest), self.baseline)

    @property
    def holds(self) -> bool:
        """True when every expectation held."""
        return all(finding.holds for finding in self.findings)


def feet(scenario: Scenario) -> tuple[Foot, list[tuple[float | None, Foot]]]:
    """The unchanged foot, and the changed one at every value of the sweep; BadInput for values that contradict."""
    baseline = Foot(scenario.foot.preset, **scenario.foot.set)
    changed = baseline.change(**scenario.changes)
    if scenario.sweep is None:
        return baseline, [(None, changed)]
    return baseline, [(at, changed.change(**{scenario.sweep.control: at})) for at in scenario.sweep.points()]


def run_scenario(scenario: Scenario, progress: Callable[[int, int], None] | None = None) -> Outcome:
    """Load every foot of the scenario and judge its expectations; `progress(done, of)` is called after each foot."""
    unchanged, changed = feet(scenario)
    total = len(changed) + 1
    baseline = _step(scenario, None, unchanged)
    steps = []
    for number, (at, foot) in enumerate(changed, start=1):
        if progress is not None:
            progress(number, total)
        steps.append(_step(scenario, at, foot))
    if progress is not None:
        progress(total, total)
    findings = tuple(_judge(expectation, baseline, steps) for expectation in scenario.expect)
    return Outcome(scenario, baseline, tuple(steps), findings)


def _step(scenario: Scenario, at: float | None, foot: Foot) -> Step:
    stance = {} if scenario.load.stance_percent is None else {"stance_percent": scenario.load.stance_percent}
    loaded = foot.load(scenario.load.case, **stance)
    if loaded.status != CONVERGED:
        return Step(at, loaded, dict.fromkeys(MEASURES))
    return Step(at, loaded, loaded.measures())


def _judge(expectation: Expectation, baseline: Step, steps: list[Step]) -> Finding:
    """One expectation against the step it speaks of (the last one unless it says `at`)."""
    step = steps[-1]
    if expectation.at is not None:
        step = min(steps, key=lambda one: abs((one.at or 0.0) - float(expectation.at or 0.0)))
    where = "" if step.at is None else f" at {step.at:g}"
    if expectation.measure is None:
        holds = step.loaded.status == expectation.status
        return Finding(
            expectation, holds, f"status{where}: expected {expectation.status}, came out {step.loaded.status}"
        )
    measure = MEASURES[expectation.measure]
    value, before = step.measures[measure.name], baseline.measures[measure.name]
    head = f"{measure.label}{where}"
    if not step.at_rest:
        return Finding(expectation, False, f"{head}: there is no state of rest to measure ({step.loaded.status})")
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
        f" by at least {show(expectation.at_least, measure.unit)}" if expectation.at_least is not None else ""
    )
    within = (
        f" within {show(expectation.tolerance, measure.unit)}" if expectation.tolerance is not None else ""
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
        return f"{show(expectation.value, unit)} ± {show(expectation.tolerance, unit)}"
    if expectation.low is None:
        return f"at most {show(expectation.high, unit)}"
    if expectation.high is None:
        return f"at least {show(expectation.low, unit)}"
    return f"{show(expectation.low, unit)} to {show(expectation.high, unit)}"
