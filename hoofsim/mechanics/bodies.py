"""The moving bodies and their eleven freedoms, and how two bodies' relative pose follows from them.

Everything here keeps the batch on the last axis, because rows of many feet are what the processor streams best.
Freedoms (11, B), displacements from rest, mm and radians (tip down positive):
  0 limb_x, 1 limb_y (centre of the coffin joint), 2 p3_turn, 3 navicular_turn, 4-6 border x, y, turn,
  7-9 plate (sole and frog) x, y, turn, 10 wall_turn.
Pose coordinates (14, B) add the wall's hinge x, y, which follow from the border, and a zero row for the ground.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hoofsim.mechanics.types import Array, Numbers

FREEDOMS = (
    "limb_x", "limb_y", "p3_turn", "navicular_turn", "border_x", "border_y", "border_turn",
    "plate_x", "plate_y", "plate_turn", "wall_turn",
)  # fmt: skip
COUNT = len(FREEDOMS)
# Two more rows for the wall's hinge, and a last row that stays zero: the ground.
POSES = COUNT + 3
GROUND_ROW = POSES - 1
TURNS = (2, 3, 6, 9, 10)
# Rows of (x, y, turn) of each body among the pose coordinates.
ROWS: dict[str, tuple[int, int, int]] = {
    "p3": (0, 1, 2),
    "border": (4, 5, 6),
    "plate": (7, 8, 9),
    "wall": (11, 12, 10),
    "ground": (GROUND_ROW, GROUND_ROW, GROUND_ROW),
}
# Length in mm that makes a radian comparable with a millimetre.
ARM_MM = 30.0


def scales() -> Array:
    """Size (11,) of each freedom: 1 for mm, 1 / ARM_MM for radians."""
    scale = np.ones(COUNT)
    scale[list(TURNS)] = 1.0 / ARM_MM
    return scale


def poses(freedoms: Numbers, hinge_x: Array, hinge_y: Array) -> Numbers:
    """Pose coordinates (14, B) from freedoms (11, B); hinge (B,) mm from the border's pivot."""
    out = np.empty((POSES, freedoms.shape[1]), dtype=freedoms.dtype)
    out[:COUNT] = freedoms
    cosine, sine = np.cos(freedoms[6]), np.sin(freedoms[6])
    out[11] = freedoms[4] + cosine * hinge_x + sine * hinge_y - hinge_x
    out[12] = freedoms[5] - sine * hinge_x + cosine * hinge_y - hinge_y
    out[GROUND_ROW] = 0.0
    return out


def reduce_gradient(gradient: Numbers, freedoms: Numbers, hinge_x: Array, hinge_y: Array) -> Numbers:
    """Gradient by freedoms (11, B) from the gradient by pose coordinates (14, B)."""
    out = gradient[:COUNT].copy()
    arm_x, arm_y = _arm(freedoms, hinge_x, hinge_y)
    out[4] += gradient[11]
    out[5] += gradient[12]
    out[6] += gradient[11] * arm_y - gradient[12] * arm_x
    return out


def reduce_hessian(
    hessian: Numbers, gradient: Numbers, freedoms: Numbers, hinge_x: Array, hinge_y: Array
) -> Numbers:
    """Hessian by freedoms (11, 11, B) from derivatives by pose coordinates (14, 14, B) and (14, B)."""
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
    """Poses (I, B) of bodies A in the frames of bodies B: offset x, y, cosine and sine of the relative turn, and of B's."""

    x: Numbers
    y: Numbers
    cosine: Numbers
    sine: Numbers
    frame_cosine: Numbers
    frame_sine: Numbers


# What `add_hessian` has of each pair, in this order: A's own block (x, y, turn), B's pull on it, B's turn.
_BLOCKS = ("xx", "xy", "yy", "xt", "yt", "tt", "swing_x", "swing_y", "swing_t", "frame_tt")


@dataclass(frozen=True)
class Terms:
    """One term of each of some entries (E,) of the Hessian's upper half, no entry twice, so that all are added at once.

    `source`: rows of the pairs' blocks, one block below the other; `sign` (E, 1): 1 or -1; `row`, `column`: the entry.
    """

    source: NDArray[np.int_]
    sign: Array
    row: NDArray[np.int_]
    column: NDArray[np.int_]

    @classmethod
    def of(cls, rows: Sequence[tuple[int, ...]]) -> tuple["Terms", ...]:
        """First, second, ... terms of all entries, of pairs of bodies with these rows (x, y, turn of A, then of B)."""
        rounds: list[dict[tuple[int, int], tuple[int, float]]] = []
        for pair, (ax, ay, at, bx, by, bt) in enumerate(rows):
            given = [
                (ax, ax, "xx"), (ay, ay, "yy"), (at, at, "tt"), (ax, ay, "xy"), (ax, at, "xt"), (ay, at, "yt"),
            ]  # fmt: skip
            taken = []
            if bx != GROUND_ROW:
                given += [
                    (bx, bx, "xx"), (by, by, "yy"), (bt, bt, "frame_tt"), (bx, by, "xy"),
                    (ax, bt, "swing_x"), (ay, bt, "swing_y"), (at, bt, "swing_t"),
                ]  # fmt: skip
                taken = [
                    (ax, bx, "xx"), (ay, by, "yy"), (ax, by, "xy"), (ay, bx, "xy"),
                    (at, bx, "xt"), (at, by, "yt"), (bx, bt, "swing_x"), (by, bt, "swing_y"),
                ]  # fmt: skip
            for sign, terms in ((1.0, given), (-1.0, taken)):
                for row, column, name in terms:
                    entry = min(row, column), max(row, column)
                    free = [one for one in rounds if entry not in one]
                    if not free:
                        rounds.append({})
                        free = rounds[-1:]
                    free[0][entry] = _BLOCKS.index(name) * len(rows) + pair, sign
        return tuple(
            cls(
                np.array([source for source, _ in one.values()]),
                np.array([[sign] for _, sign in one.values()]),
                *np.array(list(one)).T,
            )
            for one in rounds
        )


