"""Angles of the wall, the phalanges and between them, in degrees. Every line is measured at its toe end."""

from typing import Final

from hoofsim.frames import Array, angle_to_ground
from hoofsim.measures.describe import describe
from hoofsim.measures.measure import Points


def hoof_angle(points: Points) -> Array:
    """Dorsal wall, projected toe to hairline, to the ground."""
    return angle_to_ground(points["toe"], points["toe_hairline"])


def hoof_angle_proximal(points: Points) -> Array:
    """Dorsal wall, proximal third: hairline to the outer wall point a third of the way down."""
    return angle_to_ground(points["wall_outer_middle"], points["toe_hairline"])


def p3_dorsal_angle(points: Points) -> Array:
    """Dorsal face of the distal phalanx, extensor process to the true tip, to the ground."""
    return angle_to_ground(points["tip"], points["extensor_process"])


def p2_angle(points: Points) -> Array:
    """Dorsal face of the middle phalanx to the ground."""
    return angle_to_ground(points["p2_dorsal_distal"], points["p2_dorsal_proximal"])


def capsular_rotation(points: Points) -> Array:
    """Distal phalanx's dorsal angle less the hoof angle: positive when bone and wall diverge distally."""
    return p3_dorsal_angle(points) - hoof_angle(points)


def phalangeal_rotation(points: Points) -> Array:
    """Distal phalanx's dorsal angle less the middle phalanx's: positive when the coffin joint is flexed."""
    return p3_dorsal_angle(points) - p2_angle(points)


def palmar_angle(points: Points) -> Array:
    """Line from the true tip to the palmar process, to the ground: positive when the palmar process is
    higher.
    """
    return angle_to_ground(points["tip"], points["palmar_process"])


def palmar_angle_seen(points: Points) -> Array:
    """As `palmar_angle`, but from the tip that the radiograph shows, remodelled or not."""
    return angle_to_ground(points["tip_seen"], points["palmar_process"])


def palmar_angle_change(points: Points, baseline: Points) -> Array:
    """Palmar angle less that of the same foot's baseline."""
    return palmar_angle(points) - palmar_angle(baseline)


_WALL = ("toe", "toe_hairline")
_P3 = ("extensor_process", "tip")
_P2 = ("p2_dorsal_distal", "p2_dorsal_proximal")
_PALMAR = ("tip", "palmar_process")

ANGLES: Final = (
    describe(
        "hoof_angle",
        "hoof angle",
        "Angle of the whole dorsal wall, from its projected toe to the hairline, to the ground.",
        "larger is steeper",
        "deg",
        "R1",
        _WALL,
        hoof_angle,
    ),
    describe(
        "hoof_angle_proximal",
        "hoof angle, top third",
        "Angle of the top third of the dorsal wall, which a flare confined to the toe does not reach, to the ground.",
        "larger is steeper",
        "deg",
        "R11",
        ("wall_outer_middle", "toe_hairline"),
        hoof_angle_proximal,
    ),
    describe(
        "p3_dorsal_angle",
        "coffin bone (P3) dorsal angle",
        "Angle of the dorsal face of the distal phalanx, from the extensor process to the true tip, to the "
        "ground; a remodelled tip is ignored.",
        "larger is steeper, tip down",
        "deg",
        "R4",
        _P3,
        p3_dorsal_angle,
    ),
    describe(
        "p2_angle",
        "middle phalanx (P2) angle",
        "Angle of the dorsal face of the middle phalanx to the ground.",
        "larger is steeper",
        "deg",
        "R4",
        _P2,
        p2_angle,
    ),
    describe(
        "capsular_rotation",
        "capsular rotation",
        "Dorsal angle of the distal phalanx less the hoof angle. It is the same whether the bone turned "
        "down or the wall flared out.",
        "positive when bone and wall diverge towards the ground",
        "deg",
        "R4",
        _P3 + _WALL,
        capsular_rotation,
    ),
    describe(
        "phalangeal_rotation",
        "phalangeal rotation",
        "Dorsal angle of the distal phalanx less the angle of the middle phalanx: flexion of the coffin "
        "joint.",
        "positive when flexed",
        "deg",
        "R4",
        _P3 + _P2,
        phalangeal_rotation,
    ),
    describe(
        "palmar_angle",
        "palmar angle",
        "Angle to the ground of the line from the true tip to the palmar process of the distal phalanx.",
        "positive when the palmar process is higher than the tip",
        "deg",
        "practice",
        _PALMAR,
        palmar_angle,
    ),
    describe(
        "palmar_angle_seen",
        "palmar angle, tip as seen",
        "As the palmar angle, but from the tip that a radiograph shows, whether or not bone has been lost "
        "there.",
        "positive when the palmar process is higher than the tip",
        "deg",
        "R13",
        ("tip_seen", "palmar_process"),
        palmar_angle_seen,
    ),
    describe(
        "palmar_angle_change",
        "palmar angle, change",
        "Palmar angle less the palmar angle of the same foot's baseline.",
        "positive when the bone's tip has turned down",
        "deg",
        "R4",
        _PALMAR,
        palmar_angle_change,
        "change",
    ),
)
