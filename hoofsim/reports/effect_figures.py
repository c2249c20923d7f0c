"""Figures of an experiment: what each factor does, lines along one control, and a map over two."""

from textwrap import fill
from typing import TYPE_CHECKING

import numpy as np

from hoofsim.claims.effects import cell_means, effects
from hoofsim.claims.experiment import Results
from hoofsim.drawing.palette import INK
from hoofsim.files.experiment import Factor
from hoofsim.foot.parameters import BY_NAME
from hoofsim.measures import MEASURES
from hoofsim.reports.plot_style import (
    QUIET,
    UNREADABLE,
    axis_label,
    headed,
    new_figure,
    series_look,
    shared_style,
)

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.colors import LinearSegmentedColormap
    from matplotlib.figure import Figure

BAND_NOTE = "Shaded band: a change too small to read on a radiograph (2 deg, 2 mm)."
MAP_NOTE = "A change under 2 deg or 2 mm is too small to read on a radiograph."
_MOST_LINES = 6


def factor_label(factor: Factor) -> str:
    """A control's label and unit, or the factor's own name."""
    if factor.control is None:
        return factor.title
    control = BY_NAME[factor.control]
    return axis_label(control.label.lower(), control.unit or "1")


def effect_figure(results: Results, heading: str, caution: str) -> "Figure":
    """The figure that suits the experiment: a map for a grid, lines along numbers, otherwise dots by level."""
    factors = results.experiment.factors
    readable = any(MEASURES[name].readable for name in results.experiment.measures)
    band, under = (f"{BAND_NOTE} ", f"{MAP_NOTE} ") if readable else ("", "")
    numeric = [index for index, factor in enumerate(factors) if factor.numbers() is not None]
    if results.experiment.design == "grid":
        return _maps(results, heading, under + caution)
    if len(factors) <= 2 and numeric and _enough(factors[numeric[-1]]):
        return _lines(results, numeric[-1], heading, band + caution)
    return _levels(results, heading, band + caution)


def _enough(factor: Factor) -> bool:
    return len(factor.options()) >= 4


