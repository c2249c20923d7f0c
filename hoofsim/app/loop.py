"""The loop: events to commands, fixed steps of time, drawing when something changed."""

import gc
from dataclasses import dataclass

import pygame

from hoofsim.app.application import Application
from hoofsim.app.window import LEAST_SIZE, open_window

STEP = 1 / 60
MOST_STEPS = 5  # after a pause the clock does not chase what was missed
# Seconds from the beginning of a frame: the rest of it is for showing and for the system.
DRAWING_ENDS_AFTER = 0.011
# Seconds: where following a drag, or the foot's motion, took longer, what came of it is drawn in the frame after.
LONG_BEFORE_DRAWING = 0.005


@dataclass(frozen=True)
class FrameTimes:
    """Seconds that the parts of one frame took; a frame that shows nothing new draws nothing."""

    events: float = 0.0
    steps: float = 0.0
    draw: float = 0.0
    flip: float = 0.0


def coalesced(events: list[pygame.event.Event]) -> list[pygame.event.Event]:
    """The events of one frame with runs of pointer movements cut to their last."""
    kept: list[pygame.event.Event] = []
    for event in events:
        if kept and event.type == pygame.MOUSEMOTION and kept[-1].type == pygame.MOUSEMOTION:
            kept[-1] = event
        else:
            kept.append(event)
    return kept


def spare_the_collector() -> None:
    """Tell the garbage collector that all there is by now stays, else looking through it costs two frames at times.

    What an earlier program in this process was told to keep is looked through once more: most of it is gone by now.
    """
    gc.unfreeze()
    gc.collect()
    gc.freeze()


class Loop:
    """Runs one application in one window until it is left."""

    def __init__(self, app: Application, surface: pygame.Surface) -> None:
        self.app = app
        self.surface = surface
        self.latest = FrameTimes()
        self._fullscreen = False
        self._dirty = True
        self._left_over = 0.0
        self._held: list[pygame.event.Event] = []
        self._put_off = False

    def run(self) -> None:
        """Frames until the application stops; the sitting is kept however this ends."""
        clock = pygame.time.Clock()
        spare_the_collector()
        try:
            while self.app.running:
                self.frame(clock.tick(60) / 1000, pygame.event.get())
        finally:
            self.app.keep_recovery()

    def frame(self, seconds: float, events: list[pygame.event.Event]) -> None:
        """One frame: `seconds` have passed and these events have come."""
        start = self.app.clock()
        for event in self._given_now(events):
            self._dirty = True
            if event.type in (pygame.VIDEORESIZE, pygame.WINDOWSIZECHANGED):
                self._resized()
            else:
                self.app.handle(event)
        if self.app.fullscreen != self._fullscreen:
            self._switch_fullscreen()
        handled = self.app.clock()
        self._left_over = min(self._left_over + seconds, MOST_STEPS * STEP)
        while self._left_over >= STEP:
            self._left_over -= STEP
            self._dirty = self._dirty or self.app.moving
            self.app.advance(STEP)
            self._dirty = self._dirty or self.app.moving
        stepped = self.app.clock()
        hurried = self.app.screen.following or self.app.screen.animating
        self._put_off = not self._put_off and hurried and stepped - start > LONG_BEFORE_DRAWING
        drawn = shown = stepped
        if self._dirty and self.app.running and not self._put_off:
            self.app.draw_until = start + DRAWING_ENDS_AFTER
            self.app.draw(self.surface)
            self.app.draw_until = None
            drawn = self.app.clock()
            pygame.display.flip()
            shown = self.app.clock()
            self._dirty = self.app.screen.behind
        self.latest = FrameTimes(handled - start, stepped - handled, drawn - stepped, shown - drawn)

    def _given_now(self, events: list[pygame.event.Event]) -> list[pygame.event.Event]:
        """The events of this frame; a drag goes on only once all that its last movement changed has been drawn."""
        given, self._held = coalesced([*self._held, *events]), []
        screen = self.app.screen
        undrawn = screen.behind or self._put_off
        if undrawn and screen.following and [event.type for event in given] == [pygame.MOUSEMOTION]:
            given, self._held = [], given
        return given

    def _resized(self) -> None:
        surface = pygame.display.get_surface()
        if surface is not None:
            self.surface = surface
            if surface.get_size() != self.app.size:
                width, height = surface.get_size()
                self.app.resized((width, height))

    def _switch_fullscreen(self) -> None:
        self._fullscreen = self.app.fullscreen
        size = self.app.size if not self._fullscreen else LEAST_SIZE
        self.surface = open_window(size, self._fullscreen)
        self._resized()
