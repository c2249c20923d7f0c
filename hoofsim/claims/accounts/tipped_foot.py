"""Tipped foot: bone and capsule turn together, as when the heels are raised or overgrown."""

from typing import Final

from hoofsim.claims.accounts.account import (
    BONE_ALONE,
    CAPSULE,
    LIMB,
    PLATE,
    Account,
    names_on,
    shifted,
    spread,
    turned,
)
from hoofsim.frames import Array
from hoofsim.measures import Points


def move(points: Points, amount: Array) -> dict[str, Array]:
    """Bone and capsule turned about the projected toe; the limb follows the joint and keeps its own angle."""
    whole = turned(points, names_on(points, (*BONE_ALONE, *CAPSULE, *PLATE)), amount, points["toe"])
    turn = turned(points, ("cor",), amount, points["toe"])["cor"]
    return spread(points, whole | shifted(points, names_on(points, LIMB), turn - points["cor"]), amount)


ACCOUNT: Final = Account(
    name="tipped_foot",
    label="tipped foot",
    what_moves="Heels raised or overgrown: the coffin bone and the whole capsule turn together on the ground.",
    tells_apart="Hoof angle, palmar angle and phalangeal rotation grow together; capsular rotation stays the same.",
    unit="deg",
    low=0.0,
    high=25.0,
    needs=("toe", "cor"),
    move=move,
)
