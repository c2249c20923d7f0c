"""The trial log: keep a run with a prediction and a note, list what was kept, write it as a table and a report."""

import argparse
from pathlib import Path

from hoofsim.cli.options import add_foot_arguments, chosen
from hoofsim.cli.output import print_json, print_table, print_text, write_into
from hoofsim.cli.solve import refuse_without_rest
from hoofsim.errors import BadInput
from hoofsim.measures import MEASURES, NOT_IN_A_SAGITTAL_VIEW
from hoofsim.reports.provenance import about
from hoofsim.reports.trial_report import SHOWN, TrialRow, files_of
from hoofsim.session.commands import ChoosePreset, SetControl, SetLoad
from hoofsim.session.sandbox_file import open_file, save
from hoofsim.session.session import Session, foot_of, load_of
from hoofsim.session.state import FootChoice
from hoofsim.units import show_number

EXAMPLES = """\
  hoofsim trials log.yaml --keep --set heel_change_mm=10 --predict "the tendon slackens"
  hoofsim trials log.yaml
  hoofsim trials log.yaml --out results"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The log, and either a run to keep or where to write the report."""
    parser.add_argument(
        "file", type=Path, metavar="FILE", help="log of trials (.yaml); --keep makes it when missing"
    )
    parser.add_argument(
        "--out", type=Path, metavar="DIR", help="write the table and the report into this folder"
    )
    parser.add_argument("--json", action="store_true", help="print JSON")
    keep = parser.add_argument_group("keeping a run")
    keep.add_argument("--keep", action="store_true", help="run the foot below and add it to the log")
    keep.add_argument(
        "--predict", default="", metavar="TEXT", help="what you expect, written down before you look"
    )
    keep.add_argument("--note", default="", metavar="TEXT", help="a remark")
    add_foot_arguments(parser)


def run(arguments: argparse.Namespace) -> int:
    """Keep, then list and write."""
    file: Path = arguments.file
    if arguments.keep:
        _keep(arguments, file)
    elif arguments.set or arguments.load or arguments.predict or arguments.note or arguments.foot != "sound":
        raise BadInput("a foot, a load, a prediction or a note belong to a run to be kept: add --keep")
    trials = rows_of(open_file(file))
    if not trials:
        raise BadInput(f"{file}: no trials were kept in it; add one with --keep")
    written: list[Path] = []
    if arguments.out is not None:
        origin = about(file, "trials", [_plain(trial) for trial in trials])
        contents = files_of(trials, file.stem, f"Trial log: {file.stem}")
        written = write_into(arguments.out, {**contents, f"{file.stem}_about.json": origin})
    if arguments.json:
        print_json([_plain(trial) for trial in trials])
    else:
        _print(trials, written)
    return 0


def rows_of(session: Session) -> list[TrialRow]:
    """The trials of a sitting with the unchanged foot's measures beside each."""
    rows = []
    for trial in session.state.trials:
        before = load_of(foot_of(FootChoice(trial.foot.preset)), trial.load).measures()
        changes, results = dict(trial.foot.changes), dict(trial.results)
        stance = trial.load.stance_percent
        rows.append(
            TrialRow(
                trial.number, trial.foot.preset, changes, trial.load.case, stance, trial.note, trial.prediction,
                results, before,
            )
        )  # fmt: skip
    return rows


def _keep(arguments: argparse.Namespace, file: Path) -> None:
    """Add the chosen foot under the chosen load to the log, which is written only when all of it went well."""
    choice = chosen(arguments)
    refuse_without_rest(choice)
    session = open_file(file) if file.exists() else Session()
    session.do(ChoosePreset(choice.preset))
    session.do_all([SetControl(name, value) for name, value in choice.changes.items()])
    session.do(SetLoad(choice.load, choice.stance_percent))
    session.keep_trial(arguments.note, arguments.predict)
    save(session, file)


def _print(trials: list[TrialRow], written: list[Path]) -> None:
    head = [
        ("trial", "right"),
        ("settings", "left"),
        *((MEASURES[name].label, "right") for name in SHOWN[:4]),
    ]
    rows = [([str(trial.number), trial.settings, *_cells(trial)], None) for trial in trials]
    print_table("trials: value (change from the unchanged foot)", head, rows)
    for trial in trials:
        if trial.prediction or trial.note:
            print_text(f"{trial.number}: predicted: {trial.prediction or '-'}; note: {trial.note or '-'}")
    print_text()
    print_text(NOT_IN_A_SAGITTAL_VIEW)
    for path in written:
        print_text(f"wrote {path}")


def _cells(trial: TrialRow) -> list[str]:
    cells = []
    for name in SHOWN[:4]:
        value, change, unit = trial.results.get(name), trial.change(name), MEASURES[name].unit
        shown = "" if value is None else show_number(value, unit)
        cells.append(shown if change is None else f"{shown} ({show_number(change, unit, signed=True)})")
    return cells


def _plain(trial: TrialRow) -> dict[str, object]:
    return {
        "trial": trial.number,
        "foot": trial.preset,
        "changes": dict(trial.changes),
        "load": trial.load,
        "stance_percent": trial.stance_percent,
        "prediction": trial.prediction,
        "note": trial.note,
        "measures": dict(trial.results),
    }
