"""Random hands on the whole window: seeded keys, presses, drags, wheel and sizes, through the loop that people use.

Long form: `python -m tests.soak.window --events 100000 --seed 1`. The short form is in `test_window_soak.py`.

Every event goes through `Loop.frame`, one or a few a frame, and the frame is drawn (to memory) as it would be on a
screen. After each frame the program must be running; every `--look-every` events the hand rests and is looked closer:
the numbers are finite, the sitting is what its history gives, undoing all of it gives the start and redoing all of it
the end, and the window stands as if drawn anew. A sitting ends after `--sitting` events and a fresh program begins.
"""

import os
import sys
import tempfile
import traceback
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random

os.environ["SDL_VIDEODRIVER"] = "dummy"
os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")

import numpy as np
import pygame

from hoofsim.app.application import Application
from hoofsim.app.exports import export_bytes
from hoofsim.app.loop import STEP, Loop
from hoofsim.app.screens.pair.screen import PairScreen
from hoofsim.app.screens.sandbox.screen import SandboxScreen
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.app.screens.screen import Screen
from hoofsim.app.settings import Settings
from hoofsim.app.widgets.base import walk
from hoofsim.session.commands import MOVING_CASES, SetLoad
from hoofsim.session.sandbox_file import as_text, from_text
from hoofsim.session.session import Session
from hoofsim.session.state import State, replay
from tests.soak.memory import Marks, parser

NAMES = (
    "TAB RETURN SPACE ESCAPE LEFT RIGHT UP DOWN HOME END PAGEUP PAGEDOWN BACKSPACE DELETE F1 F2 F11 x "
    "a b c d f g h k l m n p r s t 0 1 2 3 4 5 6 7 8 9 PLUS MINUS z y o"
)
KEYS = [getattr(pygame, f"K_{name}") for name in NAMES.split(" ")]
MODS = [0, 0, 0, 0, pygame.KMOD_SHIFT, pygame.KMOD_CTRL]
SIZES = ((640, 480), (1024, 700), (1280, 800), (700, 1000), (1280, 800))
REST_FRAMES = 60  # what moves for longer, a stride, is left moving

Events = list[pygame.event.Event]


@dataclass(frozen=True)
class Plan:
    """How many events, and how often the closer look is taken."""

    events: int
    seed: int
    sitting: int = 2000
    look_every: int = 250
    first: int = 0  # sitting to begin with, to meet a fault again


@dataclass
class Tally:
    """What was done and looked at."""

    events: int = 0
    frames: int = 0
    looks: int = 0
    compared: int = 0
    sittings: int = 0


class Found(Exception):
    """Something that must never be."""


def motion(place: tuple[int, int], pressed: int = 0) -> pygame.event.Event:
    """The pointer moves."""
    return pygame.event.Event(pygame.MOUSEMOTION, pos=place, rel=(0, 0), buttons=(pressed, 0, 0))


def button(down: bool, place: tuple[int, int]) -> pygame.event.Event:
    """The left button goes down or up."""
    return pygame.event.Event(pygame.MOUSEBUTTONDOWN if down else pygame.MOUSEBUTTONUP, pos=place, button=1)


def key_events(chance: Random) -> Events:
    """A key, with the text it types."""
    key, mod = chance.choice(KEYS), chance.choice(MODS)
    name = pygame.key.name(key)
    text = name if len(name) == 1 and not mod else ""
    events = [pygame.event.Event(pygame.KEYDOWN, key=key, mod=mod, unicode=text)]
    return events + ([pygame.event.Event(pygame.TEXTINPUT, text=text)] if text else [])


def drag(chance: Random, start: tuple[int, int], end: tuple[int, int], steps: int) -> Iterator[Events]:
    """Press, move by so many steps, a few of them in one frame, and let go."""
    yield [motion(start), button(True, start)]
    coming: Events = []
    for step in range(1, steps + 1):
        x, y = (round(a + (b - a) * step / steps) for a, b in zip(start, end, strict=True))
        coming.append(motion((x, y), 1))
        if chance.random() < 0.6:
            yield coming
            coming = []
    yield [*coming, button(False, end)]


def random_deed(loop: Loop, chance: Random) -> Iterator[Events]:
    """One deed of a hand as the events of one frame after another; an empty frame lets time pass."""
    app, kind = loop.app, chance.random()
    wide, high = app.size
    place = (chance.randrange(wide), chance.randrange(high))
    if kind < 0.35:
        yield key_events(chance)
    elif kind < 0.6:
        shown = [one.shown_rect() for one in walk(app.screen.widgets)]
        one = chance.choice([rect for rect in shown if rect.w > 2 and rect.h > 2])
        place = (chance.randrange(one.left, one.right), chance.randrange(one.top, one.bottom))
        yield from drag(chance, place, place, 1)
    elif kind < 0.8:
        yield from drag(
            chance, place, (chance.randrange(wide), chance.randrange(high)), chance.randrange(2, 12)
        )
    elif kind < 0.92:
        wheel = pygame.event.Event(pygame.MOUSEWHEEL, precise_y=chance.uniform(-4, 4), y=0, x=0)
        yield [motion(place)]
        yield [wheel]
    elif kind < 0.94:
        yield [pygame.event.Event(pygame.WINDOWLEAVE)]
    elif kind < 0.95:
        set_out(app.screen, chance)
        yield []
    elif kind < 0.96:
        size = chance.choice(SIZES)
        loop.surface = pygame.display.set_mode(size)
        yield [pygame.event.Event(pygame.VIDEORESIZE, size=size, w=size[0], h=size[1])]
    else:
        for _ in range(chance.randrange(30)):
            yield []


