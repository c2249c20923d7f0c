"""What stands still behind a moving picture, kept as drawn, so that a frame lays it down instead of drawing it."""

from collections.abc import Callable

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.painter import Painter, TextRecord


class KeptGround:
    """One surface as large as the window, with the words on it for the layout report."""

    def __init__(self) -> None:
        self._surface: pygame.Surface | None = None
        self._theme: Theme | None = None
        self._records: list[TextRecord] = []
        self.old = True

    def forget(self) -> None:
        """Something on it has changed."""
        self.old = True

    def fits(self, window: pygame.Surface, theme: Theme) -> bool:
        """Whether it was drawn for a window of this size and this theme."""
        size = None if self._surface is None else self._surface.get_size()
        return size == window.get_size() and self._theme == theme

    def renew(self, window: pygame.Surface, theme: Theme, draw: Callable[[Painter], None]) -> None:
        """Draw it anew, by `draw`, for this window and theme."""
        if self._surface is None or not self.fits(window, theme):
            self._surface, self._theme = pygame.Surface(window.get_size(), 0, window), theme
        painter = Painter(self._surface, theme)
        draw(painter)
        self._records, self.old = painter.records, False

    def onto(self, painter: Painter) -> None:
        """Lay it down as it is, with its words."""
        if self._surface is not None:
            painter.surface.blit(self._surface, (0, 0))
            painter.records += self._records
