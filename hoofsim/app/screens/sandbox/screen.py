"""The sandbox screen: wires sitting, controls, sheet and panels together."""

from collections.abc import Callable
from typing import TYPE_CHECKING

import pygame

from hoofsim.app.pace import HAND_RESTS_AFTER, STEPS_A_PICTURE
from hoofsim.app.screens.sandbox.controls import Controls
from hoofsim.app.screens.sandbox.curve_panel import CurvePanel
from hoofsim.app.screens.sandbox.dragging import Dragging
from hoofsim.app.screens.sandbox.foot_view import Actions, FootView
from hoofsim.app.screens.sandbox.handles import Handle
from hoofsim.app.screens.sandbox.measures_panel import MeasuresPanel
from hoofsim.app.screens.sandbox.parts import make_parts, refresh_buttons
from hoofsim.app.screens.sandbox.placing import place_presenter, place_sandbox
from hoofsim.app.screens.sandbox.plots.live_plots import LivePlots
from hoofsim.app.screens.sandbox.presenter import Presenter
from hoofsim.app.screens.sandbox.sheet import Sheet
from hoofsim.app.screens.sandbox.shortcuts import sandbox_key
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.app.screens.sandbox.status import draw_no_rest
from hoofsim.app.screens.sandbox.steps import refresh_steps
from hoofsim.app.screens.sandbox.surround import Surround
from hoofsim.app.screens.sandbox.told import told
from hoofsim.app.screens.sandbox.trials_panel import TrialsPanel
from hoofsim.app.screens.sandbox.uncertain import bands_for
from hoofsim.app.screens.screen import Screen
from hoofsim.app.slow_motion import PACES
from hoofsim.app.theme import Theme
from hoofsim.app.turns import Turns
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.tooltip import Lines
from hoofsim.errors import BadInput
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

TRACE_EVERY = 0.1


