"""What an experiment leaves behind: a tidy table of runs, effects, interactions, and its figures."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.claims.effects import effects, interactions
from hoofsim.claims.evidence.claim import AGAINST, ROTATION
from hoofsim.claims.experiment import Results
from hoofsim.measures import MEASURES, change_is_readable
from hoofsim.measures.references import SMALLEST_READABLE
from hoofsim.plain_text import csv_lines
from hoofsim.reports.claim_figure import Dots, claim_figure
from hoofsim.reports.effect_figures import effect_figure, factor_label
from hoofsim.reports.plot_style import image_bytes
from hoofsim.units import shown_unit

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def column(name: str, words: str = "") -> str:
    """Heading of a measure's column: its name, what is shown of it, and its unit."""
    unit = shown_unit(MEASURES[name].unit)
    return f"{name}{words} ({unit})" if unit else f"{name}{words}"


def runs_csv(results: Results) -> str:
    """One row a run, one column a variable: levels, load, status, every measure; empty where there is no state of
    rest.
    """
    experiment = results.experiment
    options = [factor.options() for factor in experiment.factors]
    # The load case has its own column, which a factor called "load" would repeat under the same name.
    titles = [f"{factor.title} (level)" if factor.title in ("run", "load", "status") else factor.title
              for factor in experiment.factors]  # fmt: skip
    rows: list[Sequence[object]] = [["run", *titles, "load", "status", *(column(name) for name in MEASURES)]]
    for run in range(results.count):
        words = [choices[level].name for choices, level in zip(options, results.levels[run], strict=True)]
        values = (results.measures[name][run] for name in MEASURES)
        cells = ["" if np.isnan(value) else f"{value:.6g}" for value in values]
        rows.append([run + 1, *words, results.loads[run], results.status[run], *cells])
    return csv_lines(rows)


def effects_csv(results: Results) -> str:
    """One row for each measure, factor and level: mean, lowest and highest change from the untouched foot."""
    head = "measure unit factor level runs_at_rest mean_change lowest_change highest_change"
    rows: list[Sequence[object]] = [head.split()]
    for name in results.experiment.measures:
        for effect in effects(results, name):
            columns = (effect.levels, effect.counts, effect.means, effect.lowest, effect.highest)
            for level, count, *values in zip(*columns, strict=True):
                cells = ["" if np.isnan(value) else f"{value:.6g}" for value in values]
                rows.append([name, MEASURES[name].unit, effect.factor, level, int(count), *cells])
    return csv_lines(rows)


def interaction_rows(results: Results) -> list[tuple[str, str, str, float, bool]]:
    """(measure, factor, factor, size in the measure's unit, readable on a radiograph), the table of interactions."""
    return [
        (name, one.first, one.second, one.size, change_is_readable(name, one.size))
        for name in results.experiment.measures
        for one in interactions(results, name)
    ]


def interactions_csv(results: Results) -> str:
    """The table of interactions."""
    head = "measure unit factor other_factor largest_departure_from_sum readable_on_a_radiograph"
    rows: list[Sequence[object]] = [head.split()]
    for name, first, second, size, readable in interaction_rows(results):
        rows.append([name, MEASURES[name].unit, first, second, f"{size:.6g}", "yes" if readable else "no"])
    return csv_lines(rows)


def figures(results: Results) -> dict[str, "Figure"]:
    """Every figure of the experiment by the ending of its file name."""
    drawn = {
        "effects": effect_figure(
            results, results.experiment.question, f"{_rest_note(results)}{SHORT_CAUTION}"
        )
    }
    if results.experiment.claim_plot:
        drawn["claim"] = _claim(results)
    return drawn


def files_of(results: Results, stem: str) -> dict[str, bytes | str]:
    """Name -> content of every file that the experiment leaves behind."""
    files: dict[str, bytes | str] = {
        f"{stem}.csv": runs_csv(results),
        f"{stem}_effects.csv": effects_csv(results),
    }
    if interaction_rows(results):
        files[f"{stem}_interactions.csv"] = interactions_csv(results)
    for ending, figure in figures(results).items():
        files[f"{stem}_{ending}.png"] = image_bytes(figure, "png")
        files[f"{stem}_{ending}.svg"] = image_bytes(figure, "svg")
    return files


def _rest_note(results: Results) -> str:
    """How many runs are not in the figure, and why."""
    notes = []
    lost = results.done - int(results.at_rest.sum())
    if lost:
        notes.append(f"{lost} of {results.count} runs found no state of rest and are not shown. ")
    if results.stopped:
        notes.append(f"Stopped after {results.done} of {results.count} runs. ")
    return "".join(notes)


def _claim(results: Results) -> "Figure":
    """The runs among the accounts' curves, each load case with its own mark."""
    rotation = results.change(ROTATION)
    changes = {name: results.change(name) for name in AGAINST}
    dots = []
    for load in results.baselines:
        mine = results.loads == load
        dots.append(
            Dots(load.replace("_", " "), rotation[mine], {name: y[mine] for name, y in changes.items()})
        )
    first = next(iter(results.baselines.values()))
    note = (
        f"{_rest_note(results)}Each mark is one run of the model, as a change from the untouched foot under the same "
        f"load. Band of each account: {SMALLEST_READABLE:g} mm, the smallest change worth reading. "
        f"Runs are short-term statics: what gives way, grows or heals over days is not in them. {SHORT_CAUTION}"
    )
    errors = dict.fromkeys(AGAINST, SMALLEST_READABLE)
    return claim_figure("Where do the runs fall among the accounts?", first.points, dots, errors, note)


def table_lines(results: Results) -> Sequence[tuple[str, str, str, str, str]]:
    """Rows for the screen: measure, factor, smallest and largest mean change along it, and whether it can be read."""
    rows = []
    for name in results.experiment.measures:
        for factor, effect in zip(results.experiment.factors, effects(results, name), strict=True):
            if np.isfinite(effect.size):
                low, high = np.nanmin(effect.means), np.nanmax(effect.means)
                readable = "" if change_is_readable(name, effect.size) or not MEASURES[name].readable else "·"
                rows.append(
                    (MEASURES[name].label, factor_label(factor), f"{low:+.2f}", f"{high:+.2f}", readable)
                )
    return rows
