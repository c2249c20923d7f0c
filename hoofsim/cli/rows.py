"""One loaded foot as rows of a table or as JSON: value, reference, change, and whether a radiograph could show it."""

from collections.abc import Iterable, Iterator
from typing import Any

from hoofsim.cli.output import print_table, print_text
from hoofsim.measures.compute import change_is_readable
from hoofsim.measures.table import MEASURES, NOT_IN_A_SAGITTAL_VIEW
from hoofsim.units import show_number, shown_unit

TOO_SMALL = "·"

Values = dict[str, float | None]


def measure_rows(values: Values, before: Values, length_unit: str) -> Iterator[tuple[list[str], str | None]]:
    """Cells and style of every measure: greyed and marked where the change is too small for a radiograph."""
    for name, measure in MEASURES.items():
        value, earlier = values[name], before[name]
        if value is None:
            yield [measure.label, "not defined", "", "", "", ""], "dim"
            continue
        reference = measure.reference
        normal = (
            ""
            if reference is None
            else " to ".join(
                show_number(end, measure.unit, length_unit) for end in (reference.low, reference.high)
            )
        )
        change, mark, style = "", "", None
        if earlier is not None:
            change = show_number(value - earlier, measure.unit, length_unit, signed=True)
            if measure.readable and not change_is_readable(name, value - earlier):
                mark, style = TOO_SMALL, "dim"
        yield (
            [
                measure.label,
                show_number(value, measure.unit, length_unit),
                shown_unit(measure.unit, length_unit),
                normal,
                change,
                mark,
            ],
            style,
        )


def print_measures(heading: str, values: Values, before: Values, length_unit: str) -> None:
    """The table of measures, and what its marks mean."""
    print_table(
        heading,
        [
            ("measure", "left"),
            ("value", "right"),
            ("", "left"),
            ("sound", "right"),
            ("change", "right"),
            ("", "left"),
        ],
        measure_rows(values, before, length_unit),
    )
    print_text()
    print_text(
        f"change: from the same foot before any change. {TOO_SMALL} too small to read on a radiograph (2 deg, 2 mm)."
    )
    print_text(
        "sound: published or practice range of a sound, standing horse of about 500 kg; hoofsim list measures."
    )
    print_text(NOT_IN_A_SAGITTAL_VIEW)


def measure_json(values: Values, before: Values, names: Iterable[str] = MEASURES) -> dict[str, Any]:
    """Measures as JSON objects, in mm and degrees: value, unit, change, readable change."""
    result: dict[str, Any] = {}
    for name in names:
        value, earlier = values[name], before[name]
        change = None if value is None or earlier is None else value - earlier
        result[name] = {
            "value": value,
            "unit": shown_unit(MEASURES[name].unit),
            "change": change,
            "change_is_readable": None if change is None else change_is_readable(name, change),
        }
    return result
