"""A stance of walk or trot as a series of equilibria, computed a few at a time and shown one after another."""

from collections.abc import Callable

from hoofsim.app.blend import Blend
from hoofsim.model import LoadedFoot
from hoofsim.session.session import foot_of, load_of
from hoofsim.session.state import FootChoice, LoadChoice

FRAMES = 21
FIRST_PERCENT, LAST_PERCENT = 4.0, 96.0  # at the very ends of the stance the foot hardly touches the ground
SECONDS = {"walk": 2.4, "trot": 1.6}  # slower than life, so that the eye can follow
PAUSE = 0.35  # share of the time spent at the end, before the next stance


def frame_percents() -> list[float]:
    """Moments of the stance that are computed."""
    span = LAST_PERCENT - FIRST_PERCENT
    return [FIRST_PERCENT + span * index / (FRAMES - 1) for index in range(FRAMES)]


class Stride:
    """Plays one foot through a stance, over and over, to and fro at the ends."""

    def __init__(
        self, foot: FootChoice, case: str, load: Callable[[FootChoice, LoadChoice], LoadedFoot] | None = None
    ) -> None:
        self.foot, self.case = foot, case
        self._load = load or (lambda choice, what: load_of(foot_of(choice), what))
        self.frames: list[LoadedFoot] = []
        self.clock = 0.0
        self.slow = 1.0

    @property
    def ready(self) -> bool:
        """True when every moment has been computed."""
        return len(self.frames) == FRAMES

    def compute(self, most: int = 1) -> None:
        """Compute up to so many further moments."""
        percents = frame_percents()
        for percent in percents[len(self.frames) : len(self.frames) + most]:
            self.frames.append(self._load(self.foot, LoadChoice(self.case, percent)))

    def advance(self, seconds: float) -> None:
        """Let time pass."""
        self.clock += seconds / self.slow

    def percent(self) -> float:
        """The moment of the stance now shown."""
        span = SECONDS[self.case]
        share = min(1.0, (self.clock % (span * (1 + PAUSE))) / span)
        return FIRST_PERCENT + share * (LAST_PERCENT - FIRST_PERCENT)

    def shown(self) -> LoadedFoot | Blend | None:
        """The foot at this moment; None before enough is computed. Moments without rest are passed over."""
        if not self.ready:
            return self.frames[-1] if self.frames and self.frames[-1].at_rest else None
        place = (self.percent() - FIRST_PERCENT) / (LAST_PERCENT - FIRST_PERCENT) * (FRAMES - 1)
        index = min(int(place), FRAMES - 2)
        first, second = self.frames[index], self.frames[index + 1]
        if not (first.at_rest and second.at_rest):
            found = [frame for frame in (first, second) if frame.at_rest]
            return found[0] if found else None
        return Blend(first, second, place - index)
