"""Two feet side by side: the same load, one difference, both live, one scale."""

from typing import TYPE_CHECKING, Any

import pygame

from hoofsim.app.foot_picture import bare_picture_of
from hoofsim.app.screens.bar import HEIGHT, Bar
from hoofsim.app.screens.sandbox.controls import shown as shown_as
from hoofsim.app.screens.sandbox.controls import step_for
from hoofsim.app.screens.sandbox.foot_view import FootView
from hoofsim.app.screens.sandbox.measures_panel import MAIN, row_for
from hoofsim.app.screens.screen import Screen
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.label import Label
from hoofsim.app.widgets.layout import columns, inset, split_right, split_top
from hoofsim.app.widgets.measure_list import MeasureList
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.slider import Slider
from hoofsim.drawing.display_list import Bounds
from hoofsim.foot.parameters import BY_NAME, PARAMETERS
from hoofsim.foot.presets import PRESETS
from hoofsim.measures.table import MEASURES
from hoofsim.model import LoadedFoot
from hoofsim.session.commands import LOAD_CASES, MOVING_CASES
from hoofsim.session.possible import why_impossible
from hoofsim.session.session import changes_between, foot_of, load_of
from hoofsim.session.state import FootChoice, LoadChoice

if TYPE_CHECKING:
    from hoofsim.app.application import Application

START_CONTROL, START_VALUE = "heel_change_mm", 12.0
NOT_COMPARED = ("tendon_cut", "stance_percent")


