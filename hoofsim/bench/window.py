"""The window without a display: start to first frame, and the split of a frame's time in the sandbox."""

import subprocess
import sys
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from hoofsim.bench.moving import FRAME_S
from hoofsim.bench.timing import Row, best_seconds, busy_clock

NAME = "window"
SIZES = ((1280, 800), (1920, 1080))
WARM_UP = 20
_FIRST_FRAME = (
    "from hoofsim.app.main import without_window; app, surface = without_window('start'); app.draw(surface)"
)


def run(quick: bool) -> Iterator[Row]:
    """Rows of this bench. The frames are the running program's own; showing them on a screen is not counted."""
    command = [sys.executable, "-c", _FIRST_FRAME]
    start = best_seconds(
        lambda: subprocess.run(command, check=True, stdout=subprocess.DEVNULL), 1 if quick else 3
    )
    yield Row(NAME, "command to first frame drawn", start, "s", "asked: under 2 s")
    from hoofsim.app.rehearsal import dragging, walking

    for size in SIZES[:1] if quick else SIZES:
        where = f"{size[0]}x{size[1]}"
        yield from _frames(f"sandbox at walk, {where}", walking(size, busy_clock()), 20 if quick else 600)
        yield from _frames(
            f"sandbox, a ring dragged, {where}", dragging(size, busy_clock()), 20 if quick else 300
        )


def _frames(label: str, scene: tuple[Any, Any, Callable[[int], list[Any]]], count: int) -> Iterator[Row]:
    """Median and late frames, with what events, physics, the foot's picture and everything round it took in them."""
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
        picture = done.get("picture", 0.0) + done.get("paint", 0.0)
        whole[number] = 1e3 * spent
        parts[:, number] = 1e3 * np.array([took.events, took.steps, picture, took.draw - picture])
    share = 100 * whole.mean() / (1e3 * FRAME_S)
    for words, percent in (("median", 50), ("p99", 99)):
        late = np.percentile(parts, percent, axis=1)
        names = ("events", "physics", "picture", "widgets")
        split = ", ".join(f"{name} {value:.3g}" for name, value in zip(names, late, strict=True))
        asked = "; asked: under 16.7 ms" if percent == 99 else f"; {share:.0f} % of one core"
        yield Row(
            NAME,
            f"{label}: frame, {words}",
            float(np.percentile(whole, percent)),
            "ms",
            f"each alone, ms: {split}{asked}",
        )
