"""Marching the bodies through one window of the clock, every sub-step under the element laws at its predicted pose.

A law costs almost the same for forty poses as for one, because numpy's cost is the call. So the window is worked in
look-aheads: (1) predict the poses of all coming sub-steps, (2) evaluate the elements at all of them in one batch, with
their tangents, (3) step the bodies under each sub-step's own forces, corrected by its own tangent for the little by which
the body's true next pose differs from the predicted one. As soon as that differs by more than `MOST_MISS_MM`, stop and
look ahead again from there, predicting with the laws just evaluated. The first sub-step of a look-ahead is always exact.

The scheme is semi-implicit (symplectic) Euler: forces belong to the pose x + v dt that the step is about to reach.
"""

from dataclasses import dataclass

import numpy as np

from hoofsim.mechanics import bodies
from hoofsim.mechanics.assembly import evaluate
from hoofsim.mechanics.equilibrium import strains
from hoofsim.mechanics.model import Model
from hoofsim.mechanics.types import Array
from hoofsim.scene.space import DECAY, SUBSTEP_S, FootSpace

# Sub-steps in a window, the clock's own step: controls, load and damage are carried forward between windows.
WINDOW = 20
# Largest miss of a predicted pose that the tangent may make good (turns count at `bodies.ARM_MM`), mm: well under the
# 0.05 mm over which a contact sets in.
MOST_MISS_MM = 0.01

_INVERSE_SCALES = 1.0 / bodies.scales()


@dataclass
class _Laws:
    """Energy gradients (11, n) and Hessians (n, 11, 11) at poses (11, n)."""

    poses: Array
    gradient: Array
    hessian: Array

    @classmethod
    def at(cls, model: Model, poses: Array, worst: Array) -> "_Laws":
        found = evaluate(model, poses, worst)
        assert found.hessian is not None
        return cls(poses, found.gradient, np.ascontiguousarray(np.moveaxis(found.hessian, 2, 0)))

    def force(self, index: int, pose: Array) -> Array:
        """Minus the gradient at a pose near the one of sub-step `index`."""
        out: Array = -self.gradient[:, index] - self.hessian[index] @ (pose - self.poses[:, index])
        return out

    def last(self) -> "_Laws":
        return _Laws(self.poses[:, -1:], self.gradient[:, -1:], self.hessian[-1:])

    def after(self, count: int) -> "_Laws":
        return _Laws(self.poses[:, count:], self.gradient[:, count:], self.hessian[count:])


class March:
    """Moves one foot's bodies; remembers the laws last evaluated, to predict with."""

    def __init__(self, space: FootSpace) -> None:
        self.space = space
        self.looks = 0
        self._laws: _Laws | None = None

    def forget(self) -> None:
        """Drop what was remembered, after the foot itself has changed."""
        self._laws = None

    def _predict(self, laws: _Laws, pose: Array, speed: Array, pull: Array, count: int) -> Array:
        """Poses (11, count) of the coming sub-steps under remembered laws, the last of them going on."""
        out = np.empty((bodies.COUNT, count))
        known = laws.poses.shape[1]
        rate = SUBSTEP_S / self.space.inertia
        for i in range(count):
            pose = pose + SUBSTEP_S * speed
            out[:, i] = pose
            speed = DECAY * speed + rate * (laws.force(min(i, known - 1), pose) + pull)
        return out

    def window(self, model: Model, worst: Array, pull: Array) -> tuple[Array, Array]:
        """March through one window with bond history `worst` (bonded, 1) under the elements and a steady `pull` (11,).

        Returns the new history and the unbalanced force (11,) of the last sub-step.
        """
        space, left = self.space, WINDOW
        pose, speed = space.read()
        if self._laws is None:
            self._laws = _Laws.at(model, (pose + SUBSTEP_S * speed)[:, None], worst)
        laws, passed = self._laws, []
        force = pull
        while left:
            laws = _Laws.at(model, self._predict(laws, pose, speed, pull, left), worst)
            self.looks += 1
            for done in range(left):
                ahead = pose + SUBSTEP_S * speed
                miss = np.abs((ahead - laws.poses[:, done]) * _INVERSE_SCALES).max()
                if done and miss > MOST_MISS_MM:
                    break
                force = laws.force(done, ahead) + pull
                space.step(force)
                pose, speed = space.read()
                passed.append(pose)
            else:
                done = left
            left -= done
            laws = laws.after(done) if left else laws
        self._laws = laws.last()
        return np.maximum(worst, strains(model, np.stack(passed, axis=1)).max(axis=1, keepdims=True)), force
