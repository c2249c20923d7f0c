"""The comparison as one picture: each row's world as a bar from edge to edge of its spread, the model as a mark on it."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from hoofsim.drawing.palette import INK
from hoofsim.reports.plot_style import QUIET, headed, new_figure, series_look, shared_style
from hoofsim.verify.compare import Comparison
from hoofsim.verify.wording import cited, groups, tally, with_unit, world

if TYPE_CHECKING:
    from matplotlib.figure import Figure

# Beyond this many half-widths a mark is drawn at the edge with an arrow.
FARTHEST = 4.0
ROW_INCHES = 0.27
HOW_TO_LOOK = (
    "Filled mark: predicted; open mark: the model was set by it. Circles are inside, squares outside; a broad bar is the "
    "model's own 90 % band, where it is carried. Values marked as memory, practice or second-hand were not read in a source."
)


def comparison_figure(rows: Sequence[Comparison]) -> "Figure":
    """One line a row; x in half-widths of the published spread, so that -1 and 1 are its edges for every row alike."""
    inside, outside = series_look(0), series_look(1)
    with shared_style():
        figure, (axes,) = new_figure(13.0, 2.0 + ROW_INCHES * (len(rows) + len(groups(rows))), 1, 1)
        axes.axvspan(-1.0, 1.0, color="#e4efe4", zorder=0)
        axes.axvline(0.0, color=QUIET, linewidth=0.8)
        at, ticks = 0.0, []
        for name, members in groups(rows).items():
            axes.text(-FARTHEST - 0.1, at, name, fontweight=600, va="center", ha="left", fontsize=10)
            at -= 1.0
            for row in members:
                _draw(axes, row, at, inside if row.inside else outside)
                ticks.append((at, row))
                at -= 1.0
        axes.set_yticks([place for place, _ in ticks], [row.published.what for _, row in ticks], fontsize=9)
        axes.set_xticks(range(-4, 5), ["≤ −4", "−3", "−2", "edge", "middle", "edge", "2", "3", "≥ 4"])
        axes.set_xlim(-FARTHEST - 0.2, FARTHEST + 4.0)
        axes.set_ylim(at + 0.2, 0.8)
        axes.set_xlabel("model, in half-widths of the published spread (green: inside)")
        axes.grid(axis="y", visible=False)
        headed(figure, "The model against published values", f"{tally(rows)} {HOW_TO_LOOK}")
    return figure


def _draw(axes: object, row: Comparison, at: float, look: object) -> None:
    from matplotlib.axes import Axes

    from hoofsim.reports.plot_style import Look

    assert isinstance(axes, Axes)
    assert isinstance(look, Look)
    axes.plot([-1, 1], [at, at], color=INK, linewidth=1.1, marker="|", markersize=7)
    if row.band is not None:
        ends = [max(-FARTHEST, min(FARTHEST, row.half_widths(end))) for end in row.band]
        axes.plot(ends, [at, at], color=look.colour, linewidth=5.0, alpha=0.35, solid_capstyle="butt")
    place = max(-FARTHEST, min(FARTHEST, row.distance))
    marker = look.marker if place == row.distance else (">" if place > 0 else "<")
    filled = look.colour if row.published.kind == "predicted" else "#ffffff"
    axes.plot(
        place, at, marker=marker, color=look.colour, markerfacecolor=filled, markersize=7.5, linestyle="none"
    )
    one = row.published
    said = f"{with_unit(row.model, one.unit)}   ({world(one)}; {cited(one)})"
    axes.text(FARTHEST + 0.25, at, said, fontsize=8.5, va="center", ha="left")
