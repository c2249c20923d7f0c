"""Run scenarios, experiments and kept sittings: write their tables and pictures, and check what a scenario expects."""

import argparse
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hoofsim.cli.output import print_json, print_text, write_into
from hoofsim.cli.progress_bar import shown_when_slow
from hoofsim.cli.rows import measure_json
from hoofsim.cli.run_experiment import run_one
from hoofsim.cli.run_sitting import deeds_of, run_sitting
from hoofsim.cli.tables import csv_text, print_steps
from hoofsim.errors import STOPPED, BadInput, ExpectationMissed
from hoofsim.files.experiment import EXPERIMENT, Experiment, load_experiment
from hoofsim.files.kinds import kind_word
from hoofsim.files.outcome import Outcome, run_scenario
from hoofsim.files.reader import Document, read_file
from hoofsim.files.scenario import SCENARIO, Scenario, load_scenario
from hoofsim.reports.foot_files import png_bytes, svg_text
from hoofsim.reports.provenance import about, plain
from hoofsim.session.replay import REPLAY, Deed, load_replay
from hoofsim.session.sandbox_file import SANDBOX, load_sandbox

EXAMPLES = """\
  hoofsim run scenarios/heel_raised.yaml
  hoofsim run scenarios/*.yaml --out results
  hoofsim run scenarios/experiments/*.yaml --out results
  hoofsim run my_scenario.yaml --json"""


@dataclass(frozen=True)
class Sitting:
    """A sandbox file or a replay, as deeds to be done again."""

    kind: str
    deeds: list[Deed]


Content = Scenario | Experiment | Sitting
READERS: Mapping[str, Callable[[Document], Content]] = {
    SCENARIO.name: load_scenario,
    EXPERIMENT.name: load_experiment,
    SANDBOX.name: lambda document: Sitting(SANDBOX.name, deeds_of(load_sandbox(document))),
    REPLAY.name: lambda document: Sitting(REPLAY.name, load_replay(document)),
}

MARKS = {True: "held  ", False: "MISSED"}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which files, and where the results go."""
    parser.add_argument(
        "files",
        nargs="+",
        type=Path,
        metavar="FILE",
        help="scenario, experiment, saved sitting or replay to run (.yaml)",
    )
    parser.add_argument(
        "--out",
        type=Path,
        metavar="DIR",
        help="write the tables (NAME.csv) and pictures (.svg, .png) of each file into this folder",
    )
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(arguments: argparse.Namespace) -> int:
    """Run the files."""
    return run_files(arguments.files, arguments.out, arguments.json)


def run_files(files: Sequence[Path], out: Path | None, as_json: bool = False) -> int:
    """Run every file, all of them read before the first is run; ExpectationMissed at the end when any was missed.

    Gives 130 when the user stopped an experiment: what was done is written, and no further file is begun.
    """
    ready = [(file, _read(file)) for file in files]
    _refuse_same_names(files)
    missed: list[str] = []
    reports: list[dict[str, Any]] = []
    stopped = False
    for file, content in ready:
        if isinstance(content, Experiment):
            report, stopped = run_one(file, content, out, as_json)
        elif isinstance(content, Sitting):
            report, late = run_sitting(file, content.kind, content.deeds, out, as_json)
            missed += late
        else:
            report, late = _run_scenario(file, content, out, as_json)
            missed += late
        reports.append(report)
        if stopped:
            break
    if as_json:
        print_json(reports)
    if missed:
        raise ExpectationMissed("\n".join(missed))
    return STOPPED if stopped else 0


def _read(file: Path) -> Content:
    """The file by its own kind; BadInput for a kind that cannot be run."""
    document = read_file(file)
    return READERS[kind_word(document, READERS)](document)


def _run_scenario(
    file: Path, scenario: Scenario, out: Path | None, as_json: bool
) -> tuple[dict[str, Any], list[str]]:
    """One scenario: what to print as JSON, and a sentence for each expectation that was missed."""
    outcome = _loaded(file, scenario)
    written = [] if out is None else write_results(outcome, file, out)
    if not as_json:
        _print(file, outcome, written)
    missed = [f"{file}: {finding.sentence}" for finding in outcome.findings if not finding.holds]
    return _report(file, outcome, written), missed


def write_results(outcome: Outcome, file: Path, out: Path) -> list[Path]:
    """Write the table, two pictures of the last foot at rest, and what they were made from; gives the paths."""
    shown, before = outcome.load(outcome.last_at_rest), outcome.load(outcome.baseline)
    title = outcome.scenario.title
    contents: dict[str, bytes | str] = {
        f"{file.stem}.csv": csv_text(outcome),
        f"{file.stem}.svg": svg_text(shown, before, title),
        f"{file.stem}.png": png_bytes(shown, before, title),
        f"{file.stem}_about.json": about(
            file, SCENARIO.name, plain(outcome.scenario), outcome.scenario.foot.preset
        ),
    }
    return write_into(out, contents)


def _loaded(file: Path, scenario: Scenario) -> Outcome:
    """Run one scenario under a progress bar; what its values make impossible is told with the file's name."""
    try:
        with shown_when_slow(scenario.title) as report:
            return run_scenario(scenario, report)
    except BadInput as error:
        raise BadInput(f"{file}: {error}") from None


def _refuse_same_names(files: Sequence[Path]) -> None:
    """Two files of one name would overwrite each other's results."""
    stems: dict[str, Path] = {}
    for file in files:
        if stems.setdefault(file.stem, file) != file:
            raise BadInput(
                f"{stems[file.stem]} and {file} have the same name; run them into different folders"
            )


def _print(file: Path, outcome: Outcome, written: Sequence[Path]) -> None:
    """Question, table, expectations and files of one scenario."""
    scenario = outcome.scenario
    print_text(f"{scenario.title} ({file})")
    print_text(scenario.question)
    print_text()
    print_steps(outcome)
    print_text()
    for finding in outcome.findings:
        print_text(f"{MARKS[finding.holds]} {finding.sentence}")
    for path in written:
        print_text(f"wrote {path}")
    print_text()


def _report(file: Path, outcome: Outcome, written: Sequence[Path]) -> dict[str, Any]:
    """One scenario's outcome for JSON."""
    before = outcome.baseline.measures
    return {
        "file": str(file),
        "kind": "scenario",
        "title": outcome.scenario.title,
        "holds": outcome.holds,
        "expectations": [
            {"holds": finding.holds, "sentence": finding.sentence} for finding in outcome.findings
        ],
        "steps": [
            {"at": step.at, "status": step.status, "measures": measure_json(step.measures, before)}
            for step in outcome.steps
        ],
        "written": [str(path) for path in written],
    }
