"""The trial log on paper: a tidy table of kept runs, and a one-page report with figures, sources and cautions."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.claims.evidence.claim import AGAINST, ROTATION
from hoofsim.claims.population import sound_points
from hoofsim.foot.parameters import setting_words
from hoofsim.foot.presets import PRESETS
from hoofsim.measures import MEASURES, change_is_readable
from hoofsim.measures.references import SMALLEST_READABLE
from hoofsim.mechanics.loads import CASES
from hoofsim.plain_text import csv_lines
from hoofsim.reports.claim_figure import Dots, claim_figure
from hoofsim.reports.html_page import html
from hoofsim.reports.page import Bullets, Page, PagePicture, PageTable, Paragraph, Section, closing_sections
from hoofsim.reports.pdf_page import pdf
from hoofsim.reports.plot_style import image_bytes
from hoofsim.units import show_number

SHOWN = ("capsular_rotation", "palmar_angle", "tip_to_frog", "frog_to_toe", "sole_depth_tip", "founder_distance",
         "tendon_tension", "laminar_stress_peak")  # fmt: skip
TRIAL_FIGURE_WORDS = (
    "The trials among the rival accounts: tip-to-frog and frog-to-toe against capsular rotation."
)


@dataclass(frozen=True)
class TrialRow:
    """One kept run as the report needs it. `results` and `before`: measure -> value; `before` is the unchanged foot's."""

    number: int
    preset: str
    changes: Mapping[str, float]
    load: str
    stance_percent: float | None
    note: str
    prediction: str
    results: Mapping[str, float]
    before: Mapping[str, float | None]

    @property
    def settings(self) -> str:
        """Foot, changes and load in words."""
        changed = [setting_words(name, value) for name, value in self.changes.items()]
        moment = "" if self.stance_percent is None else f" at {self.stance_percent:g} % of stance"
        words = [PRESETS[self.preset].label, *changed, CASES[self.load].label.lower() + moment]
        return ", ".join(words)

    def change(self, name: str) -> float | None:
        """Change of a measure from the unchanged foot, None where either is not defined."""
        before = self.before.get(name)
        return None if name not in self.results or before is None else self.results[name] - before


def trials_csv(trials: Sequence[TrialRow]) -> str:
    """One row a trial: settings, prediction, note, then every measure and its change."""
    controls = sorted({name for trial in trials for name in trial.changes})
    columns = [
        column for name in MEASURES for column in (f"{name} ({MEASURES[name].unit})", f"{name} change")
    ]
    head = ["trial", "foot", "load", "stance_percent", *controls, "prediction", "note", *columns]
    rows: list[Sequence[object]] = [head]
    for trial in trials:
        stance = "" if trial.stance_percent is None else f"{trial.stance_percent:g}"
        settings = [f"{trial.changes[name]:g}" if name in trial.changes else "" for name in controls]
        cells = []
        for name in MEASURES:
            change = trial.change(name)
            cells += [_cell(trial.results.get(name)), _cell(change)]
        text = [trial.prediction, trial.note]
        rows.append([trial.number, trial.preset, trial.load, stance, *settings, *text, *cells])
    return csv_lines(rows)


def _cell(value: float | None) -> str:
    return "" if value is None else f"{value:.6g}"


def trials_page(trials: Sequence[TrialRow], title: str) -> Page:
    """The one-page report."""
    blocks: list[PagePicture | PageTable] = []
    figure = _figure(trials)
    if figure is not None:
        blocks.append(PagePicture(figure, TRIAL_FIGURE_WORDS))
    blocks.append(_table(trials))
    told = [
        f"Trial {trial.number}: {trial.settings}."
        + (f" Predicted: {trial.prediction}." if trial.prediction else " No prediction was written down.")
        + (f" Note: {trial.note}." if trial.note else "")
        for trial in trials
    ]
    used = [name for name in SHOWN if any(name in trial.results for trial in trials)]
    count = len(trials)
    opening = f"{count} trial{'' if count == 1 else 's'} of the model, in the order in which they were kept."
    return Page(
        title,
        [
            Section("Trials", [Paragraph(opening), Bullets(told)]),
            Section("What was read", blocks),
            *closing_sections(used),
        ],
    )


def _table(trials: Sequence[TrialRow]) -> PageTable:
    rows = []
    for trial in trials:
        cells = []
        for name in SHOWN:
            value, change = trial.results.get(name), trial.change(name)
            text = "" if value is None else show_number(value, MEASURES[name].unit)
            if value is not None and change is not None:
                small = MEASURES[name].readable and not change_is_readable(name, change)
                text += f" ({show_number(change, MEASURES[name].unit, signed=True)}{'·' if small else ''})"
            cells.append(text)
        rows.append([str(trial.number), *cells])
    head = ["trial", *(f"{MEASURES[name].label} ({MEASURES[name].unit})" for name in SHOWN)]
    caption = "In brackets the change from the unchanged foot under the same load; · too small to read on a radiograph."
    return PageTable(caption, head, rows, tuple(range(1, len(head))))


def _figure(trials: Sequence[TrialRow]) -> bytes | None:
    """The claim plot of the trials that have all it needs; None when none has."""
    needed = (ROTATION, *AGAINST)
    whole = [trial for trial in trials if all(trial.change(name) is not None for name in needed)]
    if not whole:
        return None
    change = {name: np.array([trial.change(name) for trial in whole], dtype=float) for name in needed}
    names = [str(trial.number) for trial in whole]
    dots = Dots("trial, by number", change[ROTATION], {name: change[name] for name in AGAINST}, names=names)
    note = (
        "Each mark is one trial's change from the unchanged foot under the same load. Band of each account: "
        f"{SMALLEST_READABLE:g} mm, the smallest change worth reading. {SHORT_CAUTION}"
    )
    errors = dict.fromkeys(AGAINST, SMALLEST_READABLE)
    return image_bytes(
        claim_figure("Where do the trials fall among the accounts?", sound_points(), [dots], errors, note)
    )


def files_of(trials: Sequence[TrialRow], stem: str, title: str) -> dict[str, bytes | str]:
    """Name -> content of every file that the log leaves behind."""
    page = trials_page(trials, title)
    return {f"{stem}.csv": trials_csv(trials), f"{stem}.html": html(page), f"{stem}.pdf": pdf(page)}
