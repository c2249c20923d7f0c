"""The window without a display: start to first frame, and the split of a frame's time in the sandbox."""

import os
import subprocess
import sys
import time
from collections.abc import Iterator

import numpy as np

from hoofsim.bench.moving import FRAME_S
from hoofsim.bench.timing import Row, best_seconds
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
    for size in SIZES[:1] if quick else SIZES:
        app, surface = without_window("sandbox", size)
        app.session.do(SetLoad("walk"))
        app.advance(FRAME_S)
        app.screen.toggle_play()  # type: ignore[attr-defined]
        physics, drawing = [], []
        for _ in range(20 if quick else 300):
            begun = time.perf_counter()
            app.advance(FRAME_S)
            stepped = time.perf_counter()
            app.draw(surface)
            physics.append(1e3 * (stepped - begun))
            drawing.append(1e3 * (time.perf_counter() - stepped))
        spent = (np.array(physics) + drawing)[10:]
        split = f"physics and state {np.median(physics):.3g} ms, drawing {np.median(drawing):.3g} ms"
        label = f"sandbox at walk, {size[0]}x{size[1]}"
        yield Row(NAME, f"{label}: frame, median", float(np.median(spent)), "ms", split)
        late = float(np.percentile(spent, 99))
        yield Row(NAME, f"{label}: frame, p99", late, "ms", "asked: under 16.7 ms")
