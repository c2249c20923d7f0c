"""Compare the model with published values and with independent engines, and say how far its numbers may be wrong."""

import argparse
from collections.abc import Sequence
from pathlib import Path

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.cli.output import print_json, print_table, print_text, refuse_missing_folders, say_written
from hoofsim.cli.progress_bar import shown_when_slow
from hoofsim.errors import BadInput, ExpectationMissed
from hoofsim.foot.parameters import BY_NAME
from hoofsim.measures.table import MEASURES
from hoofsim.units import show_number, shown_unit
from hoofsim.verify.bands import as_text
from hoofsim.verify.compare import Comparison, compare
from hoofsim.verify.published import published
from hoofsim.verify.referees.referee import Verdict
from hoofsim.verify.referees.registry import REFEREES, ask_all
from hoofsim.verify.uncertainty import CASES, SAMPLES, MeasureBand, bands_of
from hoofsim.verify.wording import COLUMNS, HOW_TO_READ, as_data, cells, groups, tally
from hoofsim.writing import write_whole

EXAMPLES = """\
  hoofsim verify
  hoofsim verify --html verify.html --figure verify.png
  hoofsim verify --json
  hoofsim verify --uncertainty
  hoofsim verify --uncertainty --bands assets/bands.json   renew the carried bands"""

