"""A screen of cards on the page, for what is read or chosen from and then left again."""

from collections.abc import Sequence

import pygame

from hoofsim.app.screens.screen import Screen
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.painter import Painter


class CardScreen(Screen):
    """Draws `cards`, which `layout` places, behind its widgets; Escape goes back."""

    cards: Sequence[Rect] = ()

    def draw_ground(self, painter: Painter) -> None:
        """The cards."""
        super().draw_ground(painter)
        for card in self.cards:
            painter.box(card, "card", "line", 0.6)

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Escape goes back."""
        if event.key == pygame.K_ESCAPE:
            self.app.back()
            return True
        return False
