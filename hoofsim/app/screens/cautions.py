"""What every reader must be told: shown once at the first start, and one key (F1) away ever after."""

from typing import TYPE_CHECKING

import pygame

from hoofsim.app.screens.screen import Screen
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.icons import draw_icon
from hoofsim.app.widgets.layout import centred, inset, split_bottom, split_top
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.rich_text import RichText
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.cautions import CAUTIONS, DEMONSTRATION, LIMITS

if TYPE_CHECKING:
    from hoofsim.app.application import Application


def cautions_text() -> str:
    """The cautions, what the model leaves out, and that the examples are invented."""
    items = "\n".join(f"- {sentence}" for sentence in CAUTIONS)
    return f"{items}\n\n# What the model leaves out\n\n{LIMITS}\n\n{DEMONSTRATION}"


class CautionsScreen(Screen):
    """The cautions on a card in the middle, with one button to go on and one to read more."""

    name = "cautions"
    title = "Before you use this"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.panel = ScrollPanel("cautions", [RichText(cautions_text())])
        first = not app.settings.cautions_seen
        self.understood = Button(
            "I have read this" if first else "Back", self._done, icon="tick" if first else "back", kind="main"
        )
        self.model = Button("The model", lambda: app.open("model"), "what it assumes, and how far it holds")
        self.widgets = [self.panel, self.model, self.understood]
        self.card = Rect(0, 0, 0, 0)
        self.head = Rect(0, 0, 0, 0)

    def _done(self) -> None:
        if not self.app.settings.cautions_seen:
            self.app.change_settings(cautions_seen=True)
        self.app.back()

    def entered(self) -> None:
        """The button has the keyboard from the start."""
        self.set_focus(self.understood)

    def layout(self, theme: Theme, window: Rect) -> None:
        """A card as tall as the text, or as the window allows."""
        width = min(theme.px(46), window.w - theme.px(1.6))
        inner_width = width - theme.px(3.2)
        wanted = self.panel.height_for(inner_width, theme) + theme.px(8.8)
        self.card = centred(window, width, min(wanted, window.h - theme.px(1.6)))
        inner = inset(self.card, theme.px(1.6), theme.px(1.2))
        self.head, rest = split_top(inner, theme.px(2.4), theme.px(0.6))
        body, foot = split_bottom(rest, theme.px(2.4), theme.px(0.8))
        self.panel.place(body, theme)
        button_width = self.understood.width(theme)
        self.understood.place(Rect(foot.right - button_width, foot.y, button_width, foot.h), theme)
        self.model.place(Rect(foot.x, foot.y, self.model.width(theme), foot.h), theme)

    def draw_ground(self, painter: Painter) -> None:
        """The card with its title."""
        super().draw_ground(painter)
        theme = painter.theme
        painter.box(self.card, "card", "line", 0.6)
        sign = Rect(self.head.x, self.head.centery - theme.px(0.9), theme.px(1.8), theme.px(1.8))
        draw_icon(painter, "caution", sign, "warn")
        words = Rect(
            sign.right + theme.px(0.7), self.head.y, self.head.right - sign.right - theme.px(0.7), self.head.h
        )
        painter.text(self.title, words, "title")

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Escape and F1 close, once the text has been confirmed."""
        if event.key in (pygame.K_ESCAPE, pygame.K_RETURN):
            self._done()
            return True
        return self.panel.key(event, self.app.theme)
