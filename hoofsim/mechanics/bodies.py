"""The moving bodies and their eleven freedoms, and how two bodies' relative pose follows from them.

Everything here keeps the batch on the last axis, because rows of many feet are what the processor streams best.
Freedoms (11, B), displacements from rest, mm and radians (tip down positive):
  0 limb_x, 1 limb_y (centre of the coffin joint), 2 p3_turn, 3 navicular_turn, 4-6 border x, y, turn,
  7-9 plate (sole and frog) x, y, turn, 10 wall_turn.
Pose coordinates (13, B) add the wall's hinge x, y, which follow from the border.
"""

from typing import NamedTuple

import numpy as np

from hoofsim.mechanics.types import Array, Numbers

FREEDOMS = (
    "limb_x", "limb_y", "p3_turn", "navicular_turn", "border_x", "border_y", "border_turn",
    "plate_x", "plate_y", "plate_turn", "wall_turn",
)  # fmt: skip
COUNT = len(FREEDOMS)
POSES = COUNT + 2
TURNS = (2, 3, 6, 9, 10)
# Rows of (x, y, turn) of each body among the pose coordinates; the ground does not move.
ROWS: dict[str, tuple[int, int, int] | None] = {
    "p3": (0, 1, 2),
    "border": (4, 5, 6),
    "plate": (7, 8, 9),
    "wall": (11, 12, 10),
    "ground": None,
}
# Length in mm that makes a radian comparable with a millimetre.
ARM_MM = 30.0


def scales() -> Array:
    """Size (11,) of each freedom: 1 for mm, 1 / ARM_MM for radians."""
    scale = np.ones(COUNT)
    scale[list(TURNS)] = 1.0 / ARM_MM
    return scale


def poses(freedoms: Numbers, hinge_x: Array, hinge_y: Array) -> Numbers:
    """Pose coordinates (13, B) from freedoms (11, B); hinge (B,) mm from the border's pivot."""
    out = np.empty((POSES, freedoms.shape[1]), dtype=freedoms.dtype)
    out[:COUNT] = freedoms
    cosine, sine = np.cos(freedoms[6]), np.sin(freedoms[6])
    out[11] = freedoms[4] + cosine * hinge_x + sine * hinge_y - hinge_x
    out[12] = freedoms[5] - sine * hinge_x + cosine * hinge_y - hinge_y
    return out


def reduce_gradient(gradient: Numbers, freedoms: Numbers, hinge_x: Array, hinge_y: Array) -> Numbers:
    """Gradient by freedoms (11, B) from the gradient by pose coordinates (13, B)."""
    out = gradient[:COUNT].copy()
    arm_x, arm_y = _arm(freedoms, hinge_x, hinge_y)
    out[4] += gradient[11]
    out[5] += gradient[12]
    out[6] += gradient[11] * arm_y - gradient[12] * arm_x
    return out


def reduce_hessian(
    hessian: Numbers, gradient: Numbers, freedoms: Numbers, hinge_x: Array, hinge_y: Array
) -> Numbers:
    """Hessian by freedoms (11, 11, B) from derivatives by pose coordinates (13, 13, B) and (13, B)."""
    arm_x, arm_y = _arm(freedoms, hinge_x, hinge_y)
    half = hessian[:, :COUNT].copy()
    half[:, 4] += hessian[:, 11]
    half[:, 5] += hessian[:, 12]
    half[:, 6] += hessian[:, 11] * arm_y - hessian[:, 12] * arm_x
    out = half[:COUNT].copy()
    out[4] += half[11]
    out[5] += half[12]
    out[6] += half[11] * arm_y - half[12] * arm_x
    out[6, 6] -= gradient[11] * arm_x + gradient[12] * arm_y
    return out


def _arm(freedoms: Numbers, hinge_x: Array, hinge_y: Array) -> tuple[Numbers, Numbers]:
    """The hinge from the border's pivot, turned with the border."""
    cosine, sine = np.cos(freedoms[6]), np.sin(freedoms[6])
    return cosine * hinge_x + sine * hinge_y, -sine * hinge_x + cosine * hinge_y


class Relative(NamedTuple):
    """Pose (B,) of body A in the frame of body B: offset x, y, cosine and sine of the relative turn, and of B's turn."""

    x: Numbers
    y: Numbers
    cosine: Numbers
    sine: Numbers
    frame_cosine: Numbers
    frame_sine: Numbers


