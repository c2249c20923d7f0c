"""Teaching in front of a class: large type, layers on and off, pen, freeze, slow motion, pictures to keep."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import pygame

from hoofsim.app.foot_picture import LAYERS
from hoofsim.app.slow_motion import LIFE, PACES
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.painter import Painter
from hoofsim.foot.presets import PRESETS


@dataclass
class Presenter:
    """Whether the presenter's view is on, and what it shows."""

    on: bool = False
    labels: bool = True
    hidden: frozenset[str] = field(default_factory=frozenset)

    def toggle_layer(self, digit: str) -> None:
        """Hide a layer, or show it again."""
        self.hidden = self.hidden ^ {digit}


def digit_of(event: pygame.event.Event) -> str | None:
    """The layer's digit that a key stands for, if any."""
    name = pygame.key.name(event.key).strip("[]")
    return name if name in {digit for digit, _, _ in LAYERS} else None


def neighbour_preset(name: str, step: int) -> str:
    """The ready foot before or after, round and round."""
    names = list(PRESETS)
    return names[(names.index(name) + step) % len(names)]


def draw_strip(
    painter: Painter, rect: Rect, presenter: Presenter, pace: float, pen: bool, frozen: bool
) -> None:
    """The line of layers at the foot of the view: digit and word, struck through while hidden."""
    theme = painter.theme
    painter.box(rect, "card", None, 0)
    painter.line(rect.topleft, (rect.right, rect.top), "line", theme.hairline)
    state = [words for words, on in (("pen", pen), ("frozen", frozen)) if on]
    if pace < LIFE:
        state.append(PACES[pace].lower())
    right = theme.px(0.8)
    if state:
        words = ", ".join(state)
        width = theme.text_width(words, "small_bold")
        painter.text(words, Rect(rect.right - width - right, rect.y, width, rect.h), "small_bold", "warn")
        right += width + theme.px(1)
    entries = [f"{digit} {words}" for digit, words, _ in LAYERS]
    widths = [theme.text_width(words, "small") for words in entries]
    gap = theme.px(0.9)
    whole = sum(widths) + gap * len(widths)
    if whole > rect.w - right - theme.px(0.8):
        entries = [digit for digit, _, _ in LAYERS]
        widths = [theme.text_width(words, "small") for words in entries]
    x = rect.x + theme.px(0.8)
    for (digit, _, _), words, width in zip(LAYERS, entries, widths, strict=True):
        hidden = digit in presenter.hidden
        painter.text(words, Rect(x, rect.y, width, rect.h), "small", "quiet" if hidden else "ink")
        if hidden:
            painter.line((x, rect.centery), (x + width, rect.centery), "quiet", theme.hairline)
        x += width + gap


def free_name(
    folder: Path, stem: str, endings: tuple[str, ...], exists: Callable[[Path], bool] = Path.exists
) -> Path:
    """A path in the folder, without ending, under which none of the endings is taken yet."""
    number = 1
    while any(exists(folder / f"{stem}-{number}{ending}") for ending in endings):
        number += 1
    return folder / f"{stem}-{number}"