def _shape(count: int) -> tuple[int, int, float, float]:
    """Rows, columns, width and height in inches of so many panels."""
    columns = 2 if count == 4 else min(count, 3)
    rows = -(-count // columns)
    return rows, columns, 13.0, 0.9 + (5.6 if rows == 1 else 3.4 * rows)


def _lines(results: Results, along: int, heading: str, note: str) -> "Figure":
    """Change of every measure along one control, one line for each level of the other factor if there is one."""
    experiment = results.experiment
    measures, factor = experiment.measures, experiment.factors[along]
    x = np.array(factor.numbers())
    with shared_style():
        rows, columns, width, height = _shape(len(measures))
        figure, panels = new_figure(width, height, rows, columns)
        for axes, measure in zip(panels, measures, strict=False):
            if len(experiment.factors) == 1:
                _line(axes, x, effects(results, measure)[0].means, "", 0)
            else:
                other = experiment.factors[1 - along]
                cells = cell_means(results, measure, 1 - along, along)
                for index, level in enumerate(other.options()[:_MOST_LINES]):
                    _line(axes, x, cells[index], f"{factor_label(other)}: {level.name}", index)
            _change_axis(axes, measure, vertical=True)
            axes.set_xlabel(factor_label(factor))
        _finish(figure, panels, len(measures), heading, note)
    return figure


def _line(axes: "Axes", x: np.ndarray, y: np.ndarray, label: str, index: int) -> None:
    look = series_look(index)
    every = max(1, len(x) // 8)
    axes.plot(
        x, y, color=look.colour, linestyle=look.line_style, linewidth=2.2, marker=look.marker, markersize=6,
        markevery=every, label=label,
    )  # fmt: skip


def _maps(results: Results, heading: str, note: str) -> "Figure":
    """Change of every measure over two controls, with contours."""
    experiment = results.experiment
    down, across = experiment.factors
    x, y = np.array(across.numbers()), np.array(down.numbers())
    with shared_style():
        rows, columns, width, height = _shape(len(experiment.measures))
        figure, panels = new_figure(width, height, rows, columns)
        for axes, measure in zip(panels, experiment.measures, strict=False):
            cells = np.ma.masked_invalid(cell_means(results, measure, 0, 1))
            limit = max(float(np.ma.max(np.ma.abs(cells))) if cells.count() else 0.0, 1e-9)
            painted = axes.pcolormesh(
                x, y, cells, cmap=_two_sided_colours(), vmin=-limit, vmax=limit, shading="nearest"
            )
            axes.set_facecolor("#8c8c8c")
            if cells.count() == cells.size and float(np.ptp(cells)) > 0.0:
                drawn = axes.contour(x, y, cells, levels=6, colors=INK, linewidths=0.9)
                axes.clabel(drawn, fmt="%g", fontsize=9)
            figure.colorbar(painted, ax=axes, shrink=0.9).set_label(_change_label(measure))
            axes.set_title(MEASURES[measure].label, loc="left", fontsize=11.5)
            axes.set_xlabel(factor_label(across))
            axes.set_ylabel(factor_label(down))
            axes.grid(visible=False)
        lost = "" if results.at_rest.all() else "Grey cells: no state of rest. "
        _finish(figure, panels, len(experiment.measures), heading, lost + note)
    return figure


def _two_sided_colours() -> "LinearSegmentedColormap":
    """Blue for less, white for no change, orange for more; light enough at both ends for dark contours."""
    from matplotlib.colors import LinearSegmentedColormap

    return LinearSegmentedColormap.from_list("change", ["#5d93cc", "#ffffff", "#df9544"])


def _levels(results: Results, heading: str, note: str) -> "Figure":
    """Mean change at every level of every factor as a dot, with the lowest and highest run as a line."""
    experiment = results.experiment
    with shared_style():
        count = len(experiment.measures)
        rows = 1 if count <= 6 else 2
        columns = -(-count // rows)
        lines = sum(len(factor.options()) + 1 for factor in experiment.factors)
        figure, panels = new_figure(15.0, 1.7 + rows * max(0.27 * lines, 3.6), rows, columns, sharey=True)
        for index, (axes, measure) in enumerate(zip(panels, experiment.measures, strict=False)):
            _dots(axes, results, measure, named=index % columns == 0)
        single = experiment.design == "one at a time"
        about = (
            "Dot: the run."
            if single
            else "Dot: mean of all runs at that level; line: from the lowest to the highest run."
        )
        _finish(figure, panels, len(experiment.measures), heading, f"{about} {note}")
    return figure


def _dots(axes: "Axes", results: Results, measure: str, named: bool) -> None:
    height = 0.0
    ticks: list[float] = []
    words: list[str] = []
    heads: list[int] = []
    for number, (factor, effect) in enumerate(
        zip(results.experiment.factors, effects(results, measure), strict=True)
    ):
        look = series_look(number)
        heads.append(len(ticks))
        ticks.append(height)
        words.append(factor_label(factor))
        for level, mean, low, high in zip(
            effect.levels, effect.means, effect.lowest, effect.highest, strict=True
        ):
            height -= 1.0
            ticks.append(height)
            words.append(level)
            axes.plot([low, high], [height, height], color=look.colour, linewidth=2.0, alpha=0.55)
            axes.plot(
                [mean], [height], look.marker, color=look.colour, markersize=7, markeredgecolor="#211c17"
            )
        height -= 1.0
    axes.set_ylim(height + 0.4, 0.8)
    axes.set_yticks(ticks, words, fontsize=9)
    axes.tick_params(axis="y", length=0)
    axes.grid(visible=False, axis="y")
    _change_axis(axes, measure, vertical=False)
    axes.tick_params(axis="y", labelleft=named)
    if named:
        for at in heads:
            axes.get_yticklabels()[at].set_fontweight(600)


def _change_label(measure: str) -> str:
    return axis_label("change", MEASURES[measure].unit)


def _change_axis(axes: "Axes", measure: str, vertical: bool) -> None:
    """Zero line, band of what cannot be read, and labels of the axis that shows the change."""
    smallest = MEASURES[measure].smallest_readable
    axes.set_title(fill(MEASURES[measure].label, 34 if vertical else 20), loc="left", fontsize=11.5)
    if vertical:
        low, high = axes.get_ylim()
        axes.axhline(0.0, color=QUIET, linewidth=0.9)
        if smallest:
            axes.axhspan(-smallest, smallest, color=UNREADABLE, zorder=0)
            axes.set_ylim(min(low, -1.15 * smallest), max(high, 1.15 * smallest))
        axes.set_ylabel(_change_label(measure))
    else:
        low, high = axes.get_xlim()
        axes.axvline(0.0, color=QUIET, linewidth=0.9)
        if smallest:
            axes.axvspan(-smallest, smallest, color=UNREADABLE, zorder=0)
            axes.set_xlim(min(low, -1.15 * smallest), max(high, 1.15 * smallest))
        axes.set_xlabel(_change_label(measure))


def _finish(figure: "Figure", panels: "list[Axes]", used: int, heading: str, note: str) -> None:
    for spare in panels[used:]:
        spare.set_visible(False)
    handles, labels = panels[0].get_legend_handles_labels()
    if labels and labels[0]:
        legend = panels[0].legend(handles, labels, loc="best", fontsize=9.5, frameon=True)
        legend.get_frame().set(linewidth=0, alpha=0.85)
    headed(figure, heading, note)
