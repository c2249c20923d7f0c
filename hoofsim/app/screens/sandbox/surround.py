"""Everything round the sheet, kept as drawn: a dock is drawn again only when what it shows has changed."""

from typing import TYPE_CHECKING

import pygame

from hoofsim.app.kept_ground import KeptGround
from hoofsim.app.screens.sandbox.presenter import draw_strip
from hoofsim.app.screens.sandbox.status import draw_hint, draw_status, status_words
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.painter import Painter

if TYPE_CHECKING:
    from hoofsim.app.screens.sandbox.screen import SandboxScreen

# Places whose widgets show numbers, and so change while nobody touches them.
DOCKS = ("measures", "curves", "panel")
REST, STATUS = "rest", "status"


class Surround:
    """Which docks show something else by now; the sheet is drawn over what is kept of them."""

    def __init__(self, screen: "SandboxScreen") -> None:
        self._screen = screen
        self._kept = KeptGround()
        self._shown: dict[str, object] = {}

    def forget(self) -> None:
        """Something was touched or placed: draw everything anew."""
        self._shown = {}

    @property
    def forgotten(self) -> bool:
        """Whether everything is to be drawn anew."""
        return not self._shown

    def fits(self, window: pygame.Surface) -> bool:
        """Whether it was drawn for a window of this size and the theme in force."""
        return self._kept.fits(window, self._screen.app.theme)

    @property
    def status_changed(self) -> bool:
        """Whether the line at the foot says something else by now."""
        return STATUS in self._screen.places and self._shown.get(STATUS) != self._status()

    def _status(self) -> object:
        return status_words(self._screen), self._screen.shown.at_rest

    def onto(self, painter: Painter) -> None:
        """Lay it down as it is, with its words."""
        self._kept.onto(painter)

    def renew(self, like: pygame.Surface) -> None:
        """Draw what has changed, or all of it, for a window such as `like`."""
        theme = self._screen.app.theme
        if not self.fits(like):
            self.forget()
        surface, places = self._kept.surface_for(like, theme), self._screen.places
        docks = {key: places[key] for key in DOCKS if key in places}
        inside: dict[str, list[Widget]] = {key: [] for key in (*docks, REST)}
        for widget in self._screen.widgets:
            if widget.visible and widget is not self._screen.view:
                middle = widget.rect.center
                inside[next((k for k, dock in docks.items() if dock.collidepoint(middle)), REST)].append(
                    widget
                )
        if self.forgotten:
            self._rest(surface, theme, inside[REST])
        for key, rect in docks.items():
            self._dock(surface, theme, key, rect, inside[key])
        if self.status_changed:
            self._shown[STATUS] = self._status()
            painter = Painter(surface, theme)
            draw_status(painter, places[STATUS], self._screen)
            self._kept.records[STATUS] = painter.records

    def _rest(self, surface: pygame.Surface, theme: Theme, widgets: list[Widget]) -> None:
        """The ground and what changes by hand only."""
        screen, painter = self._screen, Painter(surface, theme)
        screen.draw_ground(painter)
        for widget in widgets:
            widget.draw(painter)
        if screen.presenter.on:
            shown = screen.shown
            draw_strip(
                painter, screen.places["strip"], screen.presenter, shown.pace, screen.view.pen, shown.frozen
            )
        else:
            draw_hint(painter, screen.places["hint"], screen.view.tool, screen.sheet.named)
        self._kept.records = {REST: painter.records}
        self._shown = {REST: True}

    def _dock(
        self, surface: pygame.Surface, theme: Theme, key: str, rect: Rect, widgets: list[Widget]
    ) -> None:
        content = tuple(widget.content() for widget in widgets)
        if self._shown.get(key) == content:
            return
        fresh = key not in self._shown
        self._shown[key] = content
        painter = Painter(surface, theme)
        with painter.clipped(rect):
            if not fresh:
                self._screen.draw_ground(painter)
            for widget in widgets:
                widget.draw(painter)
        self._kept.records[key] = painter.records
