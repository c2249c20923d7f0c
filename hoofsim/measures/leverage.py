"""Horizontal lengths on the ground about the centre of rotation of the coffin joint (COR)."""

from typing import Final

from hoofsim.frames import Array
from hoofsim.measures.describe import describe
from hoofsim.measures.measure import Points


def toe_to_cor(points: Points) -> Array:
    """Projected toe to the vertical through COR, along the ground, mm."""
    return points["toe"][..., 0] - points["cor"][..., 0]


def breakover_to_tip(points: Points) -> Array:
    """True tip to the breakover point, along the ground, mm."""
    return points["breakover"][..., 0] - points["tip"][..., 0]


def cor_ratio(points: Points) -> Array:
    """Share of the length from heel to breakover that lies in front of COR, 0 to 1."""
    length = points["breakover"][..., 0] - points["heel_ground"][..., 0]
    return (points["breakover"][..., 0] - points["cor"][..., 0]) / length


LEVERAGE: Final = (
    describe(
        "toe_to_cor",
        "toe to centre of rotation",
        "Distance on the ground from the projected toe to the vertical through the coffin joint's centre of "
        "rotation (COR). In sound feet it equals the dorsal wall's length within 1 mm.",
        "larger is a longer toe",
        "mm",
        "R5",
        ("toe", "cor"),
        toe_to_cor,
    ),
    describe(
        "breakover_to_tip",
        "breakover to tip",
        "Distance on the ground from the vertical through the true tip to the breakover point.",
        "positive when breakover is in front of the tip",
        "mm",
        "practice",
        ("breakover", "tip"),
        breakover_to_tip,
    ),
    describe(
        "cor_ratio",
        "centre of rotation ratio",
        "Share of the ground length from heel to breakover that lies in front of the centre of rotation.",
        "0.5 is half in front, half behind",
        "1",
        "practice",
        ("breakover", "heel_ground", "cor"),
        cor_ratio,
    ),
)
