"""Weigh a table of radiograph landmarks against the rival accounts, or invent such a table to test the test."""

import argparse
from pathlib import Path
from typing import Any

import numpy as np

from hoofsim.claims.accounts import ACCOUNTS, account
from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.columns import all_columns
from hoofsim.claims.evidence.confusion import confusion
from hoofsim.claims.evidence.generate import AMOUNTS, INVENTED, invented_films, table_text
from hoofsim.claims.evidence.reader import read_table
from hoofsim.claims.evidence.summary import Evidence, paragraph, weigh_table
from hoofsim.claims.information import next_experiments, next_measures
from hoofsim.claims.wording import CANNOT_TELL, advice_sentence, experiment_sentence, verdict, verdict_word
from hoofsim.cli.output import print_json, print_table, print_text, write_into
from hoofsim.errors import BadInput
from hoofsim.files.experiment import read_experiment
from hoofsim.measures import NOT_IN_A_SAGITTAL_VIEW, find
from hoofsim.reports.evidence_files import files_of
from hoofsim.reports.provenance import about
from hoofsim.resources import scenarios_folder

EXAMPLES = """\
  hoofsim evidence scenarios/evidence/invented_cases.csv --out results
  hoofsim evidence my_cases.csv --only tip_to_frog
  hoofsim evidence --columns
  hoofsim evidence --confusion --cases 100
  hoofsim evidence --generate carried_sole --cases 30 --seed 4 > invented.csv"""

_LABELLED = "INVENTED DATA"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """A table to weigh, or what to invent."""
    parser.add_argument("file", nargs="?", type=Path, metavar="FILE", help="table of landmark points (.csv)")
    parser.add_argument(
        "--out", type=Path, metavar="DIR", help="write tables, figures and the report into this folder"
    )
    parser.add_argument(
        "--only", metavar="MEASURES", help="weigh only these measures, names separated by commas"
    )
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--columns", action="store_true", help="print what the columns of a table mean")
    invent = parser.add_argument_group("inventing a table")
    invent.add_argument(
        "--generate", metavar="ACCOUNT", help=f"print an invented table: {', '.join(ACCOUNTS)}"
    )
    invent.add_argument(
        "--confusion",
        action="store_true",
        help="invent a table under every account and count what each case is named",
    )
    invent.add_argument("--cases", type=int, default=20, metavar="N", help="how many feet (default 20)")
    invent.add_argument("--seed", type=int, default=1, metavar="S", help="same seed, same table (default 1)")
    invent.add_argument(
        "--error", type=float, default=1.0, metavar="MM", help="reading error of a point (default 1)"
    )
    invent.add_argument("--no-baseline", action="store_true", help="leave the baseline films out")


def run(arguments: argparse.Namespace) -> int:
    """Weigh, invent or explain."""
    asked = [
        arguments.file is not None,
        arguments.generate is not None,
        arguments.columns,
        arguments.confusion,
    ]
    if sum(asked) != 1:
        raise BadInput("evidence needs one of: a FILE.csv, --generate ACCOUNT, --confusion, or --columns")
    if arguments.seed < 0:
        raise BadInput(f"--seed {arguments.seed}: must be 0 or more")
    if arguments.columns:
        _print_columns(arguments.json)
    elif arguments.generate is not None:
        _generate(arguments)
    elif arguments.confusion:
        _print_confusion(arguments)
    else:
        _weigh(arguments)
    return 0


def _print_columns(as_json: bool) -> None:
    if as_json:
        print_json(
            [{"name": one.name, "required": one.required, "meaning": one.meaning} for one in all_columns()]
        )
        return
    rows = (([one.name, "yes" if one.required else "", one.meaning], None) for one in all_columns())
    print_table(
        "columns of an evidence table", [("column", "left"), ("required", "left"), ("meaning", "left")], rows
    )


def _generate(arguments: argparse.Namespace) -> None:
    chosen = account(arguments.generate)
    random = np.random.default_rng(arguments.seed)
    films = invented_films(
        chosen, arguments.cases, random, arguments.error, baselines=not arguments.no_baseline
    )
    low, high = AMOUNTS
    remark = (
        f"Account: {chosen.label}; {arguments.cases} feet; amounts {low:g} to {high:g} {chosen.unit}; reading error "
        f"{arguments.error:g} mm; seed {arguments.seed}."
    )
    text = table_text(films, remark)
    if arguments.out is None:
        print(text, end="")
        return
    (path,) = write_into(arguments.out, {f"invented_{chosen.name}.csv": text})
    print_text(f"wrote {path}")


