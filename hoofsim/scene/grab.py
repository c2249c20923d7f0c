"""Taking hold of a part with the pointer: a soft spring from the part to the pointer, bounded in force."""

from dataclasses import dataclass

import numpy as np
import pymunk

from hoofsim.foot.outlines import outlines
from hoofsim.frames import rotate
from hoofsim.mechanics import bodies
from hoofsim.mechanics.model import Model
from hoofsim.mechanics.outputs import body_poses, move
from hoofsim.mechanics.types import Array

# Strongest pull of the pointer, about what a front foot carries standing (choice), and the spring it grows by.
MOST_PULL_N = 1500.0
PULL_N_PER_MM = 60.0

# From front to back: of two parts under the pointer the one in front is meant.
_OUTLINES = (
    ("navicular", "navicular"), ("p3", "p3"), ("p2", "p2"), ("wall", "dorsal_wall"), ("plate", "sole"),
    ("plate", "frog"), ("border", "capsule"),
)  # fmt: skip


@dataclass(frozen=True)
class Hold:
    """A hold on a body at a point (2,) of it, in rest coordinates, with the pointer at `target` (2,), mm."""

    body: str
    point: Array
    target: Array

    def force(self, model: Model, freedoms: Array) -> tuple[Array, Array]:
        """Where the hold is now (2,), mm, and its pull (2,), N, at freedoms (11,)."""
        at = move(self.point[None], body_poses(model, freedoms[:, None])[self.body])[0]
        wish = PULL_N_PER_MM * (self.target - at)
        size = float(np.hypot(*wish))
        return at, wish * min(1.0, MOST_PULL_N / size) if size > 0 else wish

    def generalised(self, model: Model, freedoms: Array) -> Array:
        """The pull as generalised forces (11,) on the freedoms, N and N mm."""
        at, (fx, fy) = self.force(model, freedoms)
        pose = body_poses(model, freedoms[:, None])[self.body]
        arm = at - pose.pivot[0] - np.array([pose.x[0], pose.y[0]])
        out = np.zeros((bodies.POSES, 1))
        x, y, turn = bodies.ROWS.get(self.body, (0, 1, 3))
        out[x], out[y] = fx, fy
        if self.body != "p2":
            # A clockwise turn moves the point along (arm y, -arm x).
            out[turn] = fx * arm[1] - fy * arm[0]
        return np.asarray(bodies.reduce_gradient(out, freedoms[:, None], model.hinge_x, model.hinge_y)[:, 0])


def hold_at(model: Model, freedoms: Array, pointer: Array) -> Hold:
    """A hold on the part at (or nearest to) `pointer` (2,) mm, for a foot at freedoms (11,).

    Each body's rest outline is asked for the pointer turned back into that body's rest, so that a torn foot is no
    harder to take hold of than a whole one.
    """
    poses = body_poses(model, freedoms[:, None])
    shapes = outlines({name: point[0] for name, point in model.rest.points.items()})
    still = pymunk.Body(body_type=pymunk.Body.STATIC)
    found: list[tuple[float, str, Array]] = []
    for body, name in _OUTLINES:
        pose = poses[body]
        pivot = pose.pivot[0]
        moved_pivot = pivot + np.array([pose.x[0], pose.y[0]])
        rest = pivot + rotate(pointer - moved_pivot, -pose.turn[0])
        shape = pymunk.Poly(still, [(float(x), float(y)) for x, y in shapes[name].points])
        shape.cache_bb()
        found.append((max(0.0, shape.point_query((float(rest[0]), float(rest[1]))).distance), body, rest))
    # Of equally near parts the first, which is in front, is meant.
    _, body, rest = min(found, key=lambda one: one[0])
    return Hold(body, rest, pointer.copy())
