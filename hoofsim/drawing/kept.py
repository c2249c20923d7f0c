"""Things that are costly to make, kept for reuse within a bound: the longest unused go first."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import Generic, Protocol, TypeVar

Key = TypeVar("Key", bound=Hashable)
Thing = TypeVar("Thing")


class Raster(Protocol):
    """What a picture in memory says of itself."""

    def get_pitch(self) -> int:
        """Bytes of one row."""

    def get_height(self) -> int:
        """Rows."""


def raster_bytes(picture: Raster) -> int:
    """Bytes that a picture takes in memory."""
    return picture.get_pitch() * picture.get_height()


class Kept(Generic[Key, Thing]):
    """Key -> thing, made when first asked for; together they weigh `budget` at most, but the latest always stays."""

    def __init__(self, budget: int, weight: Callable[[Thing], int]) -> None:
        self.budget = budget
        self.weight = 0
        self._weight_of = weight
        self._things: OrderedDict[Key, Thing] = OrderedDict()

    def get(self, key: Key, make: Callable[[], Thing]) -> Thing:
        """The thing of that key, from `make` unless it is still there."""
        kept = self._things.get(key)
        if kept is not None:
            self._things.move_to_end(key)
            return kept
        made = make()
        self._things[key] = made
        self.weight += self._weight_of(made)
        while self.weight > self.budget and len(self._things) > 1:
            self.weight -= self._weight_of(self._things.popitem(last=False)[1])
        return made

    def __len__(self) -> int:
        return len(self._things)
