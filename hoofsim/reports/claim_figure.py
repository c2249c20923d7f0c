"""The claim plot: tip-to-frog and frog-to-toe against rotation, cases or runs as points over the accounts' curves."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.evidence.claim import AGAINST, ROTATION, Trend
from hoofsim.frames import Array
from hoofsim.measures import MEASURES, Points
from hoofsim.reports.plot_style import (
    QUIET,
    account_look,
    axis_label,
    headed,
    new_figure,
    shared_style,
    spread_labels,
)

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_STEPS = 101
DOT_LOOKS = (
    ("#ffd23f", "o"),
    ("#ffffff", "s"),
    ("#9a948a", "^"),
    ("#211c17", "D"),
    ("#ffffff", "v"),
    ("#ffd23f", "P"),
)
"""Fill and marker of the points, in colours that no account has."""
FURTHEST_DEG, LOWEST_MM, HIGHEST_MM = 26.0, -22.0, 32.0
"""The plot reaches no further than this; points beyond are counted in words."""
_STILL_DEG = 0.5  # accounts that turn the bone in the capsule by less than this are drawn as one spot


@dataclass(frozen=True)
class Dots:
    """Points of one kind: `label` for the legend, changes of rotation `x` and measures `y` (by name), all (N,)."""

    label: str
    x: Array
    y: Mapping[str, Array]
    x_error: Array | None = None
    y_error: Mapping[str, Array] | None = None
    names: Sequence[str] = ()
    """Short words to write beside the points, one each; none when empty."""


def claim_figure(
    title: str,
    baseline: Points,
    dots: Sequence[Dots],
    reading_error: Mapping[str, float],
    note: str,
    trends: Sequence[Trend] = (),
) -> "Figure":
    """Two panels. `baseline`: the foot that the accounts' curves move; `reading_error`: half-width of the curves'
    bands, mm.
    """
    with shared_style():
        figure, panels = new_figure(13.0, 6.4, 1, 2)
        reach = _reach(dots)
        for axes, measure in zip(panels, AGAINST, strict=True):
            _panel(axes, measure, baseline, dots, reading_error[measure], reach)
            for one in trends:
                if one.measure == measure:
                    _trend(axes, one, reach)
        handles, labels = panels[0].get_legend_handles_labels()
        figure.legend(handles, labels, loc="outside upper right", ncols=min(len(labels), 4), fontsize=9.5)
        headed(figure, title, note)
    return figure


def _reach(dots: Sequence[Dots]) -> tuple[float, float]:
    """Range of rotation shown: all points, and at least -2 to 12 degrees."""
    every = np.concatenate([one.x[np.isfinite(one.x)] for one in dots] or [np.zeros(1)])
    low, high = (float(every.min()), float(every.max())) if every.size else (0.0, 0.0)
    return max(min(-2.0, low - 1.0), -FURTHEST_DEG), min(max(12.0, high + 1.0), FURTHEST_DEG)


def _panel(
    axes: "Axes",
    measure: str,
    baseline: Points,
    dots: Sequence[Dots],
    error: float,
    reach: tuple[float, float],
) -> None:
    seen = [one.y[measure][np.isfinite(one.y[measure])] for one in dots]
    heights = np.concatenate([*seen, np.zeros(1)])
    ends: list[tuple[str, float, float]] = []
    still = []
    for name, account in ACCOUNTS.items():
        change = account.predict_change(baseline, np.linspace(account.low, account.high, _STEPS))
        if measure not in change or ROTATION not in change:
            continue
        x, y = change[ROTATION], change[measure]
        if np.ptp(x) < _STILL_DEG:
            still.append(account.label)
            continue
        look, shown = account_look(name), x <= reach[1]
        axes.fill_between(
            x[shown], y[shown] - error, y[shown] + error, color=look.colour, alpha=0.13, linewidth=0
        )
        axes.plot(x[shown], y[shown], color=look.colour, linestyle=look.line_style, linewidth=2.0)
        ends.append((name, float(x[shown][-1]), float(y[shown][-1])))
    low, high = float(heights.min()), float(heights.max())
    curves = [y for _, _, y in ends]
    bottom, top = min(low, *curves, -4.0) - 2.5, max(high, min(max(curves), 16.0), 4.0) + 2.5
    axes.set_ylim(max(bottom, LOWEST_MM), min(top, HIGHEST_MM))
    axes.set_xlim(*reach)
    _name_curves(axes, ends)
    if still:
        axes.plot([0.0], [0.0], marker="+", markersize=15, color=QUIET, markeredgewidth=1.6)
        axes.annotate(
            " and ".join(still) + "\nstay at this spot", (0.0, 0.0), (0.03, 0.03), textcoords="axes fraction",
            fontsize=9, color=QUIET, ha="left", va="bottom", zorder=6,
            bbox={"facecolor": "#ffffff", "edgecolor": "none", "alpha": 0.8, "pad": 1.0},
            arrowprops={"arrowstyle": "->", "color": QUIET, "shrinkB": 7, "relpos": (0.3, 1.0)},
        )  # fmt: skip
    for index, one in enumerate(dots):
        _dots(axes, one, measure, index)
    outside = sum(_outside(axes, one, measure) for one in dots)
    if outside:
        words = f"{outside} point{'s' if outside > 1 else ''} lie{'' if outside > 1 else 's'} outside"
        axes.text(0.98, 0.98, words, transform=axes.transAxes, ha="right", va="top", fontsize=9, color=QUIET)
    axes.set_xlabel("change of capsular rotation (deg)")
    axes.set_ylabel("change of " + axis_label(MEASURES[measure].label.split(",")[0], "mm"))
    axes.axhline(0.0, color=QUIET, linewidth=0.8)
    axes.axvline(0.0, color=QUIET, linewidth=0.8)


def _outside(axes: "Axes", one: Dots, measure: str) -> int:
    """How many points of one kind the panel is too small for."""
    (left, right), (bottom, top) = axes.get_xlim(), axes.get_ylim()
    known = np.isfinite(one.x) & np.isfinite(one.y[measure])
    x, y = one.x[known], one.y[measure][known]
    return int(np.sum((x < left) | (x > right) | (y < bottom) | (y > top)))


def _name_curves(axes: "Axes", ends: Sequence[tuple[str, float, float]]) -> None:
    """Each account's word at the right end of its curve, or where the curve leaves the panel at the top."""
    low, high = axes.get_ylim()
    gap = 0.055 * (high - low)
    wanted = [float(np.clip(y, low + gap, high - gap)) for _, _, y in ends]
    for (name, _, y), height in zip(ends, spread_labels(wanted, gap), strict=True):
        out = " (off the top)" if y > high else ""
        axes.annotate(
            ACCOUNTS[name].label + out, (1.0, height), xycoords=("axes fraction", "data"), xytext=(4, 0),
            textcoords="offset points", color=account_look(name).colour, fontsize=10, fontweight=600, va="center",
            annotation_clip=False,
        )  # fmt: skip


