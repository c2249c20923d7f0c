"""The moving foot: what a frame's worth of physics costs, and a general multibody engine stepping the same foot."""

from collections.abc import Callable, Iterator

import numpy as np

from hoofsim.bench.timing import Row, best_seconds, busy_clock, memory_row, times
from hoofsim.model import Foot
from hoofsim.scene.scene import Scene
from hoofsim.scene.space import SUBSTEPS_PER_SECOND
from hoofsim.verify.referees.settled_foot import Settling

NAME = "moving"
FRAME_S = 1.0 / 60.0


def frame_milliseconds(frame: Callable[[], object], count: int) -> np.ndarray:
    """Milliseconds of each of `count` frames, after ten that are not counted."""
    clock = busy_clock()
    for _ in range(10):
        frame()
    spent = np.empty(count)
    for i in range(count):
        start = clock()
        frame()
        spent[i] = 1e3 * (clock() - start)
    return spent


def run(quick: bool) -> Iterator[Row]:
    """Rows of this bench."""
    count = 20 if quick else 300
    per_step = 0.0
    for case in ("standing", "walk", "trot"):
        scene = Scene(Foot("sound"), case)
        if case != "standing":
            scene.play(1.0)
        else:
            scene.change(heel_change_mm=6.0)
        spent = frame_milliseconds(lambda s=scene: s.advance(FRAME_S), count)  # type: ignore[misc]
        middle, late = np.percentile(spent, (50, 99))
        per_step = 1e-3 * float(spent.mean()) / (SUBSTEPS_PER_SECOND * FRAME_S)
        share = f"p99 {late:.3g} ms, {100 * late / 16.7:.0f} % of a frame at 60 a second"
        yield Row(NAME, f"{case}: physics of one frame, median", float(middle), "ms", share)
    yield Row(
        NAME,
        "one sub-step, mean at the trot",
        1e6 * per_step,
        "us",
        f"{SUBSTEPS_PER_SECOND} sub-steps a second",
    )
    scene = Scene(Foot("sound"), "walk")
    scene.play(1.0)

    def frames() -> Scene:
        for _ in range(count):
            scene.advance(FRAME_S)
        return scene

    yield memory_row(NAME, f"{count} frames of a walk", frames, "the scene's own numbers")
    settling = Settling(Foot("sound").load().model)
    try:
        taken = settling.settle(rounds=2, steps=20)
    except ModuleNotFoundError:
        yield Row(
            NAME,
            "MuJoCo stepping the same foot",
            float("nan"),
            "us",
            "left out: MuJoCo is not installed (test extra)",
        )
        return
    referee = best_seconds(lambda: settling.settle(rounds=2, steps=20), 1 if quick else 3) / taken
    words = f"a sub-step here is {times(referee / per_step)} quicker (its tissue laws enter by a Python call)"
    yield Row(NAME, "MuJoCo stepping the same foot, one step", 1e6 * referee, "us", words)
