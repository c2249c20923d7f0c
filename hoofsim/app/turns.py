"""Sharing what is to be drawn among frames, so that no single frame carries all of it."""

from collections.abc import Callable, Mapping


class Turns:
    """Does pieces of work in turn; what has no time left in one frame comes first in the next."""

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._took: dict[str, float] = {}
        self._waiting: list[str] = []
        self.done: dict[str, float] = {}  # seconds of each work of the latest frame

    def take(self, due: Mapping[str, Callable[[], None]], until: float) -> bool:
        """Do what is due, by name, as far as it ends before `until` (s of the clock) by what it took last time.

        The longest waiting comes first and is done in any case. Says whether something still waits.
        """
        known = [name for name in self._waiting if name in due]
        self._waiting = known + [name for name in due if name not in known]
        self.done = {}
        while self._waiting:
            name, start = self._waiting[0], self._clock()
            if self.done and start + self._took.get(name, 0.0) > until:
                break
            due[self._waiting.pop(0)]()
            self._took[name] = self.done[name] = self._clock() - start
        return bool(self._waiting)
