"""Where the two feet, the plot under them and the dock go."""

from typing import TYPE_CHECKING

from hoofsim.app.screens.bar import HEIGHT
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.layout import columns, inset, split_bottom, split_right, split_top

if TYPE_CHECKING:
    from hoofsim.app.screens.pair.screen import PairScreen

DOCK = 20.0
SIDE_BY_SIDE_FROM = 40.0  # text sizes
TITLE, GAP = 2.2, 0.6
PLOT, PLOT_FROM = 13.0, 34.0  # height of the strip, and the height that both need


def place_pair(screen: "PairScreen", theme: Theme, window: Rect) -> list[Widget]:
    """Place everything; the widgets in Tab order.

    Side by side with a plot under them where there is room, else one over the other with the plot in the dock.
    """
    gap = theme.px(GAP)
    bar, rest = split_top(window, theme.px(HEIGHT))
    feet, dock = split_right(rest, min(theme.px(DOCK), rest.w // 2))
    area = inset(feet, gap)
    beside = area.w > theme.px(SIDE_BY_SIDE_FROM)
    places = {"dock": dock}
    strip = beside and area.h >= theme.px(PLOT_FROM)
    if strip:
        area, places["plot"] = split_bottom(area, theme.px(PLOT))
        area = Rect(area.x, area.y, area.w, area.h - gap)
    if beside:
        places["left"], places["right"] = columns(area, [1, 1], gap)
    else:
        half = (area.h - gap) // 2
        places["left"] = Rect(area.x, area.y, area.w, half)
        places["right"] = Rect(area.x, area.bottom - half, area.w, half)
    for side, view in screen.views.items():
        title, below = split_top(places[side], theme.px(TITLE))
        places[f"{side} title"] = inset(title, theme.px(0.8), 0)
        view.note_lines = 3 if beside else 0
        view.place(inset(below, theme.px(0.2)), theme)
    screen.places = places
    screen.dock.bar.place(bar, theme)
    screen.dock.show_plot(None if strip else screen.plot.plot)
    screen.dock.panel.place(inset(dock, theme.px(0.9)), theme)
    widgets: list[Widget] = [screen.dock.bar, *screen.views.values(), screen.dock.panel]
    if strip:
        screen.plot.plot.place(inset(places["plot"], theme.px(0.8), theme.px(0.4)), theme)
        widgets.insert(3, screen.plot.plot)
    return widgets
