"""The running program without a screen, with a foot that moves or is dragged: for measuring what its frames take."""

import math
import os
from collections.abc import Callable

import pygame

from hoofsim.app.loop import STEP, Loop, spare_the_collector
from hoofsim.app.main import without_window
from hoofsim.app.screens.pair.screen import PairScreen
from hoofsim.app.screens.sandbox.screen import SandboxScreen
from hoofsim.app.slow_motion import LIFE
from hoofsim.session.commands import SetLoad

Rehearsal = tuple[Loop, SandboxScreen | PairScreen, Callable[[int], list[pygame.event.Event]]]


def _loop(name: str, size: tuple[int, int], clock: Callable[[], float]) -> Loop:
    os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
    app, _ = without_window(name, size)
    app.clock = clock
    pygame.display.init()
    spare_the_collector()
    return Loop(app, pygame.display.set_mode(size))


def _sandbox(size: tuple[int, int], clock: Callable[[], float]) -> tuple[Loop, SandboxScreen]:
    loop = _loop("sandbox", size, clock)
    assert isinstance(loop.app.screen, SandboxScreen)
    return loop, loop.app.screen


def walking(size: tuple[int, int], clock: Callable[[], float]) -> Rehearsal:
    """A loop with a walk playing, its screen, and the events of each frame: none. `clock`: seconds for its budget."""
    loop, screen = _sandbox(size, clock)
    screen.give(SetLoad("walk"), None)
    screen.toggle_play()
    return loop, screen, lambda number: []


def two_walking(size: tuple[int, int], clock: Callable[[], float]) -> Rehearsal:
    """As `walking`, with two feet on one clock at life's pace, and all that is plotted of them computed before."""
    loop = _loop("pair", size, clock)
    screen = loop.app.screen
    assert isinstance(screen, PairScreen)
    screen.set(case="walk")
    screen.set_pace(LIFE)
    while not screen.twins.playing:
        loop.frame(STEP, [])
        if not screen.plot.working:
            screen.toggle_play()
    return loop, screen, lambda number: []


def dragging(size: tuple[int, int], clock: Callable[[], float]) -> Rehearsal:
    """A loop with the ring at the heel in the hand, its screen, and events that move it to and fro, ever farther."""
    loop, screen = _sandbox(size, clock)
    loop.frame(STEP, [])
    x, y = (round(side) for side in screen.view.handle_places()["heel"])

    def motion(number: int) -> pygame.event.Event:
        place = (x, y + round(0.1 * number * math.sin(0.2 * number)))
        return pygame.event.Event(pygame.MOUSEMOTION, pos=place, rel=(0, 0), buttons=(1, 0, 0))

    loop.frame(STEP, [motion(0), pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=(x, y), button=1)])
    return loop, screen, lambda number: [motion(number)]
