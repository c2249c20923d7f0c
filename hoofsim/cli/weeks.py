"""Follow a foot through weeks of growth, wear and trims, and print what heel, toe, angles and tendon do."""

import argparse
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.cli.options import assignment
from hoofsim.cli.output import print_json, print_table, print_text, refuse_missing_folders, say_written
from hoofsim.errors import BadInput
from hoofsim.measures.table import MEASURES
from hoofsim.model import Foot, Table
from hoofsim.plain_text import csv_lines
from hoofsim.timeline.calendar import Calendar, weeks
from hoofsim.timeline.rates import KEEPINGS, WALL_GROWTH, Rate
from hoofsim.timeline.renewal import renewal_months
from hoofsim.timeline.trim import parse_trim
from hoofsim.units import show_number, shown_unit
from hoofsim.writing import write_whole

EXAMPLES = """\
  hoofsim weeks
  hoofsim weeks --days 84 --every 7 --keeping barefoot
  hoofsim weeks --days 56 --trim 42:wall=6,plane=1.5,sole=1 --csv weeks.csv --figure weeks.png"""

SHOWN = ("hoof_angle", "palmar_angle", "phalangeal_rotation", "toe_to_cor", "tendon_tension")
MOST_DAYS = 400
NOTE = (
    "Growth of the wall is second-hand (R8); wear is a choice whose direction alone is published (R12); growth is the same "
    "at toe and heel (R7). Standing load. A weeks' table describes a generic foot, not a horse."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Foot, days, keeping, trims, growth and where to write."""
    parser.add_argument(
        "--foot", default="sound", metavar="PRESET", help="a ready foot (hoofsim list presets)"
    )
    parser.add_argument(
        "--set", action="append", default=[], metavar="NAME=VALUE", help="change one control of day 0"
    )
    parser.add_argument("--days", type=int, default=56, metavar="N", help="last day (default: 56)")
    parser.add_argument("--every", type=int, default=7, metavar="N", help="days between rows (default: 7)")
    parser.add_argument(
        "--keeping", default="shod", metavar="NAME", help=", ".join(KEEPINGS) + " (default: shod)"
    )
    parser.add_argument("--trim", action="append", default=[], metavar="DAY:wall=MM,heel=MM,sole=MM",
                        help="a trim on a day; plane=DEG instead of heel turns the bearing plane")  # fmt: skip
    parser.add_argument(
        "--growth", type=float, default=WALL_GROWTH.value, metavar="MM", help="mm of wall a month"
    )
    parser.add_argument("--csv", type=Path, metavar="FILE", help="write every measure on every day")
    parser.add_argument("--figure", type=Path, metavar="FILE", help="draw the days to a .png or .svg file")
    parser.add_argument("--json", action="store_true", help="print JSON instead of the table")


def run(arguments: argparse.Namespace) -> int:
    """Compute every day before anything is written."""
    if not 1 <= arguments.days <= MOST_DAYS or not 1 <= arguments.every <= arguments.days:
        raise BadInput(f"--days must be 1 to {MOST_DAYS} and --every 1 to --days")
    figure: Path | None = arguments.figure
    if figure is not None and figure.suffix.lower() not in (".png", ".svg"):
        raise BadInput(f"{figure}: cannot draw '{figure.suffix}'; the name must end in .png or .svg")
    refuse_missing_folders(arguments.csv, figure)
    foot = Foot(arguments.foot, **dict(assignment(text) for text in arguments.set))
    days = np.union1d(np.arange(0, arguments.days + 1, arguments.every), [arguments.days])
    calendar = weeks(
        foot, days, arguments.keeping, [parse_trim(text) for text in arguments.trim], arguments.growth
    )
    table = calendar.load()
    if arguments.json:
        print_json({"foot": foot.preset, "keeping": calendar.keeping.name, "days": [_day(calendar, table, i)
                    for i in range(calendar.days.size)]})  # fmt: skip
    else:
        _print(calendar, table)
    if arguments.csv is not None:
        write_whole(arguments.csv, csv_text(calendar, table))
        say_written(arguments.csv, arguments.json)
    if figure is not None:
        from hoofsim.reports.plot_style import image_bytes
        from hoofsim.reports.weeks_figure import weeks_figure

        write_whole(figure, image_bytes(weeks_figure(calendar, table), figure.suffix[1:].lower()))
        say_written(figure, arguments.json)
    return 0


def _day(calendar: Calendar, table: Table, index: int) -> dict[str, object]:
    read: Mapping[str, object] = {name: _number(values[index]) for name, values in table.items()}
    controls = {name: float(values[index]) for name, values in calendar.controls.items()}
    return {
        "day": float(calendar.days[index]),
        "controls": controls,
        "status": str(table.status[index]),
        "measures": read,
    }


def _number(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None


def _heading(name: str) -> str:
    unit = shown_unit(MEASURES[name].unit)
    return f"{MEASURES[name].label} ({unit})" if unit else MEASURES[name].label


def _rates(rates: Sequence[Rate]) -> str:
    return "; ".join(
        f"{one.label} {one.value:g} mm a month ({one.low:g} to {one.high:g}, {one.status})" for one in rates
    )


def _print(calendar: Calendar, table: Table) -> None:
    columns = [("day", "right"), ("toe (mm)", "right"), ("heel (mm)", "right"), ("sole (mm)", "right")]
    rows = []
    for index, day in enumerate(calendar.days):
        changes = [
            show_number(calendar.controls[name][index], "mm", signed=True)
            for name in ("toe_change_mm", "heel_change_mm", "sole_change_mm")
        ]
        at_rest = np.isfinite(table["tendon_tension"][index])
        read = [show_number(table[name][index], MEASURES[name].unit) if at_rest else "" for name in SHOWN]
        rows.append(([f"{day:g}", *changes, *read], None))
    trims = ", ".join(f"day {one.day:g}" for one in calendar.trims)
    title = f"{calendar.keeping.label}, {calendar.days[-1]:g} days" + (f", trims on {trims}" if trims else "")
    print_table(title, [*columns, *((_heading(name), "right") for name in SHOWN)], rows)
    growth = Rate(WALL_GROWTH.label, calendar.growth_mm_per_month, WALL_GROWTH.low, WALL_GROWTH.high, WALL_GROWTH.source,
                  WALL_GROWTH.status)  # fmt: skip
    print_text()
    print_text(_rates([growth, calendar.keeping.toe_wear, calendar.keeping.heel_wear]))
    if calendar.growth_mm_per_month > 0:
        months = renewal_months(calendar.foot, calendar.growth_mm_per_month)
        print_text(f"The dorsal wall is renewed in {months:.1f} months at this growth.")
    print_text(NOTE)
    print_text(SHORT_CAUTION)


def csv_text(calendar: Calendar, table: Table) -> str:
    """Columns: day, the controls that moved, status, and every measure with its unit."""
    heads = [f"{name} ({unit})" if (unit := shown_unit(MEASURES[name].unit)) else name for name in MEASURES]
    rows: list[Sequence[object]] = [["day", *calendar.controls, "status", *heads]]
    for index, day in enumerate(calendar.days):
        controls = [f"{values[index]:.3f}" for values in calendar.controls.values()]
        values = [table[name][index] for name in MEASURES]
        read = [f"{value:.6g}" if np.isfinite(value) else "" for value in values]
        rows.append([f"{day:g}", *controls, table.status[index], *read])
    return csv_lines(rows)
