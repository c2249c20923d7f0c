"""The window without a display: start to first frame, and the split of a frame's time in the sandbox."""

import os
import subprocess
import sys
from collections.abc import Iterator

import numpy as np

from hoofsim.bench.moving import FRAME_S
from hoofsim.bench.timing import Row, best_seconds, busy_clock
from hoofsim.session.commands import SetLoad

NAME = "window"
SIZES = ((1280, 800), (1920, 1080))
_FIRST_FRAME = (
    "from hoofsim.app.main import without_window; app, surface = without_window('start'); app.draw(surface)"
)


def run(quick: bool) -> Iterator[Row]:
    """Rows of this bench. Frames are drawn to memory, so showing them on a screen is not counted."""
    os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
    from hoofsim.app.main import without_window

    command = [sys.executable, "-c", _FIRST_FRAME]
    start = best_seconds(
        lambda: subprocess.run(command, check=True, stdout=subprocess.DEVNULL), 1 if quick else 3
    )
    yield Row(NAME, "command to first frame drawn", start, "s", "asked: under 2 s")
    clock = busy_clock()
    for size in SIZES[:1] if quick else SIZES:
        app, surface = without_window("sandbox", size)
        app.session.do(SetLoad("walk"))
        app.advance(FRAME_S)
        app.screen.toggle_play()  # type: ignore[attr-defined]
        physics, drawing = [], []
        for _ in range(20 if quick else 300):
            begun = clock()
            app.advance(FRAME_S)
            stepped = clock()
            app.draw(surface)
            physics.append(1e3 * (stepped - begun))
            drawing.append(1e3 * (clock() - stepped))
        parts = np.array([physics, drawing])[:, 10:]
        label = f"sandbox at walk, {size[0]}x{size[1]}"
        for words, percent in (("median", 50), ("p99", 99)):
            whole = float(np.percentile(parts.sum(axis=0), percent))
            state, sheet = np.percentile(parts, percent, axis=1)
            split = f"physics and state alone {state:.3g} ms, drawing alone {sheet:.3g} ms"
            asked = "; asked: under 16.7 ms" if percent == 99 else ""
            yield Row(NAME, f"{label}: frame, {words}", whole, "ms", split + asked)
