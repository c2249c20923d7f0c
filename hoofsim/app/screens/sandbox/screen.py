"""The sandbox screen: wires sitting, controls, sheet and panels together."""

from typing import TYPE_CHECKING, Any

import pygame

from hoofsim.app.foot_picture import bare_picture_of, hidden_parts, picture_of
from hoofsim.app.screens.bar import Bar
from hoofsim.app.screens.sandbox.arrange import arrange
from hoofsim.app.screens.sandbox.controls import GROUP_TABS, Controls
from hoofsim.app.screens.sandbox.curve_panel import CurvePanel
from hoofsim.app.screens.sandbox.dragging import Dragging
from hoofsim.app.screens.sandbox.foot_view import Actions, FootView
from hoofsim.app.screens.sandbox.handles import Handle
from hoofsim.app.screens.sandbox.measures_panel import MeasuresPanel
from hoofsim.app.screens.sandbox.presenter import Presenter, draw_strip
from hoofsim.app.screens.sandbox.shortcuts import sandbox_key
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.app.screens.sandbox.status import draw_no_rest, draw_status
from hoofsim.app.screens.sandbox.told import told
from hoofsim.app.screens.sandbox.trials_panel import TrialsPanel
from hoofsim.app.screens.screen import Screen
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.layout import columns, inset, split_bottom
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.tabs import TabItem, Tabs
from hoofsim.app.widgets.tooltip import Lines
from hoofsim.foot.parameters import BY_NAME
from hoofsim.session.commands import (
    MOVING_CASES,
    ChoosePreset,
    Command,
    RestoreTrial,
    SetBaseline,
    SetControl,
    SetLoad,
)
from hoofsim.units import show

if TYPE_CHECKING:
    from hoofsim.app.application import Application

RIGHT_TABS = (
    TabItem("measures", "Measures", "gauge", "accent", "what is read from the foot, and what changed"),
    TabItem("trials", "Trials", "keep", "accent", "predictions and kept runs"),
)
CURVES_TAB = TabItem("curves", "Curves", "curve", "accent", "a measure over the whole range of a control")
TOOLS = (
    ("hand", "Hand", "H", "drag the handles, move the sheet"),
    ("blade", "Blade", "K", "cut the tendon, or make it whole again"),
    ("brush_away", "Brush laminae away", "B", "drag along the wall"),
    ("brush_back", "Brush laminae back", "N", "drag along the wall"),
)
GHOSTS = ("ground", "capsule", "bone", "none")
NEWTONS_PER_MM = 100.0
HAND_RESTS_AFTER = 0.15  # seconds without a change before the curve is computed
TRACE_EVERY = 0.1


