"""Slide-through: the bone turns through the capsule, which keeps sole and frog where they were."""

from typing import Final

from hoofsim.claims.accounts.account import BONE_ALONE, Account, names_on, spread, turned
from hoofsim.frames import Array
from hoofsim.measures import Points


def move(points: Points, amount: Array) -> dict[str, Array]:
    """The distal phalanx, with the navicular, turned about the coffin joint's centre of rotation."""
    return spread(points, turned(points, names_on(points, BONE_ALONE), amount, points["cor"]), amount)


ACCOUNT: Final = Account(
    name="slide_through",
    label="slide-through",
    what_moves="The coffin bone turns about the coffin joint; sole and frog stay with the wall and the heels.",
    tells_apart="Tip-to-frog falls while frog-to-toe stays the same; sole depth under the tip falls.",
    unit="deg",
    low=0.0,
    high=25.0,
    needs=("cor",),
    move=move,
)
