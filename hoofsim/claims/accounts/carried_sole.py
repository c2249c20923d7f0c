"""Carried sole: the bone turns and takes sole and frog with it; wall and heels stay.

Geometry alone: from about 3 degrees on, the sole of a sound foot would come below its bearing surface. The account
does not say whether it bulges there, is worn off, or the wall has outgrown it.
"""

from typing import Final

from hoofsim.claims.accounts.account import BONE_ALONE, PLATE, Account, names_on, spread, turned
from hoofsim.frames import Array
from hoofsim.measures import Points


def move(points: Points, amount: Array) -> dict[str, Array]:
    """The distal phalanx, the navicular, the sole and the frog turned together about the centre of rotation."""
    riding = names_on(points, (*BONE_ALONE, *PLATE))
    return spread(points, turned(points, riding, amount, points["cor"]), amount)


ACCOUNT: Final = Account(
    name="carried_sole",
    label="carried sole",
    what_moves="The coffin bone turns about the coffin joint; sole and frog ride with the bone.",
    tells_apart="Tip-to-frog and sole depth stay the same; frog-to-toe grows and the tip comes nearer the ground.",
    unit="deg",
    low=0.0,
    high=25.0,
    needs=("cor",),
    move=move,
)
