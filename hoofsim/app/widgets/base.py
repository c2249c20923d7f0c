"""What every widget shares: a place, a name, a state, and the events it may answer."""

from collections.abc import Iterator, Sequence

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.painter import Painter

Rect = pygame.Rect


class Widget:
    """A thing on the screen. Subclasses override what they need; positions are pixels of the window."""

    focusable = False

    def __init__(self, name: str, explain: str = "") -> None:
        self.name = name  # what a reader or a test calls it
        self.explain = explain  # one sentence for the tooltip
        self.rect = Rect(0, 0, 0, 0)
        self.clip: Rect | None = None  # the part of the window its scroll panel shows
        self.enabled = True
        self.visible = True
        self.focused = False
        self.hovered = False
        self.open = False  # an opened list or dialogue takes every event first

    def children(self) -> Sequence["Widget"]:
        """The widgets inside this one, in Tab order."""
        return ()

    def height_for(self, width: int, theme: Theme) -> int:
        """Height in pixels that the widget wants at a width."""
        return theme.px(2.2)

    def place(self, rect: Rect, theme: Theme) -> None:
        """Take this rectangle."""
        self.rect = Rect(rect)

    def shown_rect(self) -> Rect:
        """The part of the rectangle that can be seen and pressed."""
        return self.rect if self.clip is None else self.rect.clip(self.clip)

    def draw(self, painter: Painter) -> None:
        """Draw the widget in its place."""

    def draw_over(self, painter: Painter) -> None:
        """Draw what lies over everything else while `open`."""

    def content(self) -> object:
        """What it shows apart from its place and what a hand does to it; drawn again when this is another."""
        return None

    def over_rect(self) -> Rect:
        """The rectangle of `draw_over`."""
        return self.rect

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """The left button went down here; True when the widget wants the drag that follows."""
        return False

    def drag(self, position: tuple[int, int], theme: Theme) -> None:
        """The pointer moved while the button was held."""

    def release(self, position: tuple[int, int], theme: Theme) -> None:
        """The button came up."""

    def hover(self, position: tuple[int, int], theme: Theme) -> None:
        """The pointer moved over the widget with no button held."""

    def wheel(self, steps: float, theme: Theme) -> bool:
        """The wheel turned over it (positive: away from the hand); True when used."""
        return False

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """A key went down while focused; True when used."""
        return False

    def typed(self, text: str) -> bool:
        """Text was typed while focused; True when used."""
        return False

    def let_go(self) -> None:
        """The keyboard went elsewhere or a button went down: end what keys have taken hold of."""

    def tip_text(self) -> str:
        """What the tooltip says."""
        return self.explain


def walk(widgets: Sequence[Widget]) -> Iterator[Widget]:
    """The visible widgets and all inside them, in Tab order."""
    for widget in widgets:
        if widget.visible:
            yield widget
            yield from walk(widget.children())


def draw_focus_ring(painter: Painter, rect: Rect, clip: Rect | None = None) -> None:
    """A ring round the widget that has the keyboard: wide, with a light gap, so that no ground hides it."""
    theme = painter.theme
    width = theme.px(0.15)
    outer = rect.inflate(2 * theme.px(0.22), 2 * theme.px(0.22))
    bounds = (
        painter.surface.get_rect() if clip is None else clip.inflate(2 * theme.px(0.3), 2 * theme.px(0.3))
    )
    with painter.clipped(bounds):
        inner = outer.inflate(-2 * width, -2 * width)
        pygame.draw.rect(painter.surface, theme.colour("field"), inner, max(1, width // 2), theme.px(0.4))
        pygame.draw.rect(painter.surface, theme.colour("focus"), outer, width, theme.px(0.45))