@dataclass(frozen=True)
class Joints:
    """Which pairs of bodies face each other: names, rows (I,) of the pose coordinates of bodies A and frames B, the same
    rows pair by pair (x, y, turn of A, then of B), and where their second derivatives go."""

    pairs: tuple[tuple[str, str], ...]
    a: NDArray[np.int_]
    b: NDArray[np.int_]
    rows: tuple[tuple[int, ...], ...]
    terms: tuple[Terms, ...]

    @classmethod
    def of(cls, pairs: Sequence[tuple[str, str]]) -> "Joints":
        """Joints of named pairs (body, frame)."""
        a = np.array([ROWS[body] for body, _ in pairs]).T
        b = np.array([ROWS[frame] for _, frame in pairs]).T
        rows = tuple(ROWS[body] + ROWS[frame] for body, frame in pairs)
        return cls(tuple(pairs), a, b, rows, Terms.of(rows))


def relative(pose: Numbers, joints: Joints, pivot_x: Array, pivot_y: Array) -> Relative:
    """Relative poses; pivots (I, B) are A's pivot minus B's pivot at rest, mm."""
    turn, frame_turn = pose[joints.a[2]], pose[joints.b[2]]
    dx = pose[joints.a[0]] - pose[joints.b[0]] + pivot_x
    dy = pose[joints.a[1]] - pose[joints.b[1]] + pivot_y
    cosine, sine = np.cos(frame_turn), np.sin(frame_turn)
    between = turn - frame_turn
    return Relative(
        cosine * dx - sine * dy, sine * dx + cosine * dy, np.cos(between), np.sin(between), cosine, sine
    )


class Wrench(NamedTuple):
    """Derivatives (I, B) of the interfaces' energies by relative pose (x, y, turn)."""

    fx: Numbers
    fy: Numbers
    moment: Numbers


class Stiffness(NamedTuple):
    """Second derivatives (I, B) of the interfaces' energies by relative pose (x, y, turn)."""

    xx: Numbers
    xy: Numbers
    yy: Numbers
    xt: Numbers
    yt: Numbers
    tt: Numbers


def add_gradient(out: Numbers, joints: Joints, r: Relative, w: Wrench) -> None:
    """Add the interfaces' derivatives to the gradient (14, B) by pose coordinates."""
    wx = r.frame_cosine * w.fx + r.frame_sine * w.fy
    wy = r.frame_cosine * w.fy - r.frame_sine * w.fx
    back = r.x * w.fy - r.y * w.fx - w.moment
    for i, (ax, ay, at, bx, by, bt) in enumerate(joints.rows):
        out[ax] += wx[i]
        out[ay] += wy[i]
        out[at] += w.moment[i]
        if bx != GROUND_ROW:
            out[bx] -= wx[i]
            out[by] -= wy[i]
            out[bt] += back[i]


def add_hessian(out: Numbers, joints: Joints, r: Relative, w: Wrench, k: Stiffness) -> None:
    """Add the interfaces' second derivatives to the upper half of the Hessian (14, 14, B); `mirror` fills the lower."""
    c, s = r.frame_cosine, r.frame_sine
    cs, cc, ss = c * s, c * c, s * s
    xx = cc * k.xx + 2.0 * cs * k.xy + ss * k.yy
    yy = ss * k.xx - 2.0 * cs * k.xy + cc * k.yy
    xy = cs * (k.yy - k.xx) + (cc - ss) * k.xy
    xt = c * k.xt + s * k.yt
    yt = c * k.yt - s * k.xt
    # Turning B carries the offset (x, y) along (-y, x) in B's frame and turns A back relative to it.
    pull_x = r.x * k.xy - r.y * k.xx - k.xt
    pull_y = r.x * k.yy - r.y * k.xy - k.yt
    swing_x = c * pull_x + s * pull_y + c * w.fy - s * w.fx
    swing_y = c * pull_y - s * pull_x - c * w.fx - s * w.fy
    swing_t = r.x * k.yt - r.y * k.xt - k.tt
    frame_tt = r.x * pull_y - r.y * pull_x - r.x * w.fx - r.y * w.fy - swing_t
    blocks = np.concatenate((xx, xy, yy, xt, yt, k.tt, swing_x, swing_y, swing_t, frame_tt))
    for terms in joints.terms:
        out[terms.row, terms.column] += terms.sign * blocks[terms.source]


def mirror(out: Numbers) -> None:
    """Copy the upper half of the Hessian (14, 14, B) into the lower."""
    for row in range(1, out.shape[0]):
        out[row, :row] = out[:row, row]
