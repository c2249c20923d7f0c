"""The controls of a comparison: what both feet share, what they differ in, how fast they move, and their numbers."""

from typing import TYPE_CHECKING

from hoofsim.app.screens.bar import Bar
from hoofsim.app.screens.pair.pairing import COMPARED, SIDES, Side, on_or_off, subject, value_words
from hoofsim.app.screens.pair.twins import FIRST_PACE
from hoofsim.app.screens.sandbox.controls import step_for
from hoofsim.app.screens.sandbox.measures_panel import MAIN, row_for
from hoofsim.app.slow_motion import PACES
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.label import Label
from hoofsim.app.widgets.measure_list import MeasureList
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.slider import Slider
from hoofsim.foot.parameters import BY_NAME
from hoofsim.foot.presets import PRESETS
from hoofsim.measures.table import MEASURES
from hoofsim.session.commands import LOAD_CASES
from hoofsim.session.session import changes_between

if TYPE_CHECKING:
    from hoofsim.app.screens.pair.screen import PairScreen

MOMENT = BY_NAME["stance_percent"]


class PairDock:
    """Makes the widgets, and keeps them in step with the screen's twins."""

    def __init__(self, screen: "PairScreen") -> None:
        self._screen = screen
        app = screen.app
        self.buttons = {
            button.name: button
            for button in (
                Button("Undo", screen.undo, "", "undo", False, keys="Ctrl Z"),
                Button("Redo", screen.redo, "", "redo", False, keys="Ctrl Y"),
                Button("Play", screen.toggle_play, "let both feet walk or trot", "play", keys="Space"),
                Button("Settings", lambda: app.open("settings"), "", "settings", False, keys="F2"),
                Button("Cautions", lambda: app.open("cautions"), "", "caution", False, keys="F1"),
            )
        }
        self.bar = Bar(screen.title, app.back, list(self.buttons.values()))
        self.foot = DropDown(
            "Foot",
            [Choice(p.name, p.label) for p in PRESETS.values()],
            "sound",
            lambda name: screen.take(screen.twins.pairing.of(name)),
        )
        self.load = DropDown(
            "Load",
            [Choice(key, words) for key, words in LOAD_CASES.items()],
            "standing",
            lambda case: screen.set(case=case),
        )
        self.pace = DropDown(
            "Pace",
            [Choice(str(pace), words) for pace, words in PACES.items()],
            str(FIRST_PACE),
            lambda pace: screen.set_pace(float(pace)),
        )
        self.moment = Slider(
            MOMENT.label,
            MOMENT.default,
            MOMENT.low,
            MOMENT.high,
            step_for(MOMENT),
            MOMENT.default,
            lambda value, gesture: screen.set(gesture, stance_percent=value),
            lambda value: f"{value:.0f} %",
            MOMENT.meaning,
            MOMENT.group,
        )
        self.control = DropDown(
            "They differ in",
            [Choice(name, BY_NAME[name].label) for name in COMPARED],
            screen.twins.pairing.control,
            lambda name: screen.take(screen.twins.pairing.compare(name)),
        )
        self.sliders: dict[Side, Slider] = {}
        self._heading = Label("Right foot; change against the left", "small_bold", "quiet")
        self.list = MeasureList("Right against left", screen.choose_measure)
        self.list.selected = screen.plot.measure
        self.panel = ScrollPanel("controls", [])
        self._plot: Widget | None = None
        self._sliders_of: object = None
        self.refresh()

    def show_plot(self, plot: Widget | None) -> None:
        """Carry the plot after the numbers, where the window has no strip for it."""
        self._plot = plot
        self._fill()

    def refresh(self) -> None:
        """What is chosen, by the twins' pairing; sliders are made anew only for another control or foot."""
        twins = self._screen.twins
        pairing, unit = twins.pairing, self._screen.app.settings.length_unit
        self.foot.value, self.load.value, self.control.value = pairing.preset, pairing.case, pairing.control
        self.pace.value, self.pace.visible = str(twins.pace), pairing.moves
        self.moment.visible, self.moment.enabled = pairing.moves, not twins.playing
        if (pairing.preset, pairing.control, unit) != self._sliders_of:
            self._sliders_of = (pairing.preset, pairing.control, unit)
            self.sliders = {side: self._slider(side) for side in SIDES}
        for side, slider in self.sliders.items():
            slider.value = pairing.value(side)
        buttons, undo, redo = self.buttons, self._screen.undo_sentence(), self._screen.redo_sentence()
        buttons["Undo"].enabled, buttons["Redo"].enabled = undo is not None, redo is not None
        buttons["Undo"].explain = undo or "nothing to undo"
        buttons["Redo"].explain = redo or "nothing to redo"
        buttons["Play"].icon = "pause" if twins.playing else "play"
        buttons["Play"].down = twins.playing
        self._fill()

    def _slider(self, side: Side) -> Slider:
        twins, unit = self._screen.twins, self._screen.app.settings.length_unit
        parameter = BY_NAME[twins.pairing.control]
        return Slider(
            f"{side.capitalize()}: {subject(parameter.name)}",
            twins.pairing.value(side),
            parameter.low,
            parameter.high,
            1.0 if on_or_off(parameter.name) else step_for(parameter),
            PRESETS[twins.pairing.preset].values[parameter.name],
            lambda value, gesture: self._screen.set(gesture, **{side: value}),
            lambda value: value_words(parameter.name, value, unit),
            parameter.meaning,
            parameter.group,
        )

    def refresh_numbers(self) -> None:
        """The right foot's numbers against the left one's, and the moment that both have reached."""
        twins, unit = self._screen.twins, self._screen.app.settings.length_unit
        left, right = twins.shown["left"].values(), twins.shown["right"].values()
        changes = changes_between(left, right)
        self.list.rows = [row_for(MEASURES[name], right.get(name), changes.get(name), unit) for name in MAIN]
        moment = twins.shown["left"].stance_percent()
        self.moment.value = (
            self.moment.value if moment is None else moment
        )  # in the air: where it left the ground

    def _fill(self) -> None:
        self.panel.items = [
            self.foot,
            self.load,
            self.pace,
            self.moment,
            self.control,
            *self.sliders.values(),
            self._heading,
            self.list,
            *([] if self._plot is None else [self._plot]),
        ]
