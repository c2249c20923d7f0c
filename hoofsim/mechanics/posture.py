"""How the limb above the foot stands: the pastern's turn and how far the upper joints stretch the tendon.

Two causes add up. Tipping the whole foot shares out among three joints by the slopes of F7 (standing horses on wedges).
A load case brings its own turn of the pastern and its own fetlock extension (`hoofsim.mechanics.loads`).
"""

from typing import NamedTuple

from hoofsim.mechanics.types import Array

# Per degree by which the whole foot is tipped (F7, abstract; slopes derived; they close to 1 within the spread).
COFFIN_FLEXION = 0.98
PASTERN_FLEXION = 0.24
FETLOCK_EXTENSION = 0.23


class Posture(NamedTuple):
    """Turn (B,) of the middle phalanx from its place in the rigidly tipped foot, rad; added tendon length (B,), mm."""

    p2_turn: Array
    stretch: Array


def posture(
    tip_turn: Array, pastern_turn: Array, fetlock_extension: Array, pastern_lever: Array, fetlock_lever: Array
) -> Posture:
    """Posture of a foot tipped by `tip_turn` under a load case's pastern turn and fetlock extension (B,), radians.

    Levers (B,) mm. Fetlock extension lengthens the tendon's path, pastern flexion shortens it.
    """
    stretch = fetlock_lever * (fetlock_extension + FETLOCK_EXTENSION * tip_turn)
    stretch = stretch - pastern_lever * PASTERN_FLEXION * tip_turn
    return Posture(pastern_turn - COFFIN_FLEXION * tip_turn, stretch)
