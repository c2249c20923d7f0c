"""Run one experiment file: every run in one batch, tables and figures written, Ctrl-C keeping what is done."""

import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import Any

import numpy as np

from hoofsim.claims.effects import effects
from hoofsim.claims.experiment import Results, run_experiment
from hoofsim.cli.output import print_table, print_text, write_into
from hoofsim.cli.progress_bar import shown_when_slow
from hoofsim.errors import BadInput
from hoofsim.files.experiment import EXPERIMENT, Experiment
from hoofsim.measures import MEASURES, NOT_IN_A_SAGITTAL_VIEW
from hoofsim.reports.effect_figures import factor_label
from hoofsim.reports.experiment_files import files_of, interaction_rows, table_lines
from hoofsim.reports.provenance import about, plain
from hoofsim.units import show

MOST_INTERACTIONS = 5


def run_one(
    file: Path, experiment: Experiment, out: Path | None, as_json: bool
) -> tuple[dict[str, Any], bool]:
    """Run, write and print; gives what to print as JSON, and whether it was stopped by the user."""
    results = _results(file, experiment)
    written = [] if out is None else write_results(results, file, out)
    if not as_json:
        _print(file, results, written)
    return _report(file, results, written), results.stopped


def write_results(results: Results, file: Path, out: Path) -> list[Path]:
    """Every table and figure, and what they were made from, each whole or not at all; gives the paths written."""
    experiment = results.experiment
    origin = about(file, EXPERIMENT.name, plain(experiment), experiment.foot.preset)
    return write_into(out, {**files_of(results, file.stem), f"{file.stem}_about.json": origin})


def _results(file: Path, experiment: Experiment) -> Results:
    try:
        with shown_when_slow(experiment.title) as report, stopping() as asked:

            def progress(done: int, of: int) -> bool:
                report(done, of)
                return not asked()

            return run_experiment(experiment, progress)
    except BadInput as error:
        raise BadInput(f"{file}: {error}") from None


@contextmanager
def stopping() -> Iterator[Callable[[], bool]]:
    """Gives `asked()`: whether the user has pressed Ctrl-C since, which inside only asks and does not interrupt."""
    pressed = False

    def note(number: int, frame: FrameType | None) -> None:
        nonlocal pressed
        if pressed:  # asked twice: the user means now
            raise KeyboardInterrupt
        pressed = True

    before = signal.signal(signal.SIGINT, note)
    try:
        yield lambda: pressed
    finally:
        signal.signal(signal.SIGINT, before)


def _print(file: Path, results: Results, written: list[Path]) -> None:
    experiment = results.experiment
    print_text(f"{experiment.title} ({file})")
    print_text(experiment.question)
    if experiment.look_at:
        print_text(f"Look: {experiment.look_at}")
    print_text()
    rest = int(results.at_rest.sum())
    print_text(f"{results.done} of {results.count} runs done, {rest} came to rest.")
    if results.stopped:
        print_text("Stopped: what follows is from the runs that were done.")
    print_table(
        "mean change from the untouched foot along each factor",
        [("measure", "left"), ("factor", "left"), ("lowest", "right"), ("highest", "right"), ("", "left")],
        ((row, None) for row in table_lines(results)),
    )
    strongest = sorted(interaction_rows(results), key=lambda row: -row[3] * (MEASURES[row[0]].readable))[
        :MOST_INTERACTIONS
    ]
    if strongest:
        print_text()
        labels = {factor.title: factor_label(factor) for factor in experiment.factors}
        print_text("largest departures from the sum of two effects (interactions):")
        for name, first, second, size, readable in strongest:
            mark = "" if readable else "  (too small to read on a radiograph)"
            print_text(
                f"  {MEASURES[name].label}: {labels[first]} with {labels[second]}, "
                f"{show(size, MEASURES[name].unit)}{mark}"
            )
    print_text()
    print_text("· too small to read on a radiograph (2 deg, 2 mm).")
    print_text(NOT_IN_A_SAGITTAL_VIEW)
    for path in written:
        print_text(f"wrote {path}")
    print_text()


def _report(file: Path, results: Results, written: list[Path]) -> dict[str, Any]:
    """The experiment's outcome for JSON: counts, effects and interactions."""
    words, counts = np.unique(results.status, return_counts=True)
    return {
        "file": str(file),
        "kind": "experiment",
        "title": results.experiment.title,
        "question": results.experiment.question,
        "runs": results.count,
        "status": {str(word): int(count) for word, count in zip(words, counts, strict=True)},
        "effects": [
            {
                "measure": name,
                "unit": MEASURES[name].unit,
                "factor": effect.factor,
                "levels": list(effect.levels),
                "mean_change": [None if np.isnan(value) else float(value) for value in effect.means],
            }
            for name in results.experiment.measures
            for effect in effects(results, name)
        ],
        "interactions": [
            {"measure": name, "factors": [first, second], "size": size, "readable": readable}
            for name, first, second, size, readable in interaction_rows(results)
        ],
        "written": [str(path) for path in written],
    }
