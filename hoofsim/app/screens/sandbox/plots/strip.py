"""The strip under the foot: the curve and one plot beside it, or the plots of a choice that needs the whole width."""

from hoofsim.app.screens.sandbox.curve_panel import CurvePanel
from hoofsim.app.screens.sandbox.plots.live_plots import LivePlots
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget, walk
from hoofsim.app.widgets.layout import columns, split_bottom

FIELD = 2.0  # height of a drop-down in text sizes


def place_strip(curves: CurvePanel, plots: LivePlots, rect: Rect, theme: Theme) -> list[Widget]:
    """Place them; the widgets in Tab order. The choice of plot stands at the right, at the foot of the strip."""
    gap, field, air = theme.px(1), theme.px(FIELD), theme.px(0.2)
    beside, chosen = list(plots.beside_curve), plots.chosen
    placed: list[Widget]
    if beside or chosen is None:
        left, right = columns(rect, [1.15, 1], gap)
        plot, field_left = split_bottom(left, field, air)
        other, field_right = split_bottom(right, field, air)
        placed = [curves.curve, curves.choice, *beside, plots.choice]
        rects = [plot, field_left, other, field_right]
    elif len(chosen.told) > 1:
        both, last = columns(rect, [1.9, 1], gap)
        key = chosen.told[0]
        both, under = split_bottom(both, key.height_for(both.w, theme), air)
        words, field_right = split_bottom(last, field, theme.px(0.5))
        placed = [*chosen.plots, key, plots.words, plots.choice]
        rects = [*columns(both, [1, 1], gap), under, words, field_right]
    else:
        left, right = columns(rect, [1, 1], gap)
        plot, note = split_bottom(left, field, air)
        other, field_right = split_bottom(right, field, air)
        first_plot, second_plot = chosen.plots
        placed = [first_plot, *chosen.told, second_plot, plots.choice]
        rects = [plot, note, other, field_right]
    for widget in walk(placed):
        widget.clip = None  # it may have stood in a scrolling panel before
    for widget, place in zip(placed, rects, strict=True):
        widget.place(place, theme)
    return placed
