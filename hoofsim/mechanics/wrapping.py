"""The deep flexor tendon's path: origin, tangent to the navicular's arc, along it, tangent to the insertion.

Planar and closed-form: length = tangent + arc + tangent, and the lever about the joint is -dL/dturn. Where the straight
line clears the arc the path is that line. The first derivative is continuous at lift-off; the second jumps, as it must.
"""

from typing import NamedTuple

import numpy as np

from hoofsim.mechanics.types import Array, Numbers

LEAST_TANGENT_MM = 0.5


class Path(NamedTuple):
    """Path of a batch. Derivatives by (navicular turn, distal phalanx turn) relative to the limb; turns in radians.

    `upper` and `lower` are the points (..., 2) where the tendon meets and leaves the arc (the chord's own point closest to
    the arc when it clears it), `wrap` the angle of arc covered, mm and radians.
    """

    length: Numbers
    d_navicular: Numbers
    d_p3: Numbers
    d_nn: Numbers
    d_np: Numbers
    d_pp: Numbers
    wrap: Numbers
    upper: Numbers
    lower: Numbers


def _angle(x: Numbers, y: Numbers) -> Numbers:
    """Polar angle; to first order in the imaginary part, so that complex-step tests can pass through it."""
    if np.iscomplexobj(x) or np.iscomplexobj(y):
        x, y = x + 0j, y + 0j
        square = x.real**2 + y.real**2
        angle: Numbers = np.arctan2(y.real, x.real) + 1j * (x.real * y.imag - y.real * x.imag) / square
    else:
        angle = np.arctan2(y, x)
    return angle


def _tangent(distance: Numbers, radius: Array) -> Numbers:
    """Length of the tangent to the arc; a point inside the arc, where a search may stray, counts as just outside it."""
    square = distance**2 - radius**2
    return np.sqrt(np.where(square.real > LEAST_TANGENT_MM**2, square, LEAST_TANGENT_MM**2))


def _turned(point: Array, turn: Numbers) -> tuple[Numbers, Numbers]:
    cosine, sine = np.cos(turn), np.sin(turn)
    return cosine * point[..., 0] + sine * point[..., 1], -sine * point[..., 0] + cosine * point[..., 1]


def path(
    origin: Array, centre: Array, insertion: Array, radius: Array, navicular_turn: Numbers, p3_turn: Numbers
) -> Path:
    """Tendon path. origin, centre, insertion: (..., 2) mm from the joint's centre, at zero turn; radius mm.

    The tendon passes on the palmar-distal side of the arc: origin, then arc, then insertion, anticlockwise about the
    arc's centre as seen with the toe to the right.
    """
    cx, cy = _turned(centre, navicular_turn)
    ix, iy = _turned(insertion, p3_turn)
    ox, oy = origin[..., 0], origin[..., 1]
    ux, uy = ox - cx, oy - cy
    lx, ly = ix - cx, iy - cy
    upper_distance = np.sqrt(ux * ux + uy * uy)
    lower_distance = np.sqrt(lx * lx + ly * ly)
    upper_tangent = _tangent(upper_distance, radius)
    lower_tangent = _tangent(lower_distance, radius)
    upper_spread = _angle(radius + 0 * upper_tangent, upper_tangent)
    lower_spread = _angle(radius + 0 * lower_tangent, lower_tangent)
    # Anticlockwise angle from the origin's direction to the insertion's, brought into (0, 2 pi).
    between = _angle(ux * lx + uy * ly, ux * ly - uy * lx)
    between = np.where(between.real < 0.0, between + 2.0 * np.pi, between)
    wrap = between - upper_spread - lower_spread
    lifted = wrap.real < 0.0

    upper_direction = _angle(ux, uy) + upper_spread
    lower_direction = _angle(lx, ly) - lower_spread
    ax, ay = cx + radius * np.cos(upper_direction), cy + radius * np.sin(upper_direction)
    bx, by = cx + radius * np.cos(lower_direction), cy + radius * np.sin(lower_direction)

    sx, sy = ix - ox, iy - oy
    straight = np.sqrt(sx * sx + sy * sy)
    length = np.where(lifted, straight, upper_tangent + lower_tangent + radius * wrap)

    # Unit vectors along the tendon, from origin towards insertion.
    tx, ty = sx / straight, sy / straight
    px, py = (ax - ox) / upper_tangent, (ay - oy) / upper_tangent
    qx, qy = (ix - bx) / lower_tangent, (iy - by) / lower_tangent
    px, py = np.where(lifted, tx, px), np.where(lifted, ty, py)
    qx, qy = np.where(lifted, tx, qx), np.where(lifted, ty, qy)

    # Turning a point (x, y) moves it along (y, -x): its tendon end lengthens by the pull direction times that.
    d_p3 = qx * iy - qy * ix
    # The navicular's centre moves along (cy, -cx) and feels the two pulls as p - q.
    kx, ky = np.where(lifted, 0.0, px - qx), np.where(lifted, 0.0, py - qy)
    d_navicular = kx * cy - ky * cx

    # A tangent's direction turns at (sideways motion) / length; sideways is the normal (-dy, dx) of the direction.
    upper_length = np.where(lifted, straight, upper_tangent)
    lower_length = np.where(lifted, straight, lower_tangent)
    side_lower_p3 = -qy * iy - qx * ix
    side_lower_nav = np.where(lifted, 0.0, -(-qy * cy - qx * cx))
    side_upper_nav = np.where(lifted, 0.0, -py * cy - px * cx)
    # Second derivatives of d_p3 and d_navicular: change of pull directions, and of the moving points themselves.
    d_pp = side_lower_p3**2 / lower_length - (qx * ix + qy * iy)
    d_np = side_lower_p3 * side_lower_nav / lower_length
    d_nn = side_upper_nav**2 / upper_length + side_lower_nav**2 / lower_length - (kx * cx + ky * cy)
    upper = np.stack([np.where(lifted, ox + 0.5 * sx, ax), np.where(lifted, oy + 0.5 * sy, ay)], axis=-1)
    lower = np.stack([np.where(lifted, ox + 0.5 * sx, bx), np.where(lifted, oy + 0.5 * sy, by)], axis=-1)
    return Path(length, d_navicular, d_p3, d_nn, d_np, d_pp, np.where(lifted, 0.0, wrap), upper, lower)
