"""Settings: units, text size, contrast, motion, and the list of keys."""

from typing import TYPE_CHECKING

from hoofsim.app.keys import KEYS
from hoofsim.app.screens.bar import HEIGHT, Bar
from hoofsim.app.screens.card_screen import CardScreen
from hoofsim.app.settings import SCREEN_SCALES
from hoofsim.app.theme import TEXT_SCALE_HIGH, TEXT_SCALE_LOW, Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.key_table import KeyTable
from hoofsim.app.widgets.label import Heading, Label
from hoofsim.app.widgets.layout import columns, inset, split_top
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.slider import Slider
from hoofsim.app.widgets.switch import Switch
from hoofsim.errors import BadInput
from hoofsim.session.store import user_folder

if TYPE_CHECKING:
    from hoofsim.app.application import Application

LENGTHS = (Choice("mm", "Millimetres"), Choice("in", "Inches"))


class SettingsScreen(CardScreen):
    """Controls on the left, keys on the right; one column where the window is narrow."""

    name = "settings"
    title = "Settings"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        chosen = app.settings
        self.bar = Bar(self.title, app.back)
        self.units = DropDown("Lengths in", LENGTHS, chosen.length_unit, self._set_unit)
        self.text = Slider(
            "Text size",
            chosen.text_percent,
            100 * TEXT_SCALE_LOW,
            100 * TEXT_SCALE_HIGH,
            10,
            100,
            self._set_text,
            lambda value: f"{value:.0f} %",
        )
        self.screen_scale = DropDown(
            "Screen scale",
            [Choice(key, _scale_words(key, app.density)) for key in SCREEN_SCALES],
            chosen.screen_scale,
            lambda key: app.change_settings(screen_scale=key),
            "how large everything is drawn; automatic: as the display asks for",
        )
        self.text_limit = Label("", "small_italic", "quiet")
        self.contrast = Switch(
            "High contrast",
            chosen.contrast,
            lambda on: app.change_settings(contrast=on),
            "black on white, bolder lines",
        )
        self.motion = Switch(
            "Reduced motion",
            chosen.reduced_motion,
            lambda on: app.change_settings(reduced_motion=on),
            "changes appear at once; nothing moves by itself",
        )
        self.controls = ScrollPanel(
            "settings",
            [
                Heading("Reading"),
                self.units,
                self.text,
                self.screen_scale,
                self.text_limit,
                self.contrast,
                self.motion,
                Heading("Your files"),
                Label("Settings, progress and the last sitting are kept in", colour="quiet"),
                Label(_folder(), "code"),
            ],
            gap=0.8,
        )
        self.key_list = ScrollPanel("keys", [Heading("Keys"), KeyTable(KEYS)], gap=0.7)
        self.widgets = [self.bar, self.controls, self.key_list]

    def _set_unit(self, unit: str) -> None:
        self.app.change_settings(length_unit=unit)

    def _set_text(self, percent: float, gesture: str) -> None:
        self.app.change_settings(text_percent=round(percent))

    def layout(self, theme: Theme, window: Rect) -> None:
        """Two cards side by side, or one over the other."""
        limit = theme.limited_to_percent
        self.text_limit.visible = limit is not None
        self.text_limit.text = f"This window is too small for that size: {limit} % is used." if limit else ""
        self.text.value = float(self.app.settings.text_percent)
        bar, rest = split_top(window, theme.px(HEIGHT))
        self.bar.place(bar, theme)
        area = inset(rest, theme.px(1.2), theme.px(1.0))
        if area.w > theme.px(48):
            wide = min(area.w, theme.px(72))
            area = Rect(area.x + (area.w - wide) // 2, area.y, wide, area.h)
            self.cards = columns(area, [1, 1.25], theme.px(1.2))
            self.controls.items = [item for item in self.controls.items if item not in self.key_list.items]
            self.key_list.visible = True
        else:
            self.cards = [area]
            self.key_list.visible = False
            self.controls.items = [
                item for item in self.controls.items if item not in self.key_list.items
            ] + self.key_list.items
        for card, panel in zip(self.cards, (self.controls, self.key_list), strict=False):
            panel.place(inset(card, theme.px(1.2), theme.px(1.0)), theme)


def _scale_words(key: str, density: float) -> str:
    """What a choice of the screen scale is called."""
    return f"Automatic ({100 * density:.0f} %)" if key == SCREEN_SCALES[0] else f"{key} %"


def _folder() -> str:
    """Where a person's files are kept, or why nowhere."""
    try:
        return str(user_folder())
    except BadInput as problem:
        return str(problem)
