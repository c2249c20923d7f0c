"""Two feet side by side: the same load, one difference, both live on one clock, at one scale."""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pygame

from hoofsim.app.kept_ground import KeptGround
from hoofsim.app.pace import HAND_RESTS_AFTER, WORK_EVERY
from hoofsim.app.screens.pair.comparison_plot import ComparisonPlot
from hoofsim.app.screens.pair.dock import PairDock
from hoofsim.app.screens.pair.pairing import SIDES, Pairing, Side, step_words, subject, value_words
from hoofsim.app.screens.pair.placing import place_pair
from hoofsim.app.screens.pair.sheets import Sheets
from hoofsim.app.screens.pair.twins import Twins
from hoofsim.app.screens.sandbox.shown import MEASURED_EVERY
from hoofsim.app.screens.sandbox.status import draw_no_rest
from hoofsim.app.screens.sandbox.steps import TORN
from hoofsim.app.screens.sandbox.told import told
from hoofsim.app.screens.screen import Screen
from hoofsim.app.slow_motion import PACES, next_pace
from hoofsim.app.theme import Theme
from hoofsim.app.turns import Turns
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.tooltip import Lines
from hoofsim.drawing.display_list import Point

if TYPE_CHECKING:
    from hoofsim.app.application import Application


class PairScreen(Screen):
    """Left a foot, right the same foot with one control at another value."""

    name = "pair"
    title = "Two feet side by side"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.twins = Twins(app.settings.reduced_motion)
        self.sheets = Sheets(app, self.twins, self._grab)
        self.views = self.sheets.views
        self.plot = ComparisonPlot()
        self.dock = PairDock(self)
        self.places: dict[str, Rect] = {}
        self.ground = KeptGround()
        self._ground_old = True
        self.turns = Turns(lambda: app.clock())
        self._stale = True
        self._still = self._since_numbers = self._since_work = 0.0
        self._changed()

    # -- what can be done ----------------------------------------------------------------------------------------

    def take(self, pairing: Pairing, gesture: str | None = None) -> None:
        """Compare something else, or something else about it."""
        self.twins.take(pairing, gesture)
        self._changed()

    def set(self, gesture: str | None = None, **changes: Any) -> None:
        """Change parts of the pairing."""
        self.take(replace(self.twins.pairing, **changes), gesture)

    def _grab(self, side: Side, at: Point) -> bool:
        held = self.twins.grab(side, at)
        self._stale = self._stale or held
        return held

    def toggle_play(self) -> None:
        """Start or stop both strides."""
        if not self.twins.pairing.moves:
            self.app.say("Choose walk or trot under Load first: those have a stride to play.")
            return
        self.twins.play(not self.twins.playing)
        self._changed()

    def set_pace(self, pace: float) -> None:
        """So many times life's pace."""
        self.twins.set_pace(pace)
        self.app.say(f"{PACES[pace]}.")
        self._stale = True

    def undo_sentence(self) -> str | None:
        """What `undo` would take back; None at the start."""
        twins, unit = self.twins, self.app.settings.length_unit
        before = twins.history.before
        if twins.torn_by_hand:
            return TORN
        return None if before is None else step_words(before, twins.pairing, unit)

    def redo_sentence(self) -> str | None:
        """What `redo` would do again; None at the end."""
        twins, unit = self.twins, self.app.settings.length_unit
        after = twins.history.after
        if twins.mended:
            return TORN
        return None if after is None else step_words(twins.pairing, after, unit)

    def undo(self) -> None:
        """Take back the last step on both feet."""
        words = self.undo_sentence()
        if words is not None:
            self.twins.undo()
            self.app.say(f"Undone: {words}.")
            self._changed()

    def redo(self) -> None:
        """Do again what was undone."""
        words = self.redo_sentence()
        if words is not None:
            self.twins.redo()
            self.app.say(f"Done again: {words}.")
            self._changed()

    def choose_measure(self, name: str) -> None:
        """Plot another measure."""
        self.plot.measure = name
        self._stale = True

    def _changed(self) -> None:
        self.plot.follow(self.twins)
        self._still = 0.0
        self._stale = True

    # -- layout --------------------------------------------------------------------------------------------------

    def layout(self, theme: Theme, window: Rect) -> None:
        """Everything in its place, with what it says brought up to date."""
        self._refresh_numbers()
        self.dock.refresh()
        self.widgets = place_pair(self, theme, window)
        self.sheets.fit()
        self.drop_lost_focus()
        self._ground_old = True

    def _refresh_numbers(self) -> None:
        self._since_numbers = 0.0
        self.dock.refresh_numbers()
        self.plot.refresh(self.twins, self.app.settings.length_unit)
        self._ground_old = True

    # -- drawing -------------------------------------------------------------------------------------------------

    def draw(self, surface: pygame.Surface) -> Painter:
        """What is due, all of it unless the application is in a hurry."""
        moving = self.twins.moving or self.following
        self.sheets.begin(moving)
        until = self.app.draw_until
        if until is None or not self.ground.fits(surface, self.app.theme):
            self._renew_ground(surface)
            self.sheets.paint_both(moving)
            self.behind = False
        else:
            self.behind = self.turns.take(self._due(surface, moving), until)
        painter = Painter(surface, self.app.theme)
        self.ground.onto(painter)
        for side, view in self.views.items():
            view.draw(painter)
            if not self.twins.shown[side].at_rest:
                draw_no_rest(painter, view.rect, self.twins.session(side).loaded.status)
        self.draw_over(painter)
        return painter

    def _due(self, surface: pygame.Surface, moving: bool) -> dict[str, Callable[[], None]]:
        """What is to be done before this frame is as it should be."""
        due = self.sheets.due(moving, self._stale)
        if self._stale or self._ground_old:
            due["ground"] = lambda: self._renew_ground(surface)
        return due

    def _renew_ground(self, surface: pygame.Surface) -> None:
        if self._stale:
            self._stale = False
            self.place()
        self.ground.renew(surface, self.app.theme, self._draw_around)
        self._ground_old = False

    def _draw_around(self, painter: Painter) -> None:
        """Everything but the two views."""
        self.draw_ground(painter)
        for widget in self.widgets:
            if widget.visible and widget not in self.views.values():
                widget.draw(painter)

    def draw_ground(self, painter: Painter) -> None:
        """Two sheets headed with their values, the strip under them, and the dock."""
        super().draw_ground(painter)
        theme, places = painter.theme, self.places
        painter.box(places["dock"], "card", None, 0)
        if "plot" in places:
            painter.box(places["plot"], "card", "line", 0.4)
        pairing, unit = self.twins.pairing, self.app.settings.length_unit
        for side in SIDES:
            painter.box(places[side], "card", "line", 0.4)
            words = value_words(pairing.control, pairing.value(side), unit)
            words = f"{side.capitalize()}: {subject(pairing.control)} {words}"
            trouble = self.twins.trouble.get(side)
            if trouble:
                words = "No such foot; the last one is shown."
            title = places[f"{side} title"]
            painter.text(words, title, "bold", "warn" if trouble else "ink")
            moment = self._moment_words(side)
            if theme.text_width(words, "bold") + theme.text_width(moment, "small") + theme.px(1) <= title.w:
                painter.text(moment, title, "small", "quiet", "right")

    def _moment_words(self, side: Side) -> str:
        if not self.twins.pairing.moves:
            return ""
        moment = self.twins.shown[side].stance_percent()
        return "in the air" if moment is None else f"{moment:.0f} % of stance"

    def tooltip(self) -> Lines:
        """The structure under the pointer, why a foot cannot be, or the widget's own words."""
        widget = self.widget_at(self.pointer)
        for side, view in self.views.items():
            if widget is view and not view.dragging:
                if side in self.twins.trouble:
                    return [(self.twins.trouble[side], "small")]
                part = view.pointed_part
                return (
                    told(part, self.twins.shown[side].values(), self.app.settings.length_unit) if part else []
                )
        return super().tooltip()

    # -- time, pointer and keys ----------------------------------------------------------------------------------

    def entered(self) -> None:
        """Settings may have been changed elsewhere."""
        self._stale = True

    def left(self) -> None:
        """Nothing runs while nobody looks."""
        if self.twins.playing:
            self.twins.play(False)
            self._changed()

    def advance(self, seconds: float) -> None:
        """Let both feet move; compute curves when the hand rests."""
        self.sheets.advance()
        self._still += seconds
        self._since_numbers += seconds
        self._since_work += seconds
        moved = self.twins.moving
        self.twins.advance(seconds)
        if moved and self._since_numbers >= MEASURED_EVERY:
            self._refresh_numbers()
        resting = self._still >= HAND_RESTS_AFTER and not self.following
        if self.plot.working and resting and self._since_work >= WORK_EVERY:
            self._since_work = 0.0
            self.plot.work(self.twins)
            self._refresh_numbers()
        if moved and not self.twins.moving:
            self._stale = True
        self.animating = self.twins.moving or self.plot.working

    def handle(self, event: pygame.event.Event) -> bool:
        """As every screen; what the pointer does on a foot leaves all round it as it is."""
        quiet = event.type == pygame.MOUSEMOTION and self._on_a_foot
        before = self.sheets.cameras()
        used = super().handle(event)
        self.sheets.follow(before)
        if not (quiet and self._on_a_foot):
            self._ground_old = True
        return used

    @property
    def _on_a_foot(self) -> bool:
        views = list(self.views.values())
        return self._captured in views or (self._captured is None and any(view.hovered for view in views))

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Escape goes back, Space plays, S slows, plus, minus and nought zoom, Control with Z and Y undo and redo."""
        control = bool(event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META))
        shift = bool(event.mod & pygame.KMOD_SHIFT)
        deeds: dict[tuple[int, bool], Callable[[], None]] = {
            (pygame.K_ESCAPE, False): self.app.back,
            (pygame.K_SPACE, False): self.toggle_play,
            (pygame.K_s, False): lambda: self.set_pace(next_pace(self.twins.pace)),
            (pygame.K_PLUS, False): lambda: self.sheets.zoom(1),
            (pygame.K_EQUALS, False): lambda: self.sheets.zoom(1),
            (pygame.K_KP_PLUS, False): lambda: self.sheets.zoom(1),
            (pygame.K_MINUS, False): lambda: self.sheets.zoom(-1),
            (pygame.K_KP_MINUS, False): lambda: self.sheets.zoom(-1),
            (pygame.K_0, False): lambda: self.sheets.fit(again=True),
            (pygame.K_z, True): self.redo if shift else self.undo,
            (pygame.K_y, True): self.redo,
        }
        deed = deeds.get((event.key, control))
        if deed is None:
            return False
        deed()
        return True
