"""The page about the model: assumptions, equations, what agrees with the world, and what it cannot say."""

from typing import TYPE_CHECKING

import pygame

from hoofsim.app.screens.bar import HEIGHT, Bar
from hoofsim.app.screens.card_screen import CardScreen
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.layout import centred, inset, split_top
from hoofsim.app.widgets.rich_text import RichText
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.resources import model_page

if TYPE_CHECKING:
    from hoofsim.app.application import Application

COLUMN = 52.0  # width of the text in text sizes: lines of a length that is easily read


class ModelPageScreen(CardScreen):
    """The page in one column that scrolls; it has the keyboard from the start."""

    name = "model"
    title = "The model"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.bar = Bar(self.title, app.back)
        self.panel = ScrollPanel("the model", [RichText(model_page())])
        self.widgets = [self.bar, self.panel]

    def entered(self) -> None:
        """Arrows and Page scroll at once."""
        self.set_focus(self.panel)

    def layout(self, theme: Theme, window: Rect) -> None:
        """The bar, and the card under it."""
        bar, rest = split_top(window, theme.px(HEIGHT))
        self.bar.place(bar, theme)
        area = inset(rest, theme.px(0.8))
        card = centred(area, theme.px(COLUMN), area.h)
        self.cards = (card,)
        self.panel.place(inset(card, theme.px(1.4), theme.px(1.0)), theme)

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Escape goes back; any other key scrolls if it can."""
        return super().shortcut(event) or self.panel.key(event, self.app.theme)
