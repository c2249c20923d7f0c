"""A handout: one foot as it stands, in one file that needs nothing else, with what is read from it and the cautions."""

from collections.abc import Mapping, Sequence

from hoofsim.measures import MEASURES, change_is_readable
from hoofsim.reports.page import Page, PagePicture, PageTable, Paragraph, Section, closing_sections
from hoofsim.units import show

PICTURE_WORDS = (
    "The foot in section, seen from its side, with the forces on it; dashed, what it is compared with."
)
CAPTION = "Change: from the foot compared with, under the same load; · too small to be read on a radiograph."


def handout_page(
    title: str,
    compared: str,
    png: bytes,
    values: Mapping[str, float | None],
    before: Mapping[str, float | None],
    names: Sequence[str],
    length_unit: str = "mm",
) -> Page:
    """The page of a foot called `title`: a picture of it, and the measures `names` beside those of the foot `compared`.

    `values` and `before`: measure -> value in the measure's own unit, None where it is not defined.
    """
    rows = [_row(name, values.get(name), before.get(name), length_unit) for name in names]
    caption = f"Compared with: {compared}. {CAPTION}"
    head = ["measure", "value", "before", "change", "sound feet"]
    return Page(
        title,
        [
            Section("The foot", [PagePicture(png, PICTURE_WORDS)]),
            Section("What is read from it", [PageTable(caption, head, rows, (1, 2, 3))]),
            Section(
                "How it was made", [Paragraph("Computed by a model of one foot; no horse was measured.")]
            ),
            *closing_sections(names),
        ],
    )


def _row(name: str, value: float | None, before: float | None, length_unit: str) -> list[str]:
    measure = MEASURES[name]
    change = ""
    if value is not None and before is not None:
        change = show(value - before, measure.unit, length_unit, signed=True)
        if measure.readable and not change_is_readable(name, value - before):
            change += " ·"
    sound = measure.reference.words if measure.reference is not None else ""
    return [
        measure.label,
        show(value, measure.unit, length_unit),
        show(before, measure.unit, length_unit),
        change,
        sound,
    ]