class SandboxScreen(Screen):
    """One foot to play with."""

    name = "sandbox"
    title = "Sandbox"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.session = app.session
        self.presenter = Presenter()
        self.ghost = GHOSTS[0]
        self.names = False
        self.dragging = Dragging(lambda: self.session, self.give)
        self.view = FootView(
            "Foot", Actions(self.dragging.begin, self.dragging.move, self.dragging.tool, self.dragging.end)
        )
        self.view.handle_words = self._handle_words
        unit = app.settings.length_unit
        self.controls = Controls(self.session, self.give, unit)
        self.measures = MeasuresPanel(self._choose_measure)
        self.measures.changed = self._panels_changed
        self.curves = CurvePanel()
        self.trials = TrialsPanel(self.keep_trial, lambda number: self.give(RestoreTrial(number), None))
        self.shown = Shown(self.session, app.settings.reduced_motion)
        self.bar_foot = DropDown(
            "Ready foot", self.controls.preset.choices, "sound", self.choose_preset, titled=False
        )
        self.bar_load = DropDown(
            "Load case", self.controls.load_case.choices, "standing", self._choose_load, titled=False
        )
        self.bar = Bar(self.title, app.back, self._buttons(), (self.bar_foot, self.bar_load))
        self.rail = Tabs("Groups of controls", GROUP_TABS, "trim", self.choose_panel)
        self.right_tabs = Tabs("Panels", RIGHT_TABS, "measures", self.choose_right, upright=False)
        self.all_tabs = (*GROUP_TABS, RIGHT_TABS[0], CURVES_TAB, RIGHT_TABS[1])
        self.chooser = DropDown(
            "Panel", [Choice(t.key, t.words) for t in self.all_tabs], "trim", self.choose_panel
        )
        self.tools = [
            Button(
                words,
                lambda key=key: self.choose_tool(key),  # type: ignore[misc]
                explain,
                icon=key,
                words=False,
                keys=letter,
            )
            for key, words, letter, explain in TOOLS
        ]
        self.panel = "trim"
        self.right_panel = "measures"
        self.places: dict[str, Rect] = {}
        self.wide = True
        self._still = 0.0
        self._since_trace = 0.0
        self._stale = True
        self._lengths = unit
        self.choose_tool("hand")

    def _buttons(self) -> list[Button]:
        app = self.app
        self.undo_button = Button("Undo", self.undo, "", "undo", False, keys="Ctrl Z")
        self.redo_button = Button("Redo", self.redo, "", "redo", False, keys="Ctrl Y")
        self.play_button = Button(
            "Play", self.toggle_play, "the stride, over and over", "play", False, keys="Space"
        )
        self.ghost_button = Button(
            "Ghost",
            self.next_ghost,
            "outline of the baseline, laid upon ground, capsule or bone",
            "ghost",
            False,
            keys="G",
        )
        self.names_button = Button("Names", self.toggle_names, "on the picture", "eye", False, keys="L")
        return [
            self.undo_button,
            self.redo_button,
            self.play_button,
            self.ghost_button,
            self.names_button,
            Button("Baseline", self.set_baseline, "compare from here on", "baseline", keys="M"),
            Button("Keep", lambda: self.keep_trial("", ""), "write a trial into the log", "keep", keys="T"),
            Button(
                "Unchanged foot", self.reset, "back to the ready foot as it was", "reset", False, keys="R"
            ),
            Button("Save", lambda: app.open("files", saving=True), "to a file", "save", False, keys="Ctrl S"),
            Button(
                "Presenter", self.toggle_presenter, "large view for a class", "presenter", False, keys="P"
            ),
            Button("Settings", lambda: app.open("settings"), "", "settings", False, keys="F2"),
            Button("Cautions", lambda: app.open("cautions"), "", "caution", False, keys="F1"),
        ]

    # -- what can be done ----------------------------------------------------------------------------------------

    def give(self, command: Command, gesture: str | None) -> None:
        """Give the sitting a command and let everything follow."""
        self.session.do(command, gesture)
        if isinstance(command, SetControl):
            self.curves.follow(control=command.name)
        self.sitting_changed(at_once=gesture is not None)

    def sitting_changed(self, at_once: bool = False) -> None:
        """Controls, sheet and panels follow the sitting."""
        self.shown.follow(at_once)
        self.curves.due = True
        self._still = 0.0
        self._stale = True

    def undo(self) -> None:
        """Take back the last step."""
        words = self.session.undo_sentence()
        if self.session.undo():
            self.app.say(f"Undone: {words}.")
            self.sitting_changed()

    def redo(self) -> None:
        """Do again what was undone."""
        words = self.session.redo_sentence()
        if self.session.redo():
            self.app.say(f"Done again: {words}.")
            self.sitting_changed()

    def reset(self) -> None:
        """Back to the ready foot, unchanged."""
        self.give(ChoosePreset(self.session.state.foot.preset), None)

    def choose_preset(self, name: str) -> None:
        """Take another ready foot."""
        self.give(ChoosePreset(name), None)
        self.refit()

    def _choose_load(self, case: str) -> None:
        self.give(SetLoad(case), None)

    def set_baseline(self) -> None:
        """Compare with the foot as it is now; with nothing changed since, compare with the unchanged foot again."""
        again = self.session.state.baseline == self.session.state.foot
        self.give(SetBaseline(clear=again), None)
        self.app.say(
            "Compared with the unchanged foot." if again else "From here on changes count from this foot."
        )

    def keep_trial(self, note: str, prediction: str) -> None:
        """Write the present foot into the log."""
        if not self.session.loaded.at_rest:
            self.app.say("This foot finds no state of rest, so there are no numbers to keep.")
            return
        self.session.keep_trial(note, prediction)
        self.app.say(f"Trial {len(self.session.state.trials)} kept.")
        self.sitting_changed()

    def next_ghost(self) -> None:
        """Lay the baseline's outline upon the ground, the capsule, the bone, or leave it away; round and round."""
        self.ghost = GHOSTS[(GHOSTS.index(self.ghost) + 1) % len(GHOSTS)]
        laid = (
            "Ghost hidden." if self.ghost == "none" else f"Ghost of the baseline laid upon the {self.ghost}."
        )
        self.app.say(laid)
        self._stale = True

    def toggle_names(self) -> None:
        """Show or hide the names on the picture."""
        self.names = not self.names
        self.place()
        self.refit()

    def toggle_play(self) -> None:
        """Start or stop the stride."""
        if self.session.state.load.case not in MOVING_CASES:
            self.app.say("Choose walk or trot under Load first: those have a stride to play.")
            return
        self.shown.play(self.shown.stride is None)
        self._stale = True

    def toggle_presenter(self) -> None:
        """Large view for a class, on or off."""
        self.presenter.on = not self.presenter.on
        self.names = self.presenter.on
        self.view.pen = False
        self.place()
        self.refit()

    def choose_tool(self, key: str) -> None:
        """Take a tool."""
        self.view.tool = key
        for (tool, _, _, _), button in zip(TOOLS, self.tools, strict=True):
            button.down = tool == key

    def choose_panel(self, key: str) -> None:
        """Show a panel of the left rail, or of the one dock."""
        self.panel = self.rail.selected = self.chooser.value = key
        self._panels_changed()

    def choose_right(self, key: str) -> None:
        """Show a panel of the right dock."""
        self.right_panel = self.right_tabs.selected = key
        self._panels_changed()

    def _panels_changed(self) -> None:
        self._stale = True
        self.place()

    def _choose_measure(self, name: str) -> None:
        self.curves.follow(measure=name)
        self._still = 0.0
        self._stale = True

    def _handle_words(self, handle: Handle) -> str:
        control = BY_NAME[handle.control]
        return f"{handle.words} {show(self.session.value(handle.control), control.unit, self.app.settings.length_unit)}"

    # -- layout --------------------------------------------------------------------------------------------------

    def panel_widget(self, key: str) -> list[Widget]:
        """The widgets of a panel, from the top."""
        if key == "measures":
            return [self.measures.choice, self.measures.panel]
        if key == "curves":
            return [self.curves.panel]
        if key == "trials":
            return [self.trials.panel]
        return [self.controls.panels[key]]

    def layout(self, theme: Theme, window: Rect) -> None:
        """Place everything for the mode in force."""
        self._bring_up_to_date()
        if self.presenter.on:
            self._layout_presenter(theme, window)
            return
        self.places = arrange(theme, window, self.rail.width(theme), len(self.all_tabs))
        places = self.places
        self.wide = "right_tabs" in places
        self.rail.items = list(GROUP_TABS if self.wide else self.all_tabs)
        if self.wide and self.panel not in self.controls.panels:
            self.panel = self.rail.selected = self.chooser.value = "trim"
        self.bar.place(places["bar"], theme)
        self.widgets = [self.bar]
        if "rail" in places:
            self.rail.place(places["rail"], theme)
            self.widgets.append(self.rail)
        else:
            self.chooser.titled = False
            self.chooser.place(inset(places["chooser"], theme.px(0.7), theme.px(0.5)), theme)
            self.widgets.append(self.chooser)
        pad = theme.px(0.9)
        if self.wide:
            self._place_panel(self.panel, inset(places["controls"], pad), theme)
            self._place_view(places["foot"], theme)
            self.right_tabs.place(inset(places["right_tabs"], pad, theme.px(0.35)), theme)
            self.widgets.append(self.right_tabs)
            self._place_panel(self.right_panel, inset(places["measures"], pad, theme.px(0.4)), theme)
            self._place_curves(inset(places["curves"], pad, theme.px(0.5)), theme)
        else:
            self._place_view(places["foot"], theme)
            self._place_panel(self.panel, inset(places["panel"], pad), theme)
        self.drop_lost_focus()

    def _place_panel(self, key: str, rect: Rect, theme: Theme) -> None:
        for widget in self.panel_widget(key):
            scrolls = isinstance(widget, ScrollPanel)
            height = rect.h if scrolls else widget.height_for(rect.w, theme)
            widget.place(Rect(rect.x, rect.y, rect.w, height), theme)
            rect = Rect(rect.x, rect.y + height + theme.px(0.4), rect.w, rect.h - height - theme.px(0.4))
            self.widgets.append(widget)

    def _place_curves(self, rect: Rect, theme: Theme) -> None:
        """Curve and trace side by side, the choice of control under the curve."""
        left, right = columns(rect, [1.15, 1], theme.px(1))
        plot, choice = split_bottom(left, theme.px(2), theme.px(0.2))
        for widget, place in (
            (self.curves.curve, plot),
            (self.curves.choice, choice),
            (self.curves.trace, right),
        ):
            widget.place(place, theme)
            self.widgets.append(widget)

    def _place_view(self, rect: Rect, theme: Theme) -> None:
        self.view.note_lines = 0 if self.names else 2
        self.view.place(rect, theme)
        self.widgets.append(self.view)
        side = theme.px(2.2)
        for index, button in enumerate(self.tools):
            x = rect.x + theme.px(0.6) + index * (side + theme.px(0.3))
            button.place(Rect(x, rect.y + theme.px(0.6), side, side), theme)
        self.widgets += self.tools
        self.refit(keep_view=True)

    def _layout_presenter(self, theme: Theme, window: Rect) -> None:
        strip = theme.px(2.2)
        self.places = {"strip": Rect(window.x, window.bottom - strip, window.w, strip)}
        self.view.note_lines = 0 if self.presenter.labels else 1
        self.view.place(Rect(window.x, window.y, window.w, window.h - strip), theme)
        self.widgets = [self.view]
        self.refit(keep_view=True)

    def refit(self, keep_view: bool = False) -> None:
        """Fit the sheet to the foot with its words; `keep_view` leaves a view chosen by hand."""
        if keep_view and self.view.moved_view:
            self._stale = True
            return
        self.view.show_all(self._text_pixels(), lambda text_mm: self._picture(text_mm).bounds)
        self._stale = True

    def _text_pixels(self) -> float:
        return self.app.theme.em * (1.4 if self.presenter.on else 0.86)

    # -- what is seen --------------------------------------------------------------------------------------------

    def _picture(self, text_mm: float | None = None) -> Any:
        presenter = self.presenter
        named = presenter.labels if presenter.on else self.names
        options: dict[str, Any] = {
            "text_mm": text_mm or self.view.text_mm(self._text_pixels()),
            "hide": hidden_parts(presenter.hidden) if presenter.on else frozenset(),
            "ghost": self.ghost,
            "forces": not (presenter.on and "9" in presenter.hidden),
            "bonds": not (presenter.on and "6" in presenter.hidden),
            "newtons_per_mm": NEWTONS_PER_MM,
            "note": False,
            "highlight": self.view.pointed_part if self.view.focused and self.focus_shown else None,
            "length_unit": self.app.settings.length_unit,
            "title": None if presenter.on else "",
        }
        baseline = self.shown.baseline if self.shown.baseline.at_rest and self.shown.stride is None else None
        if named:
            self.view.notes = []
            return picture_of(self.shown.foot, baseline, **options)
        picture, self.view.notes = bare_picture_of(self.shown.foot, baseline, **options)
        return picture

    def _bring_up_to_date(self) -> None:
        """Panels, buttons and sheet from the sitting, when anything changed."""
        unit = self.app.settings.length_unit
        if unit != self._lengths:
            self._lengths = unit
            self.controls.set_length_unit(unit)
        self.shown.reduced_motion = self.app.settings.reduced_motion
        self.controls.refresh()
        self.measures.refresh(self.session, unit)
        self.trials.refresh(self.session, self.curves.measure, unit)
        self.curves.refresh(self.session, unit)
        self.bar_foot.value = self.session.state.foot.preset
        self.bar_load.value = self.session.state.load.case
        undo, redo = self.session.undo_sentence(), self.session.redo_sentence()
        self.undo_button.enabled, self.redo_button.enabled = undo is not None, redo is not None
        self.undo_button.explain, self.redo_button.explain = (
            undo or "nothing to undo",
            redo or "nothing to redo",
        )
        playing = self.shown.stride is not None
        self.play_button.icon = "pause" if playing else "play"
        self.play_button.down = playing
        self.ghost_button.down, self.names_button.down = self.ghost != "none", self.names

    def draw(self, surface: pygame.Surface) -> Painter:
        """Bring everything up to date, then draw."""
        if self._stale:
            self._stale = False
            self.place()
            self._stale = False
            self.shown.changed = True
        if self.shown.changed:
            self.shown.changed = False
            self.view.points = self.shown.foot.points
            self.view.hasty = self.shown.moving or self.view.dragging
            self.view.picture = self._picture()
        elif self.view.hasty and not (self.shown.moving or self.view.dragging):
            self.view.hasty = False
        return super().draw(surface)

    def draw_ground(self, painter: Painter) -> None:
        """Docks, status and, in the presenter's view, the line of layers."""
        super().draw_ground(painter)
        theme, places = painter.theme, self.places
        for key in ("controls", "measures", "curves", "panel", "right_tabs", "chooser"):
            if key in places:
                painter.box(places[key], "card", None, 0)
        if "curves" in places:
            painter.line(places["curves"].topleft, places["curves"].topright, "line", theme.hairline)

    def draw_overlay(self, painter: Painter) -> None:
        """What lies over the sheet: the words when no rest is found, the status line."""
        if self.presenter.on:
            draw_strip(painter, self.places["strip"], self.presenter, self.view.pen, self.shown.frozen)
        else:
            draw_status(painter, self.places["status"], self)
        if not self.shown.at_rest:
            draw_no_rest(painter, self.view.rect, self.session.loaded.status)

    def tooltip(self) -> Lines:
        """Structure under the pointer, measure under the pointer, or the widget's own words."""
        widget = self.widget_at(self.pointer)
        if widget is self.view and not self.view.dragging:
            part = self.view.pointed_part
            return told(part, self.session.loaded.measures(), self.app.settings.length_unit) if part else []
        if widget is self.measures.list:
            tip = self.measures.tip()
            return [(tip, "small")] if tip else []
        return super().tooltip()

    # -- time and keys -------------------------------------------------------------------------------------------

    def entered(self) -> None:
        """The sitting may have been changed elsewhere."""
        self.sitting_changed(at_once=True)

    def advance(self, seconds: float) -> None:
        """Move what moves; compute the curve when the hand rests."""
        self.shown.advance(seconds)
        self._still += seconds
        self._since_trace += seconds
        if self._since_trace >= TRACE_EVERY and not self.presenter.on:
            self.curves.record(self.session, self._since_trace)
            self._since_trace = 0.0
        if self.curves.due and self._still >= HAND_RESTS_AFTER and not self.view.dragging:
            self.curves.compute(self.session, self.app.settings.length_unit)
            self._stale = True
        self.animating = self.shown.moving or self.curves.due

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Keys of the sandbox and of the presenter's view."""
        return sandbox_key(self, event)
