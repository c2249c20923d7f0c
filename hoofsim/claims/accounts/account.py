"""What a rival account of "rotation" is: which bodies move, how, and what every measure would then read.

An account is geometry alone. It moves the landmarks of a baseline foot (a sound foot, or the first radiograph of a
real one) as rigid bodies by one amount, in degrees or millimetres, and says nothing of forces or causes.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from hoofsim.errors import BadInput
from hoofsim.foot.landmarks import BODY_OF
from hoofsim.frames import Array, rotate
from hoofsim.measures import Points, measure_all

Move = Callable[[Points, Array], dict[str, Array]]

BONE_ALONE = ("p3", "navicular")
LIMB = ("p2",)
CAPSULE = ("wall", "border")
PLATE = ("plate",)


@dataclass(frozen=True)
class Account:
    """One rival account. `move(points, amount)` gives the moved landmarks.

    `points`: landmark name -> (..., 2) mm; `amount`: an array (...) in `unit` that broadcasts with the batch shape;
    the result holds every landmark that was given. `low` and `high` bound the amounts that a foot can show.
    `tells_apart` is one plain sentence; `reprojected` names landmarks that are found again and not moved rigidly.
    """

    name: str
    label: str
    what_moves: str
    tells_apart: str
    unit: Literal["deg", "mm"]
    low: float
    high: float
    needs: tuple[str, ...]
    move: Move
    reprojected: tuple[str, ...] = ()

    def displaced(self, points: Points, amount: Array | float) -> dict[str, Array]:
        """Landmarks after the account's movement; `BadInput` when a landmark that it turns about is missing."""
        missing = [name for name in self.needs if name not in points]
        if missing:
            raise BadInput(
                f"The account '{self.label}' needs the landmark {', '.join(missing)} to move the foot."
            )
        return self.move(points, np.asarray(amount, dtype=np.float64))

    def predict(self, points: Points, amount: Array | float) -> dict[str, Array]:
        """Every measure that the landmarks allow, after the movement; changes are against `points` themselves."""
        found = measure_all(self.displaced(points, amount), points)
        return {name: value for name, value in found.items() if value is not None}

    def predict_change(self, points: Points, amount: Array | float) -> dict[str, Array]:
        """Every measure's change from `points`."""
        before = {name: value for name, value in measure_all(points, points).items() if value is not None}
        return {
            name: np.asarray(value - before[name]) for name, value in self.predict(points, amount).items()
        }


def names_on(points: Points, bodies: Iterable[str]) -> list[str]:
    """The given landmarks that ride on any of the bodies, in the order given."""
    wanted = set(bodies)
    return [name for name in points if BODY_OF.get(name) in wanted]


def turned(points: Points, names: Iterable[str], degrees: Array, about: Array) -> dict[str, Array]:
    """The named landmarks turned by `degrees` (...) about `about` (..., 2), tip down positive."""
    turn = np.radians(degrees)
    return {name: rotate(np.asarray(points[name]), turn, about) for name in names}


def shifted(points: Points, names: Iterable[str], step: Array) -> dict[str, Array]:
    """The named landmarks moved by `step` (..., 2) mm."""
    return {name: np.asarray(points[name]) + step for name in names}


def spread(points: Points, moved: Mapping[str, Array], amount: Array) -> dict[str, Array]:
    """All landmarks, moved or not, with one batch shape: that of the points and the amount together."""
    return {
        name: np.broadcast_to(
            moved.get(name, np.asarray(xy)), (*np.broadcast_shapes(np.shape(xy)[:-1], amount.shape), 2)
        )
        for name, xy in points.items()
    }
