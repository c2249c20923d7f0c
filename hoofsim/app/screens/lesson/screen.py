"""The screen of one lesson: the foot with its measures on one side, the step on the other."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pygame

from hoofsim.app.blend import BLEND_SECONDS, Blend
from hoofsim.app.foot_picture import bare_picture_of, picture_of
from hoofsim.app.screens.bar import HEIGHT, Bar
from hoofsim.app.screens.card_screen import CardScreen
from hoofsim.app.screens.lesson.learner import Learner
from hoofsim.app.screens.lesson.panel import StepPanel
from hoofsim.app.screens.sandbox.curve_panel import factor_to_shown, words_with_unit
from hoofsim.app.screens.sandbox.foot_view import Actions, FootView
from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.app.screens.sandbox.told import told
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.layout import inset, split_bottom, split_left, split_top
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.plot import Plot, PlotLine, PlotMark, PlotPicture
from hoofsim.app.widgets.rich_text import RichText
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.tooltip import Lines
from hoofsim.drawing.foot_measures import DRAWABLE
from hoofsim.drawing.foot_shown import LANDMARKS, Unloaded
from hoofsim.drawing.parts import PARTS
from hoofsim.errors import BadInput
from hoofsim.foot.parameters import BY_NAME
from hoofsim.lessons.events import Back, Event, GiveAnswer, MoveControl, Next
from hoofsim.lessons.glossary import term
from hoofsim.lessons.markup import TERM
from hoofsim.lessons.report import report
from hoofsim.lessons.store import Store
from hoofsim.lessons.view import View, curves
from hoofsim.measures.table import MEASURES
from hoofsim.scene.ramp import eased

if TYPE_CHECKING:
    from hoofsim.app.application import Application

PLAYED_AFTER = 0.3  # seconds until a moved slider is played as an event
LOOK_EVERY = 0.5  # seconds between looks at the lesson's file
TYPE = 0.86


class LessonScreen(CardScreen):
    """Plays one lesson file for one learner."""

    name = "lesson"
    title = "Lesson"

    def __init__(self, app: "Application", path: Path) -> None:
        super().__init__(app)
        self.learner = Learner(path, Store.default() if app.keep else None, app.settings.length_unit)
        self.step = StepPanel(self.learner, self.send, self._slid, self._follow)
        self.bar = Bar(self.learner.lesson.title, app.back, [Button("Begin anew", self._anew, icon="reset")])
        self.view = FootView("Foot", Actions(*_idle(), self._placed_answer, lambda to: None, lambda: None))
        self.view.handles_shown = False
        self.plot = Plot("curve")
        self.panel = ScrollPanel("step", [])
        self.back_button = Button("Back", lambda: self.send(Back()), icon="back")
        self.next_button = Button("Go on", lambda: self.send(Next()), icon="play", kind="main")
        self.now: View = self.learner.view()
        self.foot: Any = None
        self._from: Any = None
        self._target: Any = None
        self._share = 1.0
        self._pending: dict[str, float] = {}
        self._rest = self._since_look = 0.0
        self._fitted: object = None
        self._shown_step = ""
        self._renew()
        if self.learner.told:
            app.say(self.learner.told)

    # -- events of the lesson ------------------------------------------------------------------------------------

    def send(self, event: Event) -> None:
        """Play an event, after any slider that has yet to be played."""
        self._play_pending()
        self.learner.send(event)
        self._renew()
        self.place()

    def _slid(self, control: str, value: float, gesture: str) -> None:
        """A slider moves: draw at once, play the event when the hand rests, so that a drag is one event."""
        self._pending[control] = value
        self._rest = 0.0
        self._set_target(self.now.state.change(**self._pending), at_once=True)

    def _play_pending(self) -> None:
        pending, self._pending = self._pending, {}
        for control, value in pending.items():
            self.learner.send(MoveControl(control, value))

    def _placed_answer(self, at: tuple[float, float]) -> bool:
        """A press on the drawing answers where a position is asked."""
        if self.now.wants_position is not None:
            self.send(GiveAnswer(f"{at[0]:.1f} {at[1]:.1f}"))
        return False

    def _follow(self, target: str) -> None:
        """Say what a term means."""
        try:
            one = term(target.removeprefix(TERM))
        except BadInput as problem:
            self.app.say(str(problem))
            return
        self.app.say(f"{headed(one.heading)}: {one.meaning}")

    def _anew(self) -> None:
        self._pending = {}
        self.learner.begin_anew()
        self._renew()
        self.place()
        if self.learner.told:
            self.app.say(self.learner.told)

    def _renew(self) -> None:
        """Widgets and foot of the step now reached."""
        self.now = self.learner.view()
        fresh = self.now.step != self._shown_step
        if fresh:
            self.step.picked = []
            self.panel.offset = 0
            self._shown_step = self.now.step
        if self.learner.progress.finished:
            self.panel.items = [RichText(report(self.learner.lesson, self.learner.progress), self._follow)]
        else:
            self.panel.items = self.step.widgets(self.now)
        self.view.holds_anywhere = self.now.wants_position is not None
        self.back_button.enabled = self.now.number > 1
        self.next_button.enabled = self.now.can_go_on and not self.learner.progress.finished
        self._set_target(self.now.state, at_once=fresh and self.foot is None)
        self._renew_plot()

    def _renew_plot(self) -> None:
        found = curves(self.now)
        self.plot.visible = found is not None and bool(self.now.rows)
        if found is None or self.now.plot is None or not self.now.rows:
            return
        along, lines = found
        parameter, measure = BY_NAME[self.now.plot.control], MEASURES[self.now.rows[0].measure]
        unit = self.now.length_unit
        across, up = factor_to_shown(parameter.unit, unit), factor_to_shown(measure.unit, unit)
        points = tuple(
            None if y is None else (x * across, y * up)
            for x, y in zip(along, lines[measure.name], strict=True)
        )
        here = self.now.rows[0].now
        mark = PlotMark((self.now.state.value(parameter.name) * across, (here or 0.0) * up), parameter.group)
        self.plot.picture = PlotPicture(
            words_with_unit(parameter.label, parameter.unit, unit),
            words_with_unit(headed(measure.label), measure.unit, unit),
            (PlotLine(points, parameter.group),),
            () if here is None else (mark,),
        )

    # -- the foot ------------------------------------------------------------------------------------------------

    def _set_target(self, state: Any, at_once: bool) -> None:
        try:
            found = state.loaded
        except BadInput as problem:
            self.app.say(f"Not done: {problem}.")
            return
        foot = found if found.at_rest else Unloaded(found.foot, found.status, found.rest_points)
        still = (
            at_once or self.app.theme.reduced_motion or not found.at_rest or isinstance(self.foot, Unloaded)
        )
        self._from, self._target = self.foot, foot
        self._share = 1.0 if still or self.foot is None else 0.0
        if self._share >= 1.0:
            self.foot = foot
        self.view.picture = None

    def _picture(self, text_mm: float | None = None) -> Any:
        """The foot with what the step points at named, lit up or measured."""
        look = self.now.look_at
        before = self.now.before.loaded
        baseline = before if before.at_rest and self.now.before != self.now.state else None
        named = tuple(name for name in look if name in PARTS)
        options: dict[str, Any] = {
            "text_mm": text_mm or self.view.text_mm(self.app.theme.em * TYPE),
            "landmarks": tuple(dict.fromkeys((*LANDMARKS, *(n for n in named if n in self.foot.points)))),
            "measures": tuple(name for name in look if name in DRAWABLE),
            "highlight": named[0] if named else None,
            "newtons_per_mm": 100.0,
            "note": False,
            "title": "",
            "length_unit": self.now.length_unit,
        }
        if options["measures"] or named:
            self.view.notes = []
            return picture_of(self.foot, baseline, labels=named, **options)
        picture, self.view.notes = bare_picture_of(self.foot, baseline, **options)
        return picture

    # -- layout and drawing --------------------------------------------------------------------------------------

    def layout(self, theme: Theme, window: Rect) -> None:
        """The step at the left, wide enough to read; the foot at the right, with the curve under it."""
        bar, rest = split_top(window, theme.px(HEIGHT))
        self.bar.place(bar, theme)
        area = inset(rest, theme.px(0.8), theme.px(0.7))
        if window.w >= window.h:
            step, foot = split_left(area, min(theme.px(31), round(area.w * 0.52)), theme.px(0.8))
        else:
            foot, step = split_top(area, round(area.h * 0.42), theme.px(0.6))
        self.cards = [step, foot]
        inner, buttons = split_bottom(inset(step, theme.px(1.1), theme.px(0.8)), theme.px(2.3), theme.px(0.6))
        self.panel.place(inner, theme)
        go_on = self.next_button.width(theme)
        self.next_button.place(Rect(buttons.right - go_on, buttons.y, go_on, buttons.h), theme)
        self.back_button.place(Rect(buttons.x, buttons.y, self.back_button.width(theme), buttons.h), theme)
        sheet = inset(foot, theme.px(0.4))
        if self.plot.visible and sheet.h > theme.px(22):
            sheet, strip = split_bottom(sheet, theme.px(12), theme.px(0.4))
            self.plot.place(inset(strip, theme.px(0.6), 0), theme)
        else:
            self.plot.visible = False
        self.view.note_lines = 2 if sheet.h > theme.px(14) else 0
        self.view.place(sheet, theme)
        self.widgets = [self.panel, self.back_button, self.next_button, self.view, self.plot, self.bar]
        room = (self.view.sheet.size, self.now.step, theme.em)
        if room != self._fitted:
            self._fitted = room
            self.view.show_all(theme.em * TYPE, lambda text_mm: self._picture(text_mm).bounds)
        self.view.picture = None
        self.drop_lost_focus()

    def draw(self, surface: pygame.Surface) -> Painter:
        """Renew the sheet when needed, then draw."""
        if self.view.picture is None:
            self.view.points = self.foot.points
            self.view.hasty = self._share < 1.0
            self.view.picture = self._picture()
        return super().draw(surface)

    def tooltip(self) -> Lines:
        """The structure under the pointer, or the widget's own words."""
        if self.widget_at(self.pointer) is self.view:
            part = self.view.pointed_part
            return told(part, self.now.state.loaded.measures(), self.now.length_unit) if part else []
        return super().tooltip()

    # -- time and keys -------------------------------------------------------------------------------------------

    def advance(self, seconds: float) -> None:
        """Move the foot; play a slider's event when the hand rests; notice that an author saved the file."""
        self.learner.seconds += seconds
        self._rest += seconds
        self._since_look += seconds
        if self._since_look >= LOOK_EVERY:
            self._since_look = 0.0
            self._read_again()
        if self._share < 1.0:
            self._share = min(1.0, self._share + seconds / BLEND_SECONDS)
            done = self._share >= 1.0
            self.foot = self._target if done else Blend(self._from, self._target, eased(self._share))
            self.view.picture = None
        if self._pending and self._rest >= PLAYED_AFTER and self._captured is None:
            focus = self.focus.name if self.focus is not None else None
            self._play_pending()
            self._renew()
            self.place()
            self._focus_again(focus)
        self.animating = self._share < 1.0 or bool(self._pending)

    def _read_again(self) -> None:
        if not self.learner.saved_since:
            return
        self._play_pending()
        self.learner.read_again()
        self.bar.title = self.learner.lesson.title
        self._renew()
        self.place()
        self.app.say(self.learner.told)

    def _focus_again(self, name: str | None) -> None:
        """After the widgets were made anew, the keyboard stays where it was."""
        found = [widget for widget in self.focusable() if widget.name == name]
        if found:
            self.set_focus(found[0])

    def left(self) -> None:
        """Nothing moved is lost on leaving."""
        super().left()
        self._play_pending()

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Enter goes on, Escape goes back to the list."""
        if event.key == pygame.K_ESCAPE:
            self.app.back()
        elif (
            event.key in (pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_PAGEDOWN) and self.next_button.enabled
        ):
            self.send(Next())
        elif event.key == pygame.K_PAGEUP and self.back_button.enabled:
            self.send(Back())
        else:
            return False
        return True


def _idle() -> tuple[Any, Any, Any, Any]:
    """Hands that do nothing with handles and tools: a lesson's drawing has none."""
    return (lambda handle: None), (lambda handle, moved: None), (lambda *use: False), (lambda: None)
