"""Every measure through the stance of a gait, computed for one foot a few moments at a time."""

import numpy as np

from hoofsim.app.widgets.plot import XY
from hoofsim.model import Foot, sweep

STANCES = np.linspace(0.0, 100.0, 41)
BLOCK = 6  # stances solved in one piece of work; half as many near the end, where rest takes longer to find
HARD_FROM = 80.0  # percent of the stance


class StanceCurve:
    """The stance of one foot in one gait; `done` of its moments have been computed."""

    def __init__(self, foot: Foot, case: str) -> None:
        self._foot, self._case = foot, case
        self._found: dict[str, list[float]] = {}
        self.done = 0

    @property
    def complete(self) -> bool:
        """Whether every moment has been computed."""
        return self.done >= STANCES.size

    def work(self) -> None:
        """Compute the next moments; some milliseconds."""
        count = BLOCK if STANCES[self.done] < HARD_FROM else BLOCK // 2
        coming = STANCES[self.done : self.done + count]
        for name, column in sweep(self._foot, {"stance_percent": coming}, self._case).items():
            self._found.setdefault(name, []).extend(float(value) for value in column)
        self.done += coming.size

    def points(self, measure: str, factor: float) -> tuple[XY | None, ...]:
        """Percent of the stance and the measure times `factor`; None where the foot found no rest."""
        found = self._found.get(measure, [])
        return tuple(
            None if np.isnan(value) else (float(at), value * factor)
            for at, value in zip(STANCES, found, strict=False)
        )
