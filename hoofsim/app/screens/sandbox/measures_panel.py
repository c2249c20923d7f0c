"""The measures of the present foot against the baseline, as rows for the list widget."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from hoofsim.app.screens.sandbox.uncertain import Bands, band_sentence, band_words
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.label import Label
from hoofsim.app.widgets.measure_list import MeasureList, MeasureRow
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.measures.measure import Measure
from hoofsim.measures.table import MEASURES, NOT_IN_A_SAGITTAL_VIEW
from hoofsim.session.session import Change, changes_between
from hoofsim.units import show

MAIN = (
    "hoof_angle",
    "palmar_angle",
    "capsular_rotation",
    "phalangeal_rotation",
    "founder_distance",
    "wall_to_bone_proximal",
    "wall_to_bone_distal",
    "sole_depth_tip",
    "tip_to_frog",
    "frog_to_toe",
    "tendon_tension",
    "navicular_load",
    "laminar_stress_peak",
    "centre_of_pressure",
)
CHOICES = (
    Choice("main", "The main measures"),
    Choice("all", "All measures"),
    Choice("changed", "Only what changed"),
    Choice("readable", "Read on a radiograph"),
)
# A change below this share of the shown digits is none at all.
SMALLEST_SHOWN = {"deg": 0.05, "mm": 0.05, "N": 0.5, "MPa": 0.0005, "1": 0.005}


def headed(words: str) -> str:
    """With a capital at the start, as a heading or the start of a line has."""
    return words[:1].upper() + words[1:]


def row_for(measure: Measure, value: float | None, change: Change | None, length_unit: str) -> MeasureRow:
    """One row; the change is greyed where a radiograph could not show it."""
    unit: str = measure.unit
    difference = change.difference if change is not None else 0.0
    moved = change is not None and abs(difference) >= SMALLEST_SHOWN[measure.unit]
    reference = measure.reference
    mechanical = not measure.readable
    return MeasureRow(
        measure.name,
        headed(measure.label),
        show(value, unit, length_unit),
        show(difference, unit, length_unit, signed=True).split(" ")[0] if moved else "",
        (1 if difference > 0 else -1) if moved else 0,
        bool(change is not None and (change.readable or mechanical)),
        (reference.low, reference.high) if reference is not None else None,
        value,
    )


def rows_for(
    values: Mapping[str, float | None], before: Mapping[str, float | None], which: str, length_unit: str
) -> list[MeasureRow]:
    """Rows of the chosen set, in the table's order."""
    changes = changes_between(before, values)
    rows = []
    for name, measure in MEASURES.items():
        if name not in values:
            continue
        row = row_for(measure, values[name], changes.get(name), length_unit)
        wanted = {
            "main": name in MAIN,
            "all": True,
            "changed": bool(row.change),
            "readable": measure.readable,
        }[which]
        if wanted:
            rows.append(row)
    return rows


def explain_measure(name: str) -> str:
    """Definition, sign and reference range of a measure in a few sentences."""
    measure = MEASURES[name]
    text = f"{measure.definition} {measure.sign}".strip()
    if measure.reference is not None:
        text += (
            f" Reference: {measure.reference.words} [{measure.reference.source}, {measure.reference.status}]."
        )
    if not measure.readable:
        text += " Not to be read on a radiograph."
    return text


class MeasuresPanel:
    """A choice of set, the rows, and the standing reminder of what a side view cannot show."""

    def __init__(self, chosen: Callable[[str], None]) -> None:
        self.which = "main"
        self.choice = DropDown("Show", CHOICES, "main", self._set, titled=False)
        self.list = MeasureList("Measures", chosen)
        self.list.selected = "palmar_angle"
        self.nothing = Label("Nothing differs from the baseline yet.", "italic", "quiet")
        self.grey = Label("Grey: too small a change to be read on a radiograph.", "small", "quiet")
        self.reminder = Label(NOT_IN_A_SAGITTAL_VIEW, "small", "quiet")
        self.panel = ScrollPanel("measures", [self.list, self.nothing, self.grey, self.reminder])
        self.changed: Callable[[], None] = lambda: None
        self._bands: Bands = {}
        self._length_unit = "mm"

    def _set(self, which: str) -> None:
        self.which = which
        self.panel.offset = 0
        self.changed()

    def refresh(
        self,
        values: Mapping[str, float | None],
        before: Mapping[str, float | None],
        length_unit: str,
        bands: Bands | None = None,
    ) -> None:
        """New rows from the numbers now, those compared with, and the bands known for this foot."""
        self._bands, self._length_unit = bands or {}, length_unit
        self.list.rows = [self._with_band(row) for row in rows_for(values, before, self.which, length_unit)]
        self.nothing.visible = not self.list.rows

    def _with_band(self, row: MeasureRow) -> MeasureRow:
        band = self._bands.get(row.key)
        if band is None:
            return row
        words = band_words(band, MEASURES[row.key].unit, self._length_unit)
        return replace(row, band=band, band_words=words)

    def tip(self) -> str:
        """The definition of the row under the pointer, and how uncertain its number is where that is known."""
        name = self.list.pointed
        if not name:
            return ""
        band = self._bands.get(name)
        said = explain_measure(name)
        return f"{said} {band_sentence(band, MEASURES[name].unit, self._length_unit)}" if band else said
