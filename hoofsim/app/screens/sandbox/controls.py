"""The controls of a foot as sliders and switches, made from the one table of parameters, one panel a group."""

from collections.abc import Callable

from hoofsim.app.slow_motion import LIFE, PACES
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.label import Heading, Label
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.slider import Slider
from hoofsim.app.widgets.switch import Switch
from hoofsim.app.widgets.tabs import TabItem
from hoofsim.foot.parameters import GROUP_TITLES, PARAMETERS, Parameter
from hoofsim.foot.presets import PRESETS
from hoofsim.session.commands import (
    LOAD_CASES,
    MOVING_CASES,
    ChoosePreset,
    Command,
    CutTendon,
    SetControl,
    SetLoad,
)
from hoofsim.session.session import Session
from hoofsim.units import show

GROUP_TABS = (
    TabItem("trim", "Trim", "foot", "trim", "trim and ground"),
    TabItem("bonds", "Bonds", "brush_back", "bonds", "what holds bone, sole and wall together"),
    TabItem(
        "tendon",
        "Tendon",
        "tendon",
        "tendon",
        "the deep digital flexor tendon (DDFT), and the tip of the bone",
    ),
    TabItem("load", "Load", "weight", "load", "load and limb"),
    TabItem("shape", "Shape", "ruler", "shape", "shape of the foot"),
    TabItem("tissue", "Tissue", "dots", "tissue", "tissue constants, all of them uncertain"),
)
STEPS = (0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50)

Give = Callable[[Command, str | None], None]


def step_for(parameter: Parameter) -> float:
    """A round step of which a hundred or more make the control's range."""
    wanted = (parameter.high - parameter.low) / 200
    return float(next(step for step in STEPS if step >= wanted * (1 - 1e-9)))


def shown(parameter: Parameter, length_unit: str) -> Callable[[float], str]:
    """How a value of this control is written."""
    return lambda value: show(value, parameter.unit, length_unit)


class Controls:
    """All groups of controls for one sitting; `give(command, gesture)` is called for every change, and
    `set_pace` for another pace of the stride."""

    def __init__(
        self, session: Session, give: Give, length_unit: str, set_pace: Callable[[float], None]
    ) -> None:
        self.session = session
        self.give = give
        self.sliders: dict[str, Slider] = {}
        self.cut = Switch(
            "Deep digital flexor tendon (DDFT)",
            False,
            lambda on: give(CutTendon(on), None),
            "cut or restore the tendon",
            "tendon",
            ("whole", "cut"),
        )
        self.load_case = DropDown(
            "Load case",
            [Choice(key, words) for key, words in LOAD_CASES.items()],
            "standing",
            self._choose_load,
        )
        self.pace = DropDown(
            "Pace of the stride",
            [Choice(str(pace), words) for pace, words in PACES.items()],
            str(LIFE),
            lambda pace: set_pace(float(pace)),
        )
        self.preset = DropDown(
            "Ready foot", [Choice(p.name, p.label) for p in PRESETS.values()], "sound", self._choose_preset
        )
        self.preset_words = Label("", "small", "quiet")
        self.panels = {tab.key: self._panel(tab.key, length_unit) for tab in GROUP_TABS}
        self.refresh()

    def _choose_load(self, case: str) -> None:
        self.give(SetLoad(case), None)

    def _choose_preset(self, name: str) -> None:
        self.give(ChoosePreset(name), None)

    def _panel(self, group: str, length_unit: str) -> ScrollPanel:
        title = next(text for key, text in GROUP_TITLES.items() if key == group)
        items: list[Widget] = [Heading(title, group)]
        if group == "load":
            items += [self.load_case, self.pace]
        if group == "shape":
            items += [self.preset, self.preset_words]
        for parameter in PARAMETERS:
            if parameter.group == group:
                items.append(self._control(parameter, length_unit))
        return ScrollPanel(title, items, gap=0.7)

    def _control(self, parameter: Parameter, length_unit: str) -> Widget:
        if parameter.name == "tendon_cut":
            return self.cut
        slider = Slider(
            parameter.label,
            parameter.default,
            parameter.low,
            parameter.high,
            step_for(parameter),
            parameter.default,
            lambda value, gesture, name=parameter.name: self.give(SetControl(name, value), gesture),  # type: ignore[misc]
            shown(parameter, length_unit),
            explain_parameter(parameter, length_unit),
            parameter.group,
        )
        self.sliders[parameter.name] = slider
        return slider

    def set_length_unit(self, length_unit: str) -> None:
        """Show lengths in mm or inches."""
        for parameter in PARAMETERS:
            if parameter.name in self.sliders:
                self.sliders[parameter.name].shown = shown(parameter, length_unit)
                self.sliders[parameter.name].explain = explain_parameter(parameter, length_unit)

    def refresh(self) -> None:
        """Show the sitting's present values; needed after every command."""
        state = self.session.state
        chosen = PRESETS[state.foot.preset]
        for name, slider in self.sliders.items():
            slider.value = self.session.value(name)
            slider.default = chosen.values[name]
            slider.baseline = state.compared_with.value(name)
        self.cut.on = state.foot.value("tendon_cut") == 1.0
        self.load_case.value = state.load.case
        self.preset.value = state.foot.preset
        self.preset_words.text = chosen.sentence
        self.sliders["stance_percent"].enabled = self.pace.visible = state.load.case in MOVING_CASES
        suspended = state.load.case == "suspended"
        self.sliders["load_percent"].enabled = not suspended


def explain_parameter(parameter: Parameter, length_unit: str) -> str:
    """Meaning, range and standing of a control's number."""
    write = shown(parameter, length_unit)
    standing = {
        "abstract": "published",
        "second-hand": "published, read at second hand",
        "memory": "published, from memory",
        "practice": "from practice",
        "choice": "a modelling choice",
    }[parameter.status]
    source = f" [{parameter.source}]" if parameter.source else ""
    ends = f"{write(parameter.low)} to {write(parameter.high)}"
    return f"{parameter.meaning} {ends}; start {write(parameter.default)}, {standing}{source}."
