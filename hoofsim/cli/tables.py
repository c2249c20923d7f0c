"""A scenario's outcome as CSV: one row a foot, the first row the unchanged foot."""

import csv
import io

from hoofsim.files.outcome import Outcome, Step
from hoofsim.measures.table import MEASURES
from hoofsim.units import shown_unit


def csv_text(outcome: Outcome) -> str:
    """Columns: row ("baseline" or a number), the swept control, status, and every measure with its unit."""
    sweep = outcome.scenario.sweep
    swept = [] if sweep is None else [sweep.control]
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(["foot", *swept, "status", *(_heading(name) for name in MEASURES)])
    writer.writerow(["baseline", *([""] if swept else []), *_cells(outcome.baseline)])
    for number, step in enumerate(outcome.steps, start=1):
        writer.writerow([number, *([f"{step.at:g}"] if swept else []), *_cells(step)])
    return stream.getvalue()


def _heading(name: str) -> str:
    unit = shown_unit(MEASURES[name].unit)
    return f"{name} ({unit})" if unit else name


def _cells(step: Step) -> list[str]:
    """Status and measures; an undefined measure is an empty cell."""
    values = (step.measures[name] for name in MEASURES)
    return [step.status, *("" if value is None else f"{value:.6g}" for value in values)]
