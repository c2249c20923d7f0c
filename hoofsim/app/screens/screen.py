"""What every screen shares: widgets in Tab order, one focus, pointer capture, opened lists, tooltips and a notice."""

from typing import TYPE_CHECKING

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget, draw_focus_ring, walk
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.tooltip import Lines, draw_tooltip

if TYPE_CHECKING:
    from hoofsim.app.application import Application

TOOLTIP_AFTER = 0.55  # seconds of rest
DOUBLE_PRESS_WITHIN = 0.4  # seconds


class Screen:
    """One thing that fills the window. Subclasses give `layout` and, if they animate, `advance`."""

    name = "screen"
    title = ""

    def __init__(self, app: "Application") -> None:
        self.app = app
        self.widgets: list[Widget] = []
        self.focus: Widget | None = None
        self.focus_shown = False  # the ring appears once the keyboard is used
        self.pointer = (-1, -1)
        self._captured: Widget | None = None
        self._rested = 0.0
        self._clock = 0.0
        self._last_press: tuple[float, Widget | None] = (-1.0, None)
        self.size = (0, 0)
        self.animating = False
        self.behind = False  # something has yet to be drawn that the last frame had no time for

    # -- for subclasses ------------------------------------------------------------------------------------------

    def layout(self, theme: Theme, window: Rect) -> None:
        """Place every widget in the window."""
        raise NotImplementedError

    def draw_ground(self, painter: Painter) -> None:
        """What lies behind the widgets."""
        painter.surface.fill(painter.theme.colour("page"))

    def shortcut(self, event: pygame.event.Event) -> bool:
        """A key that no widget wanted; True when used."""
        return False

    def advance(self, seconds: float) -> None:
        """One fixed step of whatever moves."""

    def entered(self) -> None:
        """The screen came to the top of the stack."""

    def left(self) -> None:
        """The screen was covered or taken away."""
        if self.focus is not None:
            self.focus.let_go()

    def tooltip(self) -> Lines:
        """What to say about the thing under the pointer."""
        widget = self.widget_at(self.pointer)
        return [(widget.tip_text(), "small")] if widget is not None and widget.tip_text() else []

    # -- layout and drawing --------------------------------------------------------------------------------------

    def place(self) -> None:
        """Lay everything out for the window's present size and theme."""
        self.size = self.app.size
        for widget in walk(self.widgets):
            widget.clip = None
        self.layout(self.app.theme, Rect((0, 0), self.size))

    def draw(self, surface: pygame.Surface) -> Painter:
        """Draw the whole screen; the painter returned holds the layout report."""
        painter = Painter(surface, self.app.theme)
        self.draw_ground(painter)
        for widget in self.widgets:
            if widget.visible:
                widget.draw(painter)
        self.draw_over(painter)
        return painter

    def draw_over(self, painter: Painter) -> None:
        """What lies over everything: focus ring, opened list, tooltip."""
        if self.focus is not None and self.focus_shown and self.focus.visible:
            draw_focus_ring(painter, self.focus.rect, self.focus.clip)
        opened = self.opened()
        if opened is not None:
            painter.layer += 1
            opened.draw_over(painter)
        elif self._captured is None and self._rested >= TOOLTIP_AFTER:
            lines = self.tooltip()
            if lines:
                painter.layer += 1
                draw_tooltip(painter, lines, self.pointer)

    # -- finding widgets -----------------------------------------------------------------------------------------

    def opened(self) -> Widget | None:
        """The widget whose list is open, if any."""
        return next((widget for widget in walk(self.widgets) if widget.open), None)

    def widget_at(self, position: tuple[int, int]) -> Widget | None:
        """The innermost visible widget under a point."""
        found = None
        for widget in walk(self.widgets):
            if widget.shown_rect().collidepoint(position):
                found = widget
        return found

    def focusable(self) -> list[Widget]:
        """Everything Tab stops at, in order."""
        return [widget for widget in walk(self.widgets) if widget.focusable and widget.enabled]

    def set_focus(self, widget: Widget | None) -> None:
        """Give the keyboard to a widget and bring it into view."""
        if self.focus is not None:
            self.focus.focused = False
            if widget is not self.focus:
                self.focus.let_go()
        self.focus = widget
        if widget is not None:
            widget.focused = True
            for panel in walk(self.widgets):
                if isinstance(panel, ScrollPanel) and widget in set(walk(panel.items)):
                    panel.reveal(widget)

    def move_focus(self, step: int) -> None:
        """Tab: to the next (or, with -1, the previous) widget, round and round."""
        stops = self.focusable()
        if not stops:
            return
        here = stops.index(self.focus) if self.focus in stops else (-1 if step > 0 else 0)
        self.set_focus(stops[(here + step) % len(stops)])
        self.focus_shown = True

    def drop_lost_focus(self) -> None:
        """Forget a focus whose widget is gone or hidden."""
        if self.focus is not None and self.focus not in set(walk(self.widgets)):
            self.set_focus(None)

    # -- events --------------------------------------------------------------------------------------------------

    def tick(self, seconds: float) -> None:
        """Time passes: for tooltips, double presses and whatever moves."""
        self._clock += seconds
        self._rested += seconds
        self.advance(seconds)

    @property
    def following(self) -> bool:
        """True while a widget follows the pointer."""
        return self._captured is not None

    @property
    def tooltip_due(self) -> bool:
        """True while the pointer rests and its tooltip has yet to appear."""
        return self._rested < TOOLTIP_AFTER + 0.1

    def handle(self, event: pygame.event.Event) -> bool:
        """Give an event to whom it concerns; True when used."""
        theme = self.app.theme
        if event.type == pygame.MOUSEMOTION:
            self._moved(event.pos, theme)
            return True
        if event.type == pygame.MOUSEBUTTONDOWN and event.button == 1:
            return self._pressed(event.pos, theme)
        if event.type == pygame.MOUSEBUTTONUP and event.button == 1:
            captured, self._captured = self._captured, None
            if captured is not None:
                captured.release(event.pos, theme)
            return captured is not None
        if event.type == pygame.MOUSEWHEEL:
            return self._wheeled(event.precise_y, theme)
        if event.type == pygame.TEXTINPUT and self.focus is not None:
            return self.focus.typed(event.text)
        if event.type == pygame.KEYDOWN:
            return self._key(event, theme)
        if event.type == pygame.WINDOWLEAVE:
            self.pointer = (-1, -1)
            self._hover(theme)
        return False

    def _moved(self, position: tuple[int, int], theme: Theme) -> None:
        if position != self.pointer:
            self._rested = 0.0
        self.pointer = position
        if self._captured is not None:
            self._captured.drag(position, theme)
        else:
            self._hover(theme)

    def _hover(self, theme: Theme) -> None:
        opened = self.opened()
        if opened is not None:
            opened.hover(self.pointer, theme)
            return
        under = self.widget_at(self.pointer)
        for widget in walk(self.widgets):
            widget.hovered = widget is under
        if under is not None:
            under.hover(self.pointer, theme)

    def _pressed(self, position: tuple[int, int], theme: Theme) -> bool:
        self.pointer = position
        self._rested = 0.0
        if self.focus is not None:
            self.focus.let_go()
        opened = self.opened()
        if opened is not None:
            opened.press(position, theme)
            return True
        widget = self.widget_at(position)
        if widget is None:
            self.set_focus(None)
            return False
        if widget.focusable and widget.enabled:
            self.set_focus(widget)
        self.focus_shown = False
        at, last = self._last_press
        double = last is widget and self._clock - at < DOUBLE_PRESS_WITHIN
        self._last_press = (self._clock, None if double else widget)
        if widget.press(position, theme, double):
            self._captured = widget
        return True

    def _wheeled(self, steps: float, theme: Theme) -> bool:
        opened = self.opened()
        if opened is not None:
            return opened.wheel(steps, theme)
        under = [w for w in walk(self.widgets) if w.shown_rect().collidepoint(self.pointer)]
        return any(widget.wheel(steps, theme) for widget in reversed(under))

    def _key(self, event: pygame.event.Event, theme: Theme) -> bool:
        opened = self.opened()
        if opened is not None:
            return opened.key(event, theme)
        if event.key == pygame.K_TAB:
            self.move_focus(-1 if event.mod & pygame.KMOD_SHIFT else 1)
            return True
        plain = not event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT | pygame.KMOD_META)
        if plain and self.focus is not None and self.focus.key(event, theme):
            self.focus_shown = True
            return True
        return self.shortcut(event)
