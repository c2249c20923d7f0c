"""Flared wall: only the dorsal wall turns away at the toe; no bone moves."""

from typing import Final

import numpy as np

from hoofsim.claims.accounts.account import Account, names_on, spread, turned
from hoofsim.frames import Array
from hoofsim.measures import Points


def move(points: Points, amount: Array) -> dict[str, Array]:
    """The wall turned outward about its hairline; the projected toe is where its line meets the bearing surface again.

    A wall that flares goes on growing to the ground, so the projected toe is not the old one lifted into the air.
    The breakover point keeps its distance behind the toe.
    """
    hairline, toe, heel = points["toe_hairline"], points["toe"], points["heel_ground"]
    moved = turned(points, names_on(points, ("wall",)), -amount, hairline)
    line = moved["toe"] - hairline
    bearing = np.asarray(toe) - heel
    # hairline + s * line lies on the bearing line where its cross product with the bearing direction vanishes.
    start = np.asarray(heel) - hairline
    s = (start[..., 0] * bearing[..., 1] - start[..., 1] * bearing[..., 0]) / (
        line[..., 0] * bearing[..., 1] - line[..., 1] * bearing[..., 0]
    )
    new_toe = hairline + s[..., None] * line
    if "breakover" in points:
        moved["breakover"] = new_toe + (np.asarray(points["breakover"]) - toe)
    moved["toe"] = new_toe
    return spread(points, moved, amount)


ACCOUNT: Final = Account(
    name="flared_wall",
    label="flared wall",
    what_moves="Only the dorsal wall turns away from the bone at the toe.",
    tells_apart="Wall-to-bone grows at the bottom; tip-to-frog, phalangeal rotation and sole depth stay the same.",
    unit="deg",
    low=0.0,
    high=25.0,
    needs=("toe_hairline", "toe", "heel_ground"),
    move=move,
    reprojected=("toe", "breakover"),
)
