"""The sandbox's buttons, tabs and tools, made once and known by name."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from hoofsim.app.screens.bar import Bar
from hoofsim.app.screens.sandbox.controls import GROUP_TABS
from hoofsim.app.screens.sandbox.rival import CHOICES, NONE
from hoofsim.app.screens.sandbox.steps import redo, refresh_steps, undo
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.tabs import TabItem, Tabs

if TYPE_CHECKING:
    from hoofsim.app.screens.sandbox.screen import SandboxScreen

RIGHT_TABS = (
    TabItem("measures", "Measures", "gauge", "accent", "what is read from the foot, and what changed"),
    TabItem("trials", "Trials", "keep", "accent", "predictions and kept runs"),
)
CURVES_TAB = TabItem("curves", "Curves", "curve", "accent", "a measure over the whole range of a control")
ALL_TABS = (*GROUP_TABS, RIGHT_TABS[0], CURVES_TAB, RIGHT_TABS[1])
TOOLS = (
    ("hand", "Hand", "H", "drag a ring, a bone or the sheet; by keys: arrows to a bone, Enter takes hold"),
    ("blade", "Blade", "K", "cut the tendon, or make it whole again"),
    ("brush_away", "Brush laminae away", "B", "drag along the wall"),
    ("brush_back", "Brush laminae back", "N", "drag along the wall"),
)


RIVAL_WORDS = "what should be seen, had one of the rival accounts moved the foot you compare with  [A]"


@dataclass
class Parts:
    """Everything of the sandbox that is not a panel."""

    bar: Bar
    buttons: dict[str, Button]
    foot: DropDown
    load: DropDown
    rail: Tabs
    right_tabs: Tabs
    chooser: DropDown
    tools: dict[str, Button]
    rival: DropDown


def make_parts(screen: "SandboxScreen") -> Parts:
    """The parts of one sandbox screen, wired to its deeds."""
    buttons = _buttons(screen)
    controls = screen.controls
    foot = DropDown("Ready foot", controls.preset.choices, "sound", screen.choose_preset, titled=False)
    load = DropDown("Load case", controls.load_case.choices, "standing", screen.choose_load, titled=False)
    chooser = DropDown(
        "Panel", [Choice(t.key, t.words) for t in ALL_TABS], "trim", screen.choose_panel, titled=False
    )
    tools = {
        key: Button(words, lambda key=key: screen.choose_tool(key), explain, key, False, keys=letter)  # type: ignore[misc]
        for key, words, letter, explain in TOOLS
    }
    return Parts(
        Bar(screen.title, screen.app.back, list(buttons.values()), (foot, load)),
        buttons,
        foot,
        load,
        Tabs("Groups of controls", GROUP_TABS, "trim", screen.choose_panel),
        Tabs("Panels", RIGHT_TABS, "measures", screen.choose_right, upright=False),
        chooser,
        tools,
        DropDown("Account laid over the foot", CHOICES, NONE, screen.choose_rival, RIVAL_WORDS, titled=False),
    )


def _buttons(screen: "SandboxScreen") -> dict[str, Button]:
    app = screen.app
    ghost = "outline of the baseline, laid upon ground, capsule or bone"
    made = [
        Button("Undo", lambda: undo(screen), "", "undo", False, keys="Ctrl Z"),
        Button("Redo", lambda: redo(screen), "", "redo", False, keys="Ctrl Y"),
        Button("Play", screen.toggle_play, "let the foot move", "play", False, keys="Space"),
        Button("Ghost", screen.next_ghost, ghost, "ghost", False, keys="G"),
        Button("Names", screen.toggle_names, "on the picture", "eye", False, keys="L"),
        Button("Baseline", screen.set_baseline, "compare from here on", "baseline", keys="M"),
        Button("Keep", lambda: screen.keep_trial("", ""), "write a trial into the log", "keep", keys="T"),
        Button("Unchanged foot", screen.reset, "back to the ready foot as it was", "reset", False, keys="R"),
        Button("Save", lambda: app.open("files", saving=True), "to a file", "save", False, keys="Ctrl S"),
        Button("Presenter", screen.toggle_presenter, "large view for a class", "presenter", False, keys="P"),
        Button("Settings", lambda: app.open("settings"), "", "settings", False, keys="F2"),
        Button("Cautions", lambda: app.open("cautions"), "", "caution", False, keys="F1"),
    ]
    return {button.name: button for button in made}


def refresh_buttons(screen: "SandboxScreen") -> None:
    """What can be undone and redone, and which buttons are down."""
    refresh_steps(screen)
    buttons = screen.parts.buttons
    playing = screen.shown.playing
    buttons["Play"].icon = "pause" if playing else "play"
    buttons["Play"].down = playing
    buttons["Ghost"].down, buttons["Names"].down = screen.sheet.ghost != "none", screen.sheet.names