def _dots(axes: "Axes", one: Dots, measure: str, index: int) -> None:
    fill, marker = DOT_LOOKS[index % len(DOT_LOOKS)]
    if one.x_error is not None and one.y_error is not None:
        axes.errorbar(
            one.x, one.y[measure], xerr=one.x_error, yerr=one.y_error[measure], fmt="none", ecolor=QUIET,
            elinewidth=0.7, alpha=0.55,
        )  # fmt: skip
    axes.scatter(
        one.x, one.y[measure], marker=marker, s=38, facecolor=fill,
        edgecolor="#211c17", linewidth=0.7, label=one.label, zorder=5,
    )  # fmt: skip

    for name, x, y in zip(one.names, one.x, one.y[measure], strict=False):
        axes.annotate(
            name, (x, y), (5, 4), textcoords="offset points", fontsize=8.5, zorder=6, annotation_clip=True
        )


def _trend(axes: "Axes", one: Trend, reach: tuple[float, float]) -> None:
    if one.line is None:
        return
    x = np.linspace(max(reach[0], float(one.x.min())), min(reach[1], float(one.x.max())), 60)
    low, high = one.line.band(x)
    axes.fill_between(
        x, low, high, color="#211c17", alpha=0.16, linewidth=0, label="95 % band of the cases' line"
    )
    axes.plot(
        x,
        one.line.intercept + one.line.slope * x,
        color="#211c17",
        linewidth=2.4,
        label="line through the cases",
    )
