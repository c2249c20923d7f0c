"""A place for the guided lessons: what there is to choose from."""

from typing import TYPE_CHECKING

import pygame

from hoofsim.app.screens.bar import HEIGHT, Bar
from hoofsim.app.screens.screen import Screen
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.label import Label
from hoofsim.app.widgets.layout import inset, split_top
from hoofsim.app.widgets.scroll import ScrollPanel

if TYPE_CHECKING:
    from hoofsim.app.application import Application


class LessonsScreen(Screen):
    """A list of lessons, empty while none is installed."""

    name = "lessons"
    title = "Lessons"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.bar = Bar(self.title, app.back)
        self.panel = ScrollPanel("lessons", [Label("No lesson is installed.", "italic", "quiet")])
        self.widgets = [self.bar, self.panel]

    def layout(self, theme: Theme, window: Rect) -> None:
        """Bar and list."""
        bar, rest = split_top(window, theme.px(HEIGHT))
        self.bar.place(bar, theme)
        self.panel.place(inset(rest, theme.px(2), theme.px(1.4)), theme)

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Escape goes back."""
        if event.key == pygame.K_ESCAPE:
            self.app.back()
            return True
        return False