def relative(pose: Numbers, body: str, frame: str, pivot_x: Array, pivot_y: Array) -> Relative:
    """Relative pose; pivot (B,) is A's pivot minus B's pivot at rest, mm."""
    rows_a, rows_b = ROWS[body], ROWS[frame]
    assert rows_a is not None
    ax, ay, at = (pose[row] for row in rows_a)
    if rows_b is None:
        one, none = np.ones_like(at), np.zeros_like(at)
        return Relative(ax + pivot_x, ay + pivot_y, np.cos(at), np.sin(at), one, none)
    bx, by, bt = (pose[row] for row in rows_b)
    dx, dy = ax - bx + pivot_x, ay - by + pivot_y
    cosine, sine = np.cos(bt), np.sin(bt)
    return Relative(
        cosine * dx - sine * dy, sine * dx + cosine * dy, np.cos(at - bt), np.sin(at - bt), cosine, sine
    )


class Wrench(NamedTuple):
    """Derivatives (B,) of an interface's energy by its relative pose (x, y, turn)."""

    fx: Numbers
    fy: Numbers
    moment: Numbers


class Stiffness(NamedTuple):
    """Second derivatives (B,) of an interface's energy by its relative pose (x, y, turn)."""

    xx: Numbers
    xy: Numbers
    yy: Numbers
    xt: Numbers
    yt: Numbers
    tt: Numbers


def add_gradient(out: Numbers, body: str, frame: str, r: Relative, w: Wrench) -> None:
    """Add an interface's derivatives to the gradient (13, B) by pose coordinates."""
    rows_a, rows_b = ROWS[body], ROWS[frame]
    assert rows_a is not None
    wx = r.frame_cosine * w.fx + r.frame_sine * w.fy
    wy = -r.frame_sine * w.fx + r.frame_cosine * w.fy
    out[rows_a[0]] += wx
    out[rows_a[1]] += wy
    out[rows_a[2]] += w.moment
    if rows_b is not None:
        out[rows_b[0]] -= wx
        out[rows_b[1]] -= wy
        out[rows_b[2]] += r.x * w.fy - r.y * w.fx - w.moment


def add_hessian(out: Numbers, body: str, frame: str, r: Relative, w: Wrench, k: Stiffness) -> None:
    """Add an interface's second derivatives to the Hessian (13, 13, B) by pose coordinates."""
    rows_a, rows_b = ROWS[body], ROWS[frame]
    assert rows_a is not None
    c, s = r.frame_cosine, r.frame_sine
    world_xx = c * c * k.xx + 2.0 * c * s * k.xy + s * s * k.yy
    world_yy = s * s * k.xx - 2.0 * c * s * k.xy + c * c * k.yy
    world_xy = c * s * (k.yy - k.xx) + (c * c - s * s) * k.xy
    turn_x = c * k.xt + s * k.yt
    turn_y = -s * k.xt + c * k.yt
    ax, ay, at = rows_a
    out[ax, ax] += world_xx
    out[ay, ay] += world_yy
    out[at, at] += k.tt
    _add(out, ax, ay, world_xy)
    _add(out, ax, at, turn_x)
    _add(out, ay, at, turn_y)
    if rows_b is None:
        return
    bx, by, bt = rows_b
    # Turning B carries the offset (x, y) along (-y, x) in B's frame and turns A back relative to it.
    pull_x = -r.y * k.xx + r.x * k.xy - k.xt
    pull_y = -r.y * k.xy + r.x * k.yy - k.yt
    wx = c * w.fx + s * w.fy
    wy = -s * w.fx + c * w.fy
    swing_x = c * pull_x + s * pull_y + wy
    swing_y = -s * pull_x + c * pull_y - wx
    swing_t = -r.y * k.xt + r.x * k.yt - k.tt
    out[bx, bx] += world_xx
    out[by, by] += world_yy
    _add(out, bx, by, world_xy)
    _add(out, ax, bx, -world_xx)
    _add(out, ay, by, -world_yy)
    _add(out, ax, by, -world_xy)
    _add(out, ay, bx, -world_xy)
    _add(out, at, bx, -turn_x)
    _add(out, at, by, -turn_y)
    _add(out, ax, bt, swing_x)
    _add(out, ay, bt, swing_y)
    _add(out, at, bt, swing_t)
    _add(out, bx, bt, -swing_x)
    _add(out, by, bt, -swing_y)
    out[bt, bt] += (
        r.y * r.y * k.xx - 2.0 * r.x * r.y * k.xy + r.x * r.x * k.yy
        - 2.0 * (r.x * k.yt - r.y * k.xt) + k.tt - (w.fx * r.x + w.fy * r.y)
    )  # fmt: skip


def _add(out: Numbers, row: int, column: int, value: Numbers) -> None:
    out[row, column] += value
    out[column, row] += value
