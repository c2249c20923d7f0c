"""Axes, signs and rigid moves of the sagittal plane: the one place where a direction is decided.

Lateral view with the toe to the right: x dorsal, y up, ground at y = 0, millimetres. A turn is positive when it takes
the tip of the distal phalanx down, that is clockwise, and is in radians inside the program.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

ORIGIN = (0.0, 0.0)


def rotate(points: Array, turn: Array | float, about: Array | tuple[float, float] = ORIGIN) -> Array:
    """Points (..., 2) in mm turned by `turn` radians (positive: tip down, clockwise) about `about` (..., 2)."""
    centre = np.asarray(about)
    offset = np.asarray(points) - centre
    cosine, sine = np.cos(turn), np.sin(turn)
    x = cosine * offset[..., 0] + sine * offset[..., 1]
    turned = np.empty((*x.shape, 2))
    turned[..., 0] = x
    turned[..., 1] = -sine * offset[..., 0] + cosine * offset[..., 1]
    turned += centre
    return turned


def angle_to_ground(toe_end: Array, other_end: Array) -> Array:
    """Angle in degrees of the line through two points (..., 2), at its toe end, opening palmarly.

    A sound dorsal wall reads about 52, a horizontal line running palmarly 0, a line rising from the toe end towards
    the heels is positive.
    """
    rise = np.asarray(other_end)[..., 1] - np.asarray(toe_end)[..., 1]
    palmar = np.asarray(toe_end)[..., 0] - np.asarray(other_end)[..., 0]
    return np.degrees(np.arctan2(rise, palmar))


def to_engine_angle(turn: float) -> float:
    """Anticlockwise-positive angle for the moving scene's physics engine from a turn (tip down positive), radians."""
    return -turn