def _print_confusion(arguments: argparse.Namespace) -> None:
    """How many invented cases of each account are named which account."""
    only = _only(arguments.only)
    counts = confusion(arguments.cases, arguments.seed, arguments.error, not arguments.no_baseline, only)
    if arguments.json:
        print_json({name: dict(row) for name, row in counts.items()})
        return
    columns = [*ACCOUNTS, CANNOT_TELL]
    heads = [
        ("true account", "left"),
        *((ACCOUNTS[one].label if one in ACCOUNTS else one, "right") for one in columns),
    ]
    rows = (
        ([ACCOUNTS[name].label, *(str(row[one]) for one in columns)], None) for name, row in counts.items()
    )
    low, high = AMOUNTS
    read = "with baselines" if not arguments.no_baseline else "without baselines"
    print_table(f"how many of {arguments.cases} invented cases were named what", heads, rows)
    print_text()
    print_text(
        f"Amounts {low:g} to {high:g} deg or mm, points read with {arguments.error:g} mm of error along each axis, "
        f"{read}{', only ' + ', '.join(only) if only else ''}; seed {arguments.seed}."
    )


def _only(words: str | None) -> tuple[str, ...] | None:
    """The measures of --only; BadInput with the nearest valid name."""
    return None if words is None else tuple(find(name.strip()).name for name in words.split(","))


def _weigh(arguments: argparse.Namespace) -> None:
    file: Path = arguments.file
    only = (
        None
        if arguments.only is None
        else tuple(find(name.strip()).name for name in arguments.only.split(","))
    )
    evidence = weigh_table(paired(read_table(file), str(file)), file.stem, only)
    label = INVENTED if _LABELLED in _remarks(file) else ""
    written: list[Path] = []
    if arguments.out is not None:
        cases = [one.case.name for one in evidence.weighed]
        origin = about(file, "evidence", {"label": label, "only": list(only or ()), "cases": cases})
        contents = {**files_of(evidence, file.stem, label), f"{file.stem}_about.json": origin}
        written = write_into(arguments.out, contents)
    if arguments.json:
        print_json(_report(evidence, label, written))
    else:
        _print(evidence, label, written)


def _remarks(file: Path) -> str:
    """The remark lines of a table."""
    text = file.read_text(encoding="utf-8-sig")
    return "\n".join(line for line in text.splitlines() if line.startswith("#"))


def _print(evidence: Evidence, label: str, written: list[Path]) -> None:
    if label:
        print_text(label)
        print_text()
    columns = [
        ("case", "left"),
        *((one.label, "right") for one in ACCOUNTS.values()),
        ("verdict", "left"),
        ("", "left"),
    ]
    rows = []
    for one in evidence.weighed:
        shares = [f"{100 * standing.likelihood:.0f}" for standing in one.separation.standings.values()]
        rows.append(
            ([one.case.name, *shares, verdict_word(one.separation), "*" if one.case.traps else ""], None)
        )
    print_table("share of the likelihood, percent (* a trap was noticed)", columns, rows)
    print_text()
    print_text(paragraph(evidence))
    print_text()
    for one in evidence.weighed:
        for trap in one.case.traps:
            print_text(f"* {one.case.name}: {trap}")
    untold = next(
        (one for one in evidence.weighed if one.separation.named is None and one.separation.remaining), None
    )
    if untold is not None:
        print_text()
        words = advice_sentence(untold.separation, next_measures(untold.separation))
        ready = {
            file.stem: read_experiment(file)
            for file in sorted((scenarios_folder() / "experiments").glob("*.yaml"))
        }
        titles = {name: f"scenarios/experiments/{name}.yaml" for name in ready}
        words += " " + experiment_sentence(
            untold.separation, next_experiments(untold.separation, ready), titles
        )
        print_text(f"{untold.case.name}: {verdict(untold.separation)} {words.strip()}")
    print_text()
    print_text(NOT_IN_A_SAGITTAL_VIEW)
    for path in written:
        print_text(f"wrote {path}")


def _report(evidence: Evidence, label: str, written: list[Path]) -> dict[str, Any]:
    return {
        "label": label,
        "cases": [
            {
                "case": one.case.name,
                "named": one.separation.named,
                "verdict": verdict(one.separation),
                "accounts": {
                    name: {
                        "likelihood": standing.likelihood,
                        "amount": standing.amount,
                        "amount_error": standing.amount_error,
                        "unit": ACCOUNTS[name].unit,
                        "fit": standing.fit,
                        "excluded": standing.excluded,
                    }
                    for name, standing in one.separation.standings.items()
                },
                "traps": list(one.case.traps),
            }
            for one in evidence.weighed
        ],
        "trends": [
            {
                "measure": one.measure,
                "cases": len(one.x),
                "slope": None if one.line is None else one.line.slope,
                "interval": None if one.line is None else list(one.line.slope_band),
                "accounts": one.slopes,
                "excluded": [name for name in ACCOUNTS if one.excluded(name)],
            }
            for one in evidence.trends
        ],
        "traps": list(evidence.traps),
        "paragraph": paragraph(evidence),
        "written": [str(path) for path in written],
    }
