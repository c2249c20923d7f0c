"""Find a foot of the model that reproduces a case's measures, and say outright what the measures do not fix."""

import argparse
import math
from pathlib import Path
from typing import Any

import numpy as np

from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.propagation import COPIES, kept, measured
from hoofsim.claims.evidence.reader import read_table
from hoofsim.claims.matching import USUAL_CONTROLS, Match, checked_measures, match
from hoofsim.claims.matching_words import MODEL_ONLY, control_rows, fit_sentence, loose_sentences
from hoofsim.cli.output import print_json, print_table, print_text
from hoofsim.cli.progress_bar import shown_when_slow
from hoofsim.errors import BadInput, nearest
from hoofsim.foot.presets import PRESETS
from hoofsim.frames import Array
from hoofsim.measures import MEASURES, NOT_IN_A_SAGITTAL_VIEW, find
from hoofsim.mechanics.loads import CASES
from hoofsim.model import Foot
from hoofsim.units import show_number

EXAMPLES = """\
  hoofsim match --measure capsular_rotation=8 --measure tip_to_frog=6 --measure sole_depth_tip=9
  hoofsim match --measure palmar_angle=12 --vary heel_change_mm,healed_rotation_deg
  hoofsim match scenarios/evidence/invented_cases.csv --case Heather"""

LARGEST_ERROR = 20.0


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The readings, their errors, and what may vary."""
    parser.add_argument(
        "file", nargs="?", type=Path, metavar="FILE", help="evidence table (.csv) to take a case from"
    )
    parser.add_argument("--case", metavar="NAME", help="which case of the table")
    parser.add_argument(
        "--measure", action="append", default=[], metavar="NAME=VALUE", help="a reading; may be repeated"
    )
    parser.add_argument(
        "--error", type=float, default=1.0, metavar="E", help="error of each --measure, deg or mm (default 1)"
    )
    parser.add_argument(
        "--vary", metavar="NAMES", help=f"controls to vary (default {', '.join(USUAL_CONTROLS)})"
    )
    parser.add_argument(
        "--foot", default="sound", metavar="PRESET", help="the foot whose other values are kept"
    )
    parser.add_argument("--load", default="standing", metavar="CASE", help="load case (default standing)")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(arguments: argparse.Namespace) -> int:
    """Match and tell."""
    if (arguments.file is None) == (not arguments.measure):
        raise BadInput("match needs either readings (--measure NAME=VALUE) or a FILE.csv with --case NAME")
    if arguments.foot not in PRESETS:
        raise BadInput(f"no ready foot '{arguments.foot}': {nearest(arguments.foot, PRESETS)}")
    if arguments.load not in CASES:
        raise BadInput(f"unknown load '{arguments.load}': {nearest(arguments.load, CASES)}")
    names, values, covariance = _from_table(arguments) if arguments.file else _from_words(arguments)
    checked_measures(names)
    controls = (
        USUAL_CONTROLS if arguments.vary is None else [name.strip() for name in arguments.vary.split(",")]
    )
    with shown_when_slow("matching") as report:

        def progress(done: int, of: int) -> None:
            report(done, of)

        found = match(names, values, covariance, controls, Foot(arguments.foot), arguments.load, progress)
    if arguments.json:
        print_json(_report(found))
    else:
        _print(found)
    return 0


def _from_words(arguments: argparse.Namespace) -> tuple[tuple[str, ...], Array, Array]:
    if not 0.0 < arguments.error <= LARGEST_ERROR:
        raise BadInput(f"--error {arguments.error:g}: must be above 0 and at most {LARGEST_ERROR:g}")
    given: dict[str, float] = {}
    for text in arguments.measure:
        name, equals, value = text.partition("=")
        try:
            number = float(value)
        except ValueError:
            number = math.nan
        if not equals or not math.isfinite(number):
            raise BadInput(f"--measure {text}: expected NAME=VALUE, such as --measure capsular_rotation=8")
        given[find(name.strip()).name] = number
    spread = np.array([arguments.error * (0.01 if MEASURES[name].unit == "1" else 1.0) for name in given])
    return tuple(given), np.array(list(given.values())), np.diag(spread**2)


def _from_table(arguments: argparse.Namespace) -> tuple[tuple[str, ...], Array, Array]:
    cases = {case.name: case for case in paired(read_table(arguments.file), str(arguments.file))}
    if arguments.case not in cases:
        asked = f"no case '{arguments.case}'" if arguments.case else "choose a case with --case NAME"
        raise BadInput(f"{arguments.file}: {asked}; {nearest(arguments.case or '', cases)}")
    standing = measured([cases[arguments.case]])[0].standing
    return kept(standing, [name for name in standing[0] if name not in COPIES])


def _print(found: Match) -> None:
    print_text(fit_sentence(found))
    print_text()
    print_table(
        f"controls of the matched foot ({found.preset}, {found.load})",
        [("control", "left"), ("value", "right"), ("error", "right"), ("", "left")],
        ((row, None) for row in control_rows(found)),
    )
    print_text()
    print_table(
        "measures",
        [("measure", "left"), ("read", "right"), ("error", "right"), ("matched", "right"), ("", "left")],
        ((_measure_row(found, name), None) for name in found.wanted),
    )
    print_text()
    for sentence in loose_sentences(found):
        print_text(sentence)
    print_text(MODEL_ONLY)
    print_text()
    settings = " ".join(f"--set {name}={value:.4g}" for name, value in found.values.items())
    print_text(f"to see it: hoofsim solve --foot {found.preset} {settings} --load {found.load}")
    print_text(NOT_IN_A_SAGITTAL_VIEW)


def _measure_row(found: Match, name: str) -> list[str]:
    unit = MEASURES[name].unit
    numbers = [found.wanted[name], found.reading_errors[name], found.reproduced[name]]
    read, error, matched = (show_number(value, unit) for value in numbers)
    return [MEASURES[name].label, read, f"± {error}", matched, "" if unit == "1" else unit]


def _report(found: Match) -> dict[str, Any]:
    return {
        "foot": found.preset,
        "load": found.load,
        "controls": {
            name: {
                "value": value,
                "error": None if math.isinf(found.errors[name]) else found.errors[name],
                "fixed": found.fixed(name),
                "at_limit": name in found.at_limit,
            }
            for name, value in found.values.items()
        },
        "measures": {
            name: {"read": value, "error": found.reading_errors[name], "matched": found.reproduced[name]}
            for name, value in found.wanted.items()
        },
        "chi_square": found.misfit,
        "fit": found.fit,
        "not_fixed": [{"weights": one.weights, "standard_errors": one.strength} for one in found.loose],
        "other_answers": list(found.others),
        "sentences": [fit_sentence(found), *loose_sentences(found), MODEL_ONLY],
    }
