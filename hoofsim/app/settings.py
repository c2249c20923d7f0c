"""What a person has set for the window, kept in the user folder between sittings."""

from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any

from hoofsim.app.theme import TEXT_SCALE_HIGH, TEXT_SCALE_LOW
from hoofsim.errors import BadInput
from hoofsim.files.reader import read_file
from hoofsim.session.store import plain_yaml, user_folder
from hoofsim.writing import write_whole

FILE_NAME = "settings.yaml"
SCREEN_SCALES = ("automatic", "100", "125", "150", "200")
# What a setting in words may be.
CHOICES = {"length_unit": ("mm", "in"), "screen_scale": SCREEN_SCALES}


@dataclass(frozen=True)
class Settings:
    """Every setting with its start value."""

    length_unit: str = "mm"
    text_percent: int = 100
    contrast: bool = False
    reduced_motion: bool = False
    cautions_seen: bool = False
    screen_scale: str = SCREEN_SCALES[0]

    @property
    def text_scale(self) -> float:
        """Text size as a factor, held in its range."""
        return min(max(self.text_percent / 100, TEXT_SCALE_LOW), TEXT_SCALE_HIGH)

    def screen_factor(self, density: float) -> float:
        """How many times larger than usual everything is drawn on a display that asks for `density`."""
        return density if self.screen_scale == SCREEN_SCALES[0] else int(self.screen_scale) / 100


def settings_path() -> Path:
    """The settings file."""
    return user_folder() / FILE_NAME


def load_settings() -> tuple[Settings, str | None]:
    """The kept settings; where the file is missing or spoiled the start values, in the second case with a sentence."""
    try:
        path = settings_path()
        if not path.is_file():
            return Settings(), None
        data = read_file(path).data
    except (BadInput, OSError) as problem:
        return Settings(), f"The settings could not be read, so the start values hold: {problem}"
    return accepted(data)


def accepted(data: Any) -> tuple[Settings, str | None]:
    """Settings from plain values, leaving at its start value whatever is not of the right kind."""
    settings, refused = Settings(), []
    for name, value in (data if isinstance(data, dict) else {}).items():
        if name not in asdict(settings):
            refused.append(str(name))
        elif type(value) is not type(getattr(settings, name)) or value not in CHOICES.get(name, (value,)):
            refused.append(name)
        else:
            settings = replace(settings, **{name: value})
    sentence = f"Some settings were not understood and left at their start values: {', '.join(refused)}."
    return settings, sentence if refused else None


def save_settings(settings: Settings) -> str | None:
    """Keep the settings; a sentence instead of an error when the place cannot be written."""
    try:
        write_whole(settings_path(), plain_yaml(asdict(settings)), making_folder=True)
    except BadInput as problem:
        return f"The settings hold for now but could not be kept: {problem}"
    return None
