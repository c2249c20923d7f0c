"""The window without a display: start to first frame, and the split of a frame's time in the sandbox."""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from hoofsim.bench.moving import FRAME_S
from hoofsim.bench.timing import Row, best_of_each, busy_clock, times
from hoofsim.drawing.camera import Camera
from hoofsim.drawing.foot_picture import foot_picture
from hoofsim.model import Foot

NAME = "window"
SIZES = ((1280, 800), (1920, 1080))
WARM_UP = 20
ASKED = "; asked: under 16.7 ms"
PICTURES = ("picture", "paint", "left", "left paint", "right", "right paint")  # as the screens name that work
_FIRST_FRAME = (
    "from hoofsim.app.main import without_window; app, surface = without_window('start'); app.draw(surface)"
)
_EMPTY_WINDOW = (
    "import pygame; pygame.display.init(); pygame.font.init(); surface = pygame.display.set_mode((1280, 800)); "
    "surface.fill((255, 255, 255)); pygame.display.flip()"
)
# What a program needs at most, in MB as its system counts it; nothing where the system does not say.
_PEAK = """
try:
    import resource, sys
    print("peak", resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1e6 if sys.platform == "darwin" else 1e3))
except ModuleNotFoundError:
    pass
"""


def run(quick: bool) -> Iterator[Row]:
    """Rows of this bench. The frames are the running program's own; showing them on a screen is not counted."""
    yield from _start(1 if quick else 3)
    from hoofsim.app.rehearsal import dragging, two_walking, walking

    for size in SIZES[:1] if quick else SIZES:
        where = f"{size[0]}x{size[1]}"
        yield _picture(size, 1 if quick else 10)
        long, short = (20, 20) if quick else (600, 300)
        yield from _frames(f"sandbox at walk, {where}", walking(size, busy_clock()), long, ASKED)
        yield from _frames(f"sandbox, a ring dragged, {where}", dragging(size, busy_clock()), short, ASKED)
        yield from _frames(f"two feet at walk, {where}", two_walking(size, busy_clock()), long)


def _start(repeats: int) -> Iterator[Row]:
    """From the command to the first frame, beside a program that only opens an empty window with the same library."""
    with tempfile.TemporaryDirectory() as kept:
        # As on every start but the first: with the modules' compiled code kept.
        surroundings = {**os.environ, "SDL_VIDEODRIVER": "dummy", "PYTHONPYCACHEPREFIX": kept}
        surroundings.pop("PYTHONDONTWRITEBYTECODE", None)

        def begun(code: str) -> str:
            command = [sys.executable, "-c", code]
            done = subprocess.run(command, check=True, capture_output=True, text=True, env=surroundings)
            return done.stdout

        start, empty = best_of_each(
            (lambda: begun(_FIRST_FRAME), lambda: begun(_EMPTY_WINDOW)), repeats, time.perf_counter
        )
        words = f"{times(start / empty)} the {empty:.3g} s of opening an empty window; asked: under 2 s"
        yield Row(NAME, "command to first frame drawn", start, "s", words)
        peaks = [begun(code + _PEAK).rpartition("peak ")[2].strip() for code in (_FIRST_FRAME, _EMPTY_WINDOW)]
    if all(peaks):
        whole, least = (float(peak) for peak in peaks)
        words = f"{times(whole / least)} the {least:.3g} MB of an empty window"
        yield Row(NAME, "peak memory of a start", whole, "MB", words)


def _picture(size: tuple[int, int], repeats: int) -> Row:
    """The foot's picture painted anew, beside a general plotting library that draws the same one, made ready."""
    from hoofsim.drawing.backend_pygame import PicturePainter

    picture = foot_picture(Foot("sound").load())
    camera, painter = Camera.fit(picture.bounds, size), PicturePainter()
    work: list[Callable[[], object]] = [lambda: painter.paint(picture, camera)]
    what = f"the foot's picture painted, {size[0]}x{size[1]}"
    try:
        from matplotlib.backends.backend_agg import FigureCanvasAgg

        from hoofsim.drawing.backend_matplotlib import figure
    except ModuleNotFoundError:
        return Row(NAME, what, 1e3 * best_of_each(work, repeats)[0], "ms", "matplotlib is not installed")
    width_mm = picture.bounds[2] - picture.bounds[0]
    drawn = figure(picture, width_inches=width_mm * camera.scale / 100)
    drawn.set_dpi(100)
    canvas = FigureCanvasAgg(drawn)
    seconds, plotted = best_of_each((*work, canvas.draw), repeats)
    words = f"{times(plotted / seconds)} faster than matplotlib ({1e3 * plotted:.3g} ms)"
    return Row(NAME, what, 1e3 * seconds, "ms", words)


def _frames(
    label: str, scene: tuple[Any, Any, Callable[[int], list[Any]]], count: int, asked: str = ""
) -> Iterator[Row]:
    """Median and late frames, with what events, physics, the feet's pictures and everything round them took."""
    loop, screen, events = scene
    clock = loop.app.clock
    whole, parts = np.empty(count), np.empty((4, count))
    for number in range(-WARM_UP, count):
        coming = events(WARM_UP + number)
        begun = clock()
        loop.frame(FRAME_S, coming)
        spent = clock() - begun
        if number < 0:
            continue
        took = loop.latest
        done = screen.turns.done if took.draw else {}
        picture = sum(done.get(name, 0.0) for name in PICTURES)
        whole[number] = 1e3 * spent
        parts[:, number] = 1e3 * np.array([took.events, took.steps, picture, took.draw - picture])
    share = 100 * whole.mean() / (1e3 * FRAME_S)
    for words, percent in (("median", 50), ("p99", 99)):
        late = np.percentile(parts, percent, axis=1)
        names = ("events", "physics", "picture", "widgets")
        split = ", ".join(f"{name} {value:.3g}" for name, value in zip(names, late, strict=True))
        more = asked if percent == 99 else f"; {share:.0f} % of one core"
        yield Row(
            NAME,
            f"{label}: frame, {words}",
            float(np.percentile(whole, percent)),
            "ms",
            f"each alone, ms: {split}{more}",
        )