class SandboxScreen(Screen):
    """One foot to play with."""

    name = "sandbox"
    title = "Sandbox"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.session = app.session
        unit = app.settings.length_unit
        self.dragging = Dragging(lambda: self.session, self.give)
        hand = self.dragging
        self.shown = Shown(self.session, app.settings.reduced_motion)
        hold = (self.shown.grab, self.shown.pull, self.shown.release)
        self.view = FootView("Foot", Actions(hand.begin, hand.move, hand.tool, hand.end, *hold))
        self.view.handle_words, self.view.say = self._handle_words, app.say
        self.view.keys_hold = True
        self.view.paints_later = True
        self.presenter = Presenter()
        self.sheet = Sheet(app, self.view, self.shown, self.presenter)
        self.controls = Controls(self.session, self.give, unit, self.set_pace)
        self.measures = MeasuresPanel(self._choose_measure)
        self.measures.changed = self._panels_changed
        self.curves = CurvePanel()
        self.plots = LivePlots(self.curves, self._panels_changed)
        self.trials = TrialsPanel(self.keep_trial, lambda number: self.give(RestoreTrial(number), None))
        self.parts = make_parts(self)
        self.panel, self.right_panel = "trim", "measures"
        self.places: dict[str, Rect] = {}
        self.wide = True
        self._still = 0.0
        self._since_trace = 0.0
        self._stale = True
        self._numbers_due = False
        self._steps = 0
        self.surround = Surround(self)
        self.turns = Turns(lambda: app.clock())
        self._lengths = unit
        self.choose_tool("hand")

    # -- what can be done ----------------------------------------------------------------------------------------

    def give(self, command: Command, gesture: str | None) -> None:
        """Give the sitting a command and let everything follow."""
        try:
            self.session.do(command, gesture)
        except BadInput as problem:  # each value is allowed, and together they make no foot
            self.app.say(f"Not done: {problem}.")
            self._stale = True
            return
        if isinstance(command, SetControl):
            self.curves.follow(control=command.name)
        self.sitting_changed(at_once=gesture is not None)

    def sitting_changed(self, at_once: bool = False) -> None:
        """Controls, sheet and panels follow the sitting."""
        self.shown.follow(at_once)
        self.curves.due = True
        self.plots.follow()
        self._still = 0.0
        self._stale = True

    def reset(self) -> None:
        """Back to the ready foot, unchanged."""
        self.give(ChoosePreset(self.session.state.foot.preset), None)

    def choose_preset(self, name: str) -> None:
        """Take another ready foot."""
        self.give(ChoosePreset(name), None)
        self.refit()

    def choose_load(self, case: str) -> None:
        """Take another load."""
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
        self.sheet.next_ghost()
        ghost = self.sheet.ghost
        self.app.say("Ghost hidden." if ghost == "none" else f"Ghost of the baseline laid upon the {ghost}.")
        self._stale = True

    def choose_rival(self, name: str) -> None:
        """Lay a rival account's outline over the foot, or leave it away."""
        self.sheet.rival.name = self.parts.rival.value = name
        words = self.sheet.rival.words(self.session, self.app.settings.length_unit)
        self.app.say(words or "No account is laid over the foot.")
        self.place()
        if self.sheet.outgrown():
            self.sheet.fit()
        self._stale = True

    def next_rival(self) -> None:
        """The next account, round and round."""
        self.sheet.rival.next()
        self.choose_rival(self.sheet.rival.name)

    def toggle_names(self) -> None:
        """Show or hide the names on the picture."""
        self.sheet.names = not self.sheet.names
        self.refit()

    def toggle_play(self) -> None:
        """Start the stride, or stop it at the moment it has reached; one stopped in the air goes back to where it began."""
        case = self.session.state.load.case
        if case not in MOVING_CASES:
            self.app.say("Choose walk or trot under Load first: those have a stride to play.")
            return
        moment = self.shown.stance_percent() if self.shown.playing else None
        self.shown.play(not self.shown.playing)
        if moment is not None:
            self.give(SetLoad(case, round(moment, 1)), None)
        self._stale = True

    def set_pace(self, pace: float) -> None:
        """Show strides and changes at so many times life's pace."""
        self.shown.set_pace(pace)
        self.controls.pace.value = str(pace)
        self.app.say(f"{PACES[pace]}.")
        self._stale = True

    def toggle_presenter(self) -> None:
        """Large view for a class, on or off."""
        self.presenter.on = not self.presenter.on
        self.view.pen = False
        self.view.spot = self.presenter.on
        self.refit()

    def choose_tool(self, key: str) -> None:
        """Take a tool."""
        self.view.tool = key
        for tool, button in self.parts.tools.items():
            button.down = tool == key

    def choose_panel(self, key: str) -> None:
        """Show a panel of the left rail, or of the one dock."""
        self.panel = self.parts.rail.selected = self.parts.chooser.value = key
        self._panels_changed()

    def choose_right(self, key: str) -> None:
        """Show a panel of the right dock."""
        self.right_panel = self.parts.right_tabs.selected = key
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

    # -- layout and drawing --------------------------------------------------------------------------------------

    def layout(self, theme: Theme, window: Rect) -> None:
        """Place everything for the view in force."""
        self._bring_up_to_date()
        place = place_presenter if self.presenter.on else place_sandbox
        self.widgets = place(self, theme, window)
        self.sheet.fit(keep_view=True)
        self.surround.forget()
        self.drop_lost_focus()

    def refit(self) -> None:
        """Show the whole foot as large as can be."""
        self.place()
        self.sheet.fit()
        self._stale = True

    def _bring_up_to_date(self) -> None:
        """Panels, buttons and sheet from the sitting, when anything changed."""
        unit = self.app.settings.length_unit
        if unit != self._lengths:
            self._lengths = unit
            self.controls.set_length_unit(unit)
        self.shown.reduced_motion = self.app.settings.reduced_motion
        self.controls.refresh()
        self._refresh_numbers()
        self.trials.refresh(self.session, self.curves.measure, unit)
        self.parts.foot.value = self.session.state.foot.preset
        self.parts.load.value = self.session.state.load.case
        refresh_buttons(self)

    def _refresh_numbers(self) -> None:
        unit = self.app.settings.length_unit
        bands = bands_for(self.session.state) if self.shown.scene is None else {}
        self.measures.refresh(self.shown.values(), self.shown.values_before(), unit, bands)
        self.curves.refresh(self.session, unit)
        self.plots.refresh(self.session, self.shown, unit)

    def draw(self, surface: pygame.Surface) -> Painter:
        """Bring up to date what is due, all of it unless the application is in a hurry; then draw."""
        self.sheet.highlight = self.view.pointed_part if self.view.focused and self.focus_shown else None
        if not (self.shown.moving or self.following):
            self.view.hasty = False
        until = self.app.draw_until
        if until is None or not self.surround.fits(surface):
            self.surround.forget()
            self._renew_panels(surface)
            if self._picture_old:
                self._renew_picture()
            self.view.paint(self.app.theme)
            self.behind = False
        else:
            waits = self.turns.take(self._due(surface), until)
            self.behind = waits or (self._picture_old and not self.shown.moving)
        painter = Painter(surface, self.app.theme)
        self.surround.onto(painter)
        self.view.draw(painter)
        if not self.shown.at_rest:
            draw_no_rest(painter, self.view.rect, self.session.loaded.status)
        self.draw_over(painter)
        return painter

    def _due(self, surface: pygame.Surface) -> dict[str, Callable[[], None]]:
        """What is to be done before this frame is as it should be."""
        due: dict[str, Callable[[], None]] = {}
        if self._picture_old and (not self.shown.moving or self._steps >= STEPS_A_PICTURE):
            due["picture"] = self._renew_picture
        if due or not self.view.painted(self.app.theme):
            due["paint"] = lambda: self.view.paint(self.app.theme)
        if self._stale or self._numbers_due or self.surround.forgotten or self.surround.status_changed:
            due["panels"] = lambda: self._renew_panels(surface)
        return due

    @property
    def _picture_old(self) -> bool:
        return self.shown.changed or self.sheet.choices() != self.sheet.look

    def _renew_picture(self) -> None:
        self.shown.changed, self._steps = False, 0
        self.sheet.refresh(self.following)
        scene = self.shown.scene
        self.view.hand = scene.hand if scene is not None else None

    def _renew_panels(self, surface: pygame.Surface) -> None:
        if self._stale:
            self._stale = False
            self.place()
            self._stale = False
        elif self._numbers_due:
            rows = [row.key for row in self.measures.list.rows]
            self._refresh_numbers()
            if rows != [row.key for row in self.measures.list.rows]:
                self.place()
        self._numbers_due = False
        self.surround.renew(surface)

    def draw_ground(self, painter: Painter) -> None:
        """The grounds of the docks and of the tools."""
        super().draw_ground(painter)
        theme, places = painter.theme, self.places
        for key in ("controls", "measures", "curves", "panel", "right_tabs", "chooser", "tools"):
            if key in places:
                painter.box(places[key], "card", None, 0)
        if "curves" in places:
            painter.line(places["curves"].topleft, places["curves"].topright, "line", theme.hairline)

    def tooltip(self) -> Lines:
        """Structure under the pointer, measure under the pointer, or the widget's own words."""
        widget = self.widget_at(self.pointer)
        if widget is self.view and not self.view.dragging:
            part = self.view.pointed_part
            unit = self.app.settings.length_unit
            return told(part, self.shown.values(), unit, can_hold=True) if part else []
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
        self._steps += 1
        self.shown.advance(seconds)
        if self.view.holding and self.shown.held is None:  # whatever else was done took it out of the hand
            self.view.let_go()
        self._still += seconds
        self._since_trace += seconds
        if self._since_trace >= TRACE_EVERY and not self.presenter.on:
            self.curves.record(self.shown.values().get(self.curves.measure), self._since_trace)
            self._since_trace = 0.0
            self._numbers_due = self._numbers_due or self.shown.scene is not None
            self._stale = refresh_steps(self) or self._stale  # a pull may have torn bonds by now
        if self.curves.due and self._still >= HAND_RESTS_AFTER and not self.view.dragging:
            self.curves.compute(self.session, self.app.settings.length_unit)
            self._stale = True
            if self.shown.scene is None and self.sheet.outgrown():
                self.sheet.fit()
        elif not self.view.dragging and not self.presenter.on and self.plots.work(self.session, seconds):
            self._stale = True
        self.animating = self.shown.moving or self.curves.due or self.plots.working

    def handle(self, event: pygame.event.Event) -> bool:
        """As every screen; what the pointer does on the sheet leaves all round it as it is."""
        quiet = event.type == pygame.MOUSEMOTION and self._on_sheet
        used = super().handle(event)
        if not (quiet and self._on_sheet):
            self.surround.forget()
        return used

    @property
    def _on_sheet(self) -> bool:
        """Whether only the sheet knows of the pointer."""
        return self._captured is self.view or (self._captured is None and self.view.hovered)

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Keys of the sandbox and of the presenter's view."""
        return sandbox_key(self, event)