class PairScreen(Screen):
    """Left the foot as it is, right the same foot with one control at another value."""

    name = "pair"
    title = "Two feet side by side"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.preset, self.case, self.control = "sound", "standing", START_CONTROL
        self.values = {"left": BY_NAME[START_CONTROL].default, "right": START_VALUE}
        self.bar = Bar(self.title, app.back)
        self.foot_choice = DropDown(
            "Foot", [Choice(p.name, p.label) for p in PRESETS.values()], self.preset, self._set_preset
        )
        self.load_choice = DropDown(
            "Load", [Choice(key, words) for key, words in LOAD_CASES.items()], self.case, self._set_case
        )
        self.control_choice = DropDown(
            "They differ in",
            [Choice(p.name, p.label) for p in PARAMETERS if p.name not in NOT_COMPARED],
            self.control,
            self._set_control,
        )
        self.views = {side: FootView(f"{side.capitalize()} foot") for side in ("left", "right")}
        self.sliders: dict[str, Slider] = {}
        self.feet: dict[str, LoadedFoot] = {}
        self.notes = {"left": "", "right": ""}
        self.list = MeasureList("Right against left", lambda name: None)
        self.side_panel = ScrollPanel("controls", [])
        self.sheets: dict[str, Rect] = {}
        self._fitted: object = None
        self._stale = True
        self._set_control(self.control)

    # -- what can be done ----------------------------------------------------------------------------------------

    def _set_preset(self, name: str) -> None:
        self.preset = name
        self._set_control(self.control)

    def _set_case(self, case: str) -> None:
        self.case = case
        self._changed()

    def _set_control(self, name: str) -> None:
        fresh = name != self.control or not self.sliders
        self.control = name
        parameter = BY_NAME[name]
        start = PRESETS[self.preset].values[name]
        if fresh or not self.sliders:
            far = start + 0.4 * (parameter.high - start) if parameter.high > start else parameter.low
            self.values = {"left": start, "right": START_VALUE if name == START_CONTROL else far}
        for side in ("left", "right"):
            self.sliders[side] = Slider(
                f"{side.capitalize()}: {parameter.label.lower()}",
                self.values[side],
                parameter.low,
                parameter.high,
                step_for(parameter),
                start,
                lambda value, gesture, side=side: self._set_value(side, value),  # type: ignore[misc]
                shown_as(parameter, self.app.settings.length_unit),
                parameter.meaning,
                parameter.group,
            )
        self.side_panel.items = [
            self.foot_choice,
            self.load_choice,
            self.control_choice,
            self.sliders["left"],
            self.sliders["right"],
            Label("Right foot; change against the left", "small_bold", "quiet"),
            self.list,
        ]
        self._changed()

    def _set_value(self, side: str, value: float) -> None:
        self.values[side] = value
        self._changed()

    def _changed(self) -> None:
        """Both feet again, and the rows."""
        load = LoadChoice(self.case, 50.0 if self.case in MOVING_CASES else None)
        for side, value in self.values.items():
            choice = FootChoice(self.preset).changed(self.control, value)
            trouble = why_impossible([choice])
            if not trouble:
                found = load_of(foot_of(choice), load)
                trouble = "" if found.at_rest else f"no state of rest ({found.status})"
            if not trouble:
                self.feet[side] = found
            self.notes[side] = "No such foot; the last one is shown." if trouble else ""
            self.views[side].explain = trouble
        self._stale = True

    def _rows(self) -> None:
        unit = self.app.settings.length_unit
        right = self.feet["right"].measures()
        changes = changes_between(self.feet["left"].measures(), right)
        self.list.rows = [row_for(MEASURES[name], right[name], changes.get(name), unit) for name in MAIN]

    # -- layout and drawing --------------------------------------------------------------------------------------

    def layout(self, theme: Theme, window: Rect) -> None:
        """Feet side by side with a dock, or one over the other where the window is narrow."""
        self._rows()
        for slider in self.sliders.values():
            slider.shown = shown_as(BY_NAME[self.control], self.app.settings.length_unit)
        bar, rest = split_top(window, theme.px(HEIGHT))
        self.bar.place(bar, theme)
        feet, dock = split_right(rest, min(theme.px(20), rest.w // 2))
        self.dock = dock
        self.side_panel.place(inset(dock, theme.px(0.9)), theme)
        area = inset(feet, theme.px(0.6))
        if area.w > theme.px(40):
            parts = columns(area, [1, 1], theme.px(0.6))
        else:
            half = (area.h - theme.px(0.6)) // 2
            parts = [
                Rect(area.x, area.y, area.w, half),
                Rect(area.x, area.bottom - half, area.w, half),
            ]
        self.sheets = dict(zip(("left", "right"), parts, strict=True))
        for side, view in self.views.items():
            _, below = split_top(self.sheets[side], theme.px(2.2))
            view.note_lines = 3 if area.w > theme.px(40) else 0
            view.place(inset(below, theme.px(0.2)), theme)
        room = (self.views["left"].sheet.size, self.preset, self.control, self.case)
        if room != self._fitted:  # else the view stays where it is while a slider moves
            self._fitted = room
            both = self._bounds_of_both()
            for view in self.views.values():  # one area for both is one scale for both
                view.show_all(theme.em, lambda text_mm: both)
        self.widgets = [self.bar, *self.views.values(), self.side_panel]
        self.drop_lost_focus()
        self._stale = True

    def _bounds_of_both(self) -> Bounds:
        bounds = [self._picture(side).bounds for side in self.views]
        left, bottom, right, top = zip(*bounds, strict=True)
        return min(left), min(bottom), max(right), max(top)

    def _picture(self, side: str) -> Any:
        other = self.feet["left"] if side == "right" else None
        picture, self.views[side].notes = bare_picture_of(
            self.feet[side],
            other,
            newtons_per_mm=100.0,
            length_unit=self.app.settings.length_unit,
        )
        return picture

    def draw(self, surface: pygame.Surface) -> Painter:
        """Renew what changed, then draw."""
        if self._stale:
            self.place()
            for side, view in self.views.items():
                view.picture, view.points = self._picture(side), self.feet[side].points
            self._stale = False
        return super().draw(surface)

    def draw_ground(self, painter: Painter) -> None:
        """Two sheets with their values, and the dock."""
        super().draw_ground(painter)
        theme = painter.theme
        painter.box(self.dock, "card", None, 0)
        words = shown_as(BY_NAME[self.control], self.app.settings.length_unit)
        for side, sheet in self.sheets.items():
            painter.box(sheet, "card", "line", 0.4)
            title, _ = split_top(sheet, theme.px(2.2))
            trouble = self.notes[side]
            text = (
                trouble
                or f"{side.capitalize()}: {BY_NAME[self.control].label.lower()} {words(self.values[side])}"
            )
            painter.text(text, inset(title, theme.px(0.8), 0), "bold", "warn" if trouble else "ink")

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Escape goes back."""
        if event.key == pygame.K_ESCAPE:
            self.app.back()
            return True
        return False
