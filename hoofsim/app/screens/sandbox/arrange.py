"""Where the parts of the sandbox go, as one pure function of theme and window."""

from hoofsim.app.screens.bar import HEIGHT as BAR
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.layout import split_bottom, split_left, split_right, split_top

WIDE_FROM = 76.0  # text sizes: room for a dock on either side of the foot
STATUS = 2.1
RAIL_TAB = 3.6  # height of one upright tab
GAP = 0.5


def arrange(theme: Theme, window: Rect, rail: int, tabs: int, tall: bool = False) -> dict[str, Rect]:
    """Rectangles of the sandbox.

    `rail` is the width of the upright tabs and `tabs` how many stand there when there is one dock only. Wide: bar,
    left rail and controls, foot over the curves, right dock with measures, status. Otherwise one dock on the right holds
    every panel; `rail` is missing when its tabs are too many for the height, and `chooser` stands over the panel then.
    `tall` gives the strip of curves more height.
    """
    gap = theme.px(GAP)
    places: dict[str, Rect] = {}
    places["bar"], rest = split_top(window, theme.px(BAR))
    rest, places["status"] = split_bottom(rest, theme.px(STATUS))
    if window.w / theme.em >= WIDE_FROM:
        left, rest = split_left(rest, rail + theme.px(17.5))
        centre, right = split_right(rest, theme.px(19))
        most, share = (19.0, 0.4) if tall else (15.5, 0.3)
        strip = min(theme.px(most), max(theme.px(11.5), round(centre.h * share)))
        places["foot"], places["curves"] = split_bottom(centre, strip)
        places["rail"], places["controls"] = split_left(left, rail)
        places["right_tabs"], places["measures"] = split_top(right, theme.px(2.9))
        places["rail"] = Rect(places["rail"].x, left.y + gap, rail, left.h - gap)
        return places
    dock = min(theme.px(21), round(window.w * 0.5))
    upright = rest.h >= theme.px(RAIL_TAB) * tabs + gap
    if upright:
        dock += rail
    if window.h > window.w:
        places["foot"], right = split_bottom(rest, round(rest.h * 0.5))
        upright = upright and right.h >= theme.px(RAIL_TAB) * tabs + gap
    else:
        places["foot"], right = split_right(rest, dock)
    if upright:
        places["rail"], places["panel"] = split_left(right, rail)
        places["rail"] = Rect(places["rail"].x, right.y + gap, rail, right.h - gap)
    else:
        places["chooser"], places["panel"] = split_top(right, theme.px(3.1))
    return places
