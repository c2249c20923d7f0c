"""Putting the sandbox's widgets into the places that `arrange` gives them."""

from typing import TYPE_CHECKING

from hoofsim.app.screens.sandbox.arrange import arrange
from hoofsim.app.screens.sandbox.controls import GROUP_TABS
from hoofsim.app.screens.sandbox.parts import ALL_TABS
from hoofsim.app.screens.sandbox.plots.strip import place_strip
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.layout import inset, split_bottom, split_top
from hoofsim.app.widgets.scroll import ScrollPanel

if TYPE_CHECKING:
    from hoofsim.app.screens.sandbox.screen import SandboxScreen

PRESENTER_STRIP = 2.2
NOTE_LINES = 2  # and one more for an account laid over the foot


def panel_widgets(screen: "SandboxScreen", key: str) -> list[Widget]:
    """The widgets of a panel, from the top."""
    if key == "measures":
        return [screen.measures.choice, screen.measures.panel]
    if key == "curves":
        return [screen.plots.choice, screen.plots.panel]
    if key == "trials":
        return [screen.trials.panel]
    return [screen.controls.panels[key]]


def place_sandbox(screen: "SandboxScreen", theme: Theme, window: Rect) -> list[Widget]:
    """Place everything; the widgets in Tab order."""
    parts = screen.parts
    places = screen.places = arrange(
        theme, window, parts.rail.width(theme), len(ALL_TABS), tall=screen.plots.tall
    )
    screen.wide = "right_tabs" in places
    parts.rail.items = list(GROUP_TABS if screen.wide else ALL_TABS)
    if screen.wide and screen.panel not in screen.controls.panels:
        screen.panel = parts.rail.selected = parts.chooser.value = "trim"
    parts.bar.place(places["bar"], theme)
    widgets: list[Widget] = [parts.bar]
    if "rail" in places:
        parts.rail.place(places["rail"], theme)
        widgets.append(parts.rail)
    else:
        parts.chooser.place(inset(places["chooser"], theme.px(0.7), theme.px(0.5)), theme)
        widgets.append(parts.chooser)
    pad = theme.px(0.9)
    if screen.wide:
        widgets += _place_panel(screen, screen.panel, inset(places["controls"], pad), theme)
        widgets += _place_view(screen, places["foot"], theme)
        parts.right_tabs.place(inset(places["right_tabs"], pad, theme.px(0.35)), theme)
        widgets.append(parts.right_tabs)
        widgets += _place_panel(
            screen, screen.right_panel, inset(places["measures"], pad, theme.px(0.4)), theme
        )
        widgets += place_strip(
            screen.curves, screen.plots, inset(places["curves"], pad, theme.px(0.5)), theme
        )
    else:
        widgets += _place_view(screen, places["foot"], theme)
        widgets += _place_panel(screen, screen.panel, inset(places["panel"], pad), theme)
    return widgets


def place_presenter(screen: "SandboxScreen", theme: Theme, window: Rect) -> list[Widget]:
    """The sheet over the whole window, and a line for the layers."""
    view, strip = split_bottom(window, theme.px(PRESENTER_STRIP))
    screen.places = {"strip": strip}
    screen.view.note_lines = 0 if screen.sheet.named else 1
    screen.view.place(view, theme)
    return [screen.view]


def _place_panel(screen: "SandboxScreen", key: str, rect: Rect, theme: Theme) -> list[Widget]:
    widgets = panel_widgets(screen, key)
    for widget in widgets:
        height = rect.h if isinstance(widget, ScrollPanel) else widget.height_for(rect.w, theme)
        place, rect = split_top(rect, height, theme.px(0.4))
        widget.place(place, theme)
    return widgets


def _place_view(screen: "SandboxScreen", rect: Rect, theme: Theme) -> list[Widget]:
    """Tools in a strip with a hint, the sheet under it."""
    strip, rect = split_top(rect, theme.px(2.9))
    side = theme.px(2.2)
    x = strip.x + theme.px(0.7)
    for button in screen.parts.tools.values():
        button.place(Rect(x, strip.y + theme.px(0.4), side, side), theme)
        x += side + theme.px(0.3)
    rival = screen.parts.rival
    width = rival.width(theme)
    rival.visible = strip.right - x >= width + theme.px(1.4)
    rival.place(Rect(strip.right - theme.px(0.7) - width, strip.y + theme.px(0.4), width, side), theme)
    end = rival.rect.x if rival.visible else strip.right
    screen.places["hint"] = Rect(x + theme.px(0.4), strip.y, max(0, end - x - theme.px(1)), strip.h)
    screen.places["tools"] = strip
    screen.view.note_lines = 0 if screen.sheet.named else NOTE_LINES + screen.sheet.rival.shown
    screen.view.place(rect, theme)
    return [*screen.parts.tools.values(), rival, screen.view]