REFEREE_COLUMNS = (
    ("computed a second time", "left"), ("difference", "right"), ("asked", "left"), ("by", "left"), ("verdict", "left"),
)  # fmt: skip
LEAST_SAMPLES, MOST_SAMPLES = 16, 4096
BAND_NOTE = (
    "90 % band: every uncertain constant varied at once about the foot's own value, cut at two standard deviations. Beside "
    "it the three that matter most, with the share of the variance in which each takes part. The recalled turn of the "
    "pastern over a stance has no published spread and is not among them; what the model leaves out is in no band."
)
LEAST_SHARE = 0.01


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What to print and where to write."""
    parser.add_argument(
        "--html", type=Path, metavar="FILE", help="write one page with picture, table and explanations"
    )
    parser.add_argument("--figure", type=Path, metavar="FILE", help="write only the picture, .png or .svg")
    parser.add_argument("--json", action="store_true", help="print JSON instead of tables")
    parser.add_argument(
        "--uncertainty", action="store_true", help="print 90 %% bands of six standard cases instead"
    )
    parser.add_argument(
        "--samples", type=int, default=SAMPLES, metavar="N", help=f"design size (default: {SAMPLES})"
    )
    parser.add_argument(
        "--bands", type=Path, metavar="FILE", help="with --uncertainty: write the bands as data"
    )


def run(arguments: argparse.Namespace) -> int:
    """Compare, or with --uncertainty compute bands. A value outside is told, no error; a referee that differs is one."""
    refuse_missing_folders(arguments.html, arguments.figure, arguments.bands)
    if arguments.uncertainty:
        _refuse(arguments, ("html", "figure"), "--uncertainty")
        return _uncertainty(arguments)
    if arguments.bands is not None:
        raise BadInput("--bands needs --uncertainty, which computes them")
    return _comparison(arguments)


def _refuse(arguments: argparse.Namespace, options: Sequence[str], with_option: str) -> None:
    for option in options:
        if getattr(arguments, option) is not None:
            raise BadInput(f"--{option} cannot go with {with_option}: run hoofsim verify twice")


def _comparison(arguments: argparse.Namespace) -> int:
    page: Path | None = arguments.html
    picture: Path | None = arguments.figure
    if picture is not None and picture.suffix.lower() not in (".png", ".svg"):
        raise BadInput(f"{picture}: cannot draw '{picture.suffix}'; the name must end in .png or .svg")
    total = len(published()) + len(REFEREES)
    with shown_when_slow("comparing") as report:
        rows = compare(lambda done, _: report(done, total))
        outcomes = ask_all(progress=lambda done: report(len(rows) + done, total))
    if arguments.json:
        print_json({"rows": [as_data(row) for row in rows], "referees": [_referee(one) for one in outcomes]})
    else:
        _print_comparison(rows, outcomes)
    if page is not None:
        from hoofsim.reports.html_page import html
        from hoofsim.verify.page import comparison_page

        write_whole(page, html(comparison_page(rows, outcomes)))
        say_written(page, arguments.json)
    if picture is not None:
        from hoofsim.reports.plot_style import image_bytes
        from hoofsim.verify.figure import comparison_figure

        write_whole(picture, image_bytes(comparison_figure(rows), picture.suffix[1:].lower()))
        say_written(picture, arguments.json)
    differ = [one.referee.what for one in outcomes if one.agrees is False]
    if differ:
        raise ExpectationMissed(
            f"an independent computation differs by more than it may: {', '.join(differ)}"
        )
    return 0


def _referee(one: Verdict) -> dict[str, object]:
    what = one.referee
    return {"what": what.what, "by": what.by, "unit": what.unit, "asked": what.asked, "largest": one.largest,
            "agrees": one.agrees, "package": what.install}  # fmt: skip


def _print_comparison(rows: Sequence[Comparison], outcomes: Sequence[Verdict]) -> None:
    lines: list[tuple[Sequence[str], str | None]] = []
    for name, members in groups(rows).items():
        lines.append(([name.upper(), *[""] * (len(COLUMNS) - 1)], "bold"))
        lines += [(cells(row), None if row.inside else "bold red") for row in members]
    print_table("The model against published values", COLUMNS, lines)
    print_text()
    print_text(tally(rows))
    print_text(HOW_TO_READ)
    print_text()
    from hoofsim.verify.page import outside_words

    for paragraph in outside_words(rows):
        print_text(f"OUTSIDE. {paragraph}")
        print_text()
    print_table("Independent computations", REFEREE_COLUMNS, [(one.cells, None) for one in outcomes])
    left_out = sorted({one.referee.install for one in outcomes if one.largest is None})
    if left_out:
        print_text()
        print_text(
            f"Left out, because not installed: {', '.join(left_out)}; pip install 'hoofsim[test]' brings them."
        )
    print_text()
    print_text(SHORT_CAUTION)


def _uncertainty(arguments: argparse.Namespace) -> int:
    count: int = arguments.samples
    if not LEAST_SAMPLES <= count <= MOST_SAMPLES:
        raise BadInput(f"--samples = {count}: allowed {LEAST_SAMPLES} to {MOST_SAMPLES}")
    found: dict[str, dict[str, MeasureBand]] = {}
    with shown_when_slow("varying every uncertain constant") as report:
        for number, case in enumerate(CASES.values()):
            found[case.name] = bands_of(case, count)
            report(number + 1, len(CASES))
    if arguments.json:
        print(as_text(found, count), end="")
    else:
        for name, bands in found.items():
            _print_bands(CASES[name].label, bands)
        print_text(BAND_NOTE)
        print_text()
        print_text(SHORT_CAUTION)
    if arguments.bands is not None:
        write_whole(arguments.bands, as_text(found, count))
        say_written(arguments.bands, arguments.json)
    return 0


def _print_bands(label: str, bands: dict[str, MeasureBand]) -> None:
    columns = [
        ("measure", "left"),
        ("low", "right"),
        ("middle", "right"),
        ("high", "right"),
        ("matter most", "left"),
    ]
    lines: list[tuple[Sequence[str], str | None]] = []
    for measure, one in bands.items():
        told, unit = MEASURES[measure], shown_unit(MEASURES[measure].unit)
        heading = f"{told.label} ({unit})" if unit else told.label
        matter = "; ".join(
            f"{BY_NAME[name].label.lower()} {share:.2f}" for name, share in one.matter if share >= LEAST_SHARE
        )
        numbers = [show_number(value, told.unit) for value in (one.low, one.middle, one.high)]
        lines.append(([heading, *numbers, matter], None))
    print_table(label[0].upper() + label[1:], columns, lines)
    print_text()
