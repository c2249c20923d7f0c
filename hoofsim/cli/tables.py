"""A scenario's outcome, one row a foot, the unchanged foot first: every measure as CSV, the asked ones as a table."""

from collections.abc import Sequence

from hoofsim.cli.output import print_table
from hoofsim.files.outcome import Outcome, StepResult
from hoofsim.foot.parameters import BY_NAME
from hoofsim.measures.table import MEASURES
from hoofsim.plain_text import csv_lines
from hoofsim.reports.foot_files import heading
from hoofsim.units import show_number, shown_unit

MOST_COLUMNS = 6
MOST_ROWS = 11
USUAL_MEASURES = ("palmar_angle", "phalangeal_rotation", "capsular_rotation", "tip_to_frog", "tendon_tension")


def csv_text(outcome: Outcome) -> str:
    """Columns: row ("baseline" or a number), the swept control, status, and every measure with its unit."""
    sweep = outcome.scenario.sweep
    swept = [] if sweep is None else [sweep.control]
    rows: list[Sequence[object]] = [
        ["foot", *swept, "status", *(heading_with_unit(name, name) for name in MEASURES)],
        ["baseline", *([""] if swept else []), *_cells(outcome.baseline)],
    ]
    for number, step in enumerate(outcome.steps, start=1):
        rows.append([number, *([f"{step.at:g}"] if swept else []), *_cells(step)])
    return csv_lines(rows)


def print_steps(outcome: Outcome) -> None:
    """The measures that the scenario asks about, for the unchanged foot and evenly chosen steps of the sweep."""
    scenario = outcome.scenario
    asked = dict.fromkeys(one.measure for one in scenario.expect if one.measure is not None)
    names = list(asked)[:MOST_COLUMNS] or list(USUAL_MEASURES)
    load = scenario.load
    print_table(
        heading(
            scenario.foot.preset, {**scenario.foot.set, **scenario.changes}, load.case, load.stance_percent
        ),
        [
            (_swept_heading(outcome), "right"),
            *((heading_with_unit(name, MEASURES[name].label), "right") for name in names),
        ],
        [(_row(step, names), None) for step in (outcome.baseline, *_chosen(outcome.steps))],
    )


def _swept_heading(outcome: Outcome) -> str:
    sweep = outcome.scenario.sweep
    if sweep is None:
        return "foot"
    control = BY_NAME[sweep.control]
    unit = shown_unit(control.unit)
    return f"{control.label.lower()} ({unit})" if unit else control.label.lower()


def _chosen(steps: Sequence[StepResult]) -> list[StepResult]:
    """All steps, or of many, evenly spaced ones with the first and the last."""
    if len(steps) <= MOST_ROWS:
        return list(steps)
    return [steps[round(row * (len(steps) - 1) / (MOST_ROWS - 1))] for row in range(MOST_ROWS)]


def _row(step: StepResult, names: Sequence[str]) -> list[str]:
    first = f"{step.at:g}" if step.at is not None else ("unchanged" if step.is_baseline else "changed")
    if not step.at_rest:
        return [first, step.status, *("" for _ in names[1:])]
    numbers = [(step.measures[name], MEASURES[name].unit) for name in names]
    return [first, *("" if value is None else show_number(value, unit) for value, unit in numbers)]


def heading_with_unit(name: str, word: str) -> str:
    """A column's heading: `word` and, where it has one, the unit of the measure called `name`."""
    unit = shown_unit(MEASURES[name].unit)
    return f"{word} ({unit})" if unit else word


def _cells(step: StepResult) -> list[str]:
    """Status and measures; an undefined measure is an empty cell."""
    values = (step.measures[name] for name in MEASURES)
    return [step.status, *("" if value is None else f"{value:.6g}" for value in values)]