def set_out(screen: Screen, chance: Random) -> None:
    """Let what is shown walk or trot: a random hand seldom finds the way to both choice and button."""
    case = chance.choice(MOVING_CASES)
    if isinstance(screen, PairScreen):
        screen.set(case=case)
    elif isinstance(screen, SandboxScreen):
        screen.give(SetLoad(case), None)
    else:
        return
    screen.toggle_play()


def look(loop: Loop, tally: Tally) -> None:
    """Let the hand rest and look at everything."""
    app, session = loop.app, loop.app.session
    tally.looks += 1
    if session.state != replay(State(), session.commands[: session.position])[-1]:
        raise Found("the state is not what the history gives")
    if from_text(as_text(session), "soak").state != session.state:
        raise Found("the sitting written and read is another")
    for name, foot in (("foot", session.loaded), ("baseline", session.baseline)):
        numbers = [value for value in foot.measures().values() if value is not None]
        if not np.isfinite(numbers).all():
            raise Found(f"a measure of the {name} is no number")
    for shown in shown_by(app.screen):
        numbers = [value for value in shown.values().values() if value is not None]
        if not np.isfinite(numbers).all() or not all(
            np.isfinite(p).all() for p in shown.foot.points.values()
        ):
            raise Found("a number or a place that is shown is no number")
    before, position = session.state, session.position
    while session.undo():
        pass
    if session.state != State() or session.position:
        raise Found("undoing to the start is not the start")
    while session.position < position and session.redo():
        pass
    if (session.state, session.position) != (before, position):
        raise Found("redoing what was undone is not where it was")
    if at_rest(loop, tally):
        anew = pygame.Surface(app.size, 0, loop.surface)
        app.draw(anew)
        tally.compared += 1
        if not np.array_equal(pygame.surfarray.pixels2d(loop.surface), pygame.surfarray.pixels2d(anew)):
            raise Found("the window does not stand as drawn anew")


def shown_by(screen: Screen) -> list[Shown]:
    """The feet that a screen shows."""
    if isinstance(screen, PairScreen):
        feet = list(screen.twins.shown.values())
        if screen.twins.playing and len({foot.stance_percent() for foot in feet}) > 1:
            raise Found("two feet are at two moments of their stride")
        return feet
    return [screen.shown] if isinstance(screen, SandboxScreen) else []


def at_rest(loop: Loop, tally: Tally) -> bool:
    """Whether the window comes to rest within `REST_FRAMES`: nothing moves, and all that is due has been drawn."""
    loop.frame(STEP, [motion(loop.app.screen.pointer)])
    for _ in range(REST_FRAMES):
        tally.frames += 1
        screen = loop.app.screen
        loop.frame(STEP if screen.animating else 0.0, [])
        if loop.latest.draw == 0.0 and not screen.animating:
            return not screen.following
    return False


def sitting(plan: Plan, number: int, most: int, tally: Tally) -> None:
    """One program from its start to `most` events later."""
    chance = Random(f"{plan.seed} {number}")
    pygame.display.init()
    pygame.font.init()
    size = chance.choice(SIZES)
    settings = Settings(cautions_seen=chance.random() < 0.8, reduced_motion=chance.random() < 0.3)
    app = Application(size, settings)
    app.open("start")
    app.open(chance.choices(("sandbox", "pair", "start"), (6, 2, 2))[0])
    loop, done = Loop(app, pygame.display.set_mode(size)), 0
    while done < most:
        for events in random_deed(loop, chance):
            loop.frame(STEP, events)
            tally.frames += 1
            if not app.running:
                raise Found("the program has left by itself")
            if done // plan.look_every != (done + len(events)) // plan.look_every:
                look(loop, tally)
            done += len(events)
            tally.events += len(events)
    tally.sittings += 1


def soak(plan: Plan, folder: Path, watch: Callable[[Tally], None] | None = None) -> Tally:
    """Do and look; Found at the first fault, with the sitting to meet it again. Files are written in `folder` only."""
    tally, number = Tally(), plan.first
    os.environ["HOOFSIM_HOME"] = str(folder / "home")
    before = Path.cwd()
    os.chdir(folder)
    try:
        while tally.events < plan.events:
            began = tally.events
            try:
                sitting(plan, number, min(plan.sitting, plan.events - began), tally)
            except Exception as fault:
                what = str(fault) if isinstance(fault, Found) else traceback.format_exc(limit=-6)
                again = f"sitting {number}, event {tally.events - began} of it"
                raise Found(f"{what}\n{again}: --seed {plan.seed} --first {number}") from fault
            number += 1
            for picture in (*folder.glob("*.png"), *folder.glob("*.svg")):
                picture.unlink()
            if watch is not None:
                watch(tally)
    finally:
        os.chdir(before)
        pygame.display.quit()
    return tally


def load_what_saving_needs() -> None:
    """The libraries for pictures and clips are loaded when first used, and stay: they are no growth."""
    pygame.font.init()
    session = Session([SetLoad("walk")])
    for ending in (".png", ".gif"):
        export_bytes(session, ending)


def main() -> int:
    """The long form; `--first` is the sitting to begin with."""
    plan = Plan(
        **vars(parser(__doc__, events=100_000, seed=1, sitting=2000, look_every=250, first=0).parse_args())
    )
    marks = Marks()
    load_what_saving_needs()

    def watch(tally: Tally) -> None:
        marks.mark(f"{tally.events:>8} events, {tally.frames} frames")

    with tempfile.TemporaryDirectory() as folder:
        try:
            return marks.end(soak(plan, Path(folder), watch))
        except Found as found:
            print(found)
            return 1


if __name__ == "__main__":
    sys.exit(main())
