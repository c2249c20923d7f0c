"""Sinking: the bones drop in the capsule without turning."""

from typing import Final

import numpy as np

from hoofsim.claims.accounts.account import BONE_ALONE, LIMB, Account, names_on, shifted, spread
from hoofsim.frames import Array
from hoofsim.measures import Points


def move(points: Points, amount: Array) -> dict[str, Array]:
    """Distal phalanx, navicular and the limb above moved straight down."""
    down = np.stack([np.zeros_like(amount), -amount], axis=-1)
    return spread(points, shifted(points, names_on(points, (*BONE_ALONE, *LIMB)), down), amount)


ACCOUNT: Final = Account(
    name="sinking",
    label="sinking",
    what_moves="The coffin bone, and the limb with it, drops in the capsule without turning.",
    tells_apart="Founder distance grows and sole depth falls; every angle stays the same.",
    unit="mm",
    low=0.0,
    high=20.0,
    needs=(),
    move=move,
)
