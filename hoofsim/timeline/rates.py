"""How fast horn grows and wears: the few numbers from which weeks are computed, each with its source and status."""

from collections.abc import Mapping
from dataclasses import dataclass

from hoofsim.errors import BadInput, nearest
from hoofsim.foot.parameters import Status

DAYS_PER_MONTH = 365.25 / 12.0


@dataclass(frozen=True)
class Rate:
    """A rate in mm a month, with the range its source gives (or, for a choice, the range worth trying)."""

    label: str
    value: float
    low: float
    high: float
    source: str
    status: Status


WALL_GROWTH = Rate("wall growth, along the horn tubules", 7.6, 5.7, 9.5, "R8", "second-hand")
# New sole is made at about the wall's pace and shed at the surface; only what stays counts (a choice).
SOLE_GAIN = Rate("sole gained, growth less what is shed", 1.0, 0.0, 2.0, "choice", "choice")


@dataclass(frozen=True)
class Keeping:
    """How a foot is kept: wear in mm a month at toe and heel, along the horn; growth is the same at both (R7)."""

    name: str
    label: str
    toe_wear: Rate
    heel_wear: Rate


def _wear(where: str, value: float, low: float, high: float) -> Rate:
    # Only the direction is published (R12): under a shoe the heels still rub, barefoot the toe wears most.
    return Rate(f"wear at the {where}", value, low, high, "R12", "choice")


KEEPINGS: Mapping[str, Keeping] = {
    "shod": Keeping("shod", "Under a shoe", _wear("toe", 0.0, 0.0, 1.0), _wear("heel", 2.5, 1.0, 4.0)),
    "barefoot": Keeping("barefoot", "Barefoot", _wear("toe", 7.0, 4.0, 9.5), _wear("heel", 5.5, 3.0, 8.0)),
    "unworn": Keeping("unworn", "Standing on soft ground", _wear("toe", 0.0, 0.0, 1.0), _wear("heel", 0.0, 0.0, 1.0)),
}  # fmt: skip


def keeping(name: str) -> Keeping:
    """The way of keeping called `name`; `BadInput` naming the nearest one if there is none."""
    if name not in KEEPINGS:
        raise BadInput(f"unknown keeping '{name}': {nearest(name, KEEPINGS)}")
    return KEEPINGS[name]
