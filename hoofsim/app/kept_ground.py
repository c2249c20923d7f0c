"""What stands still behind a moving picture, kept as drawn, so that a frame lays it down instead of drawing it."""

from collections.abc import Callable

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.painter import Painter, TextRecord


class KeptGround:
    """One surface as large as the window, with the words on each part of it in `records`, for the layout report."""

    def __init__(self) -> None:
        self._surface: pygame.Surface | None = None
        self._theme: Theme | None = None
        self.records: dict[str, list[TextRecord]] = {}

    def fits(self, window: pygame.Surface, theme: Theme) -> bool:
        """Whether it was drawn for a window of this size and this theme."""
        size = None if self._surface is None else self._surface.get_size()
        return size == window.get_size() and self._theme == theme

    def surface_for(self, window: pygame.Surface, theme: Theme) -> pygame.Surface:
        """The surface to draw on for this window and theme; an empty one where it did not fit."""
        if self._surface is None or not self.fits(window, theme):
            self._surface, self._theme = pygame.Surface(window.get_size(), 0, window), theme
            self.records = {}
        return self._surface

    def renew(self, window: pygame.Surface, theme: Theme, draw: Callable[[Painter], None]) -> None:
        """Draw all of it anew, by `draw`."""
        painter = Painter(self.surface_for(window, theme), theme)
        draw(painter)
        self.records = {"all": painter.records}

    def onto(self, painter: Painter) -> None:
        """Lay it down as it is, with its words."""
        if self._surface is not None:
            painter.surface.blit(self._surface, (0, 0))
            for records in self.records.values():
                painter.records += records
