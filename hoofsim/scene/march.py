"""Marching the bodies through one window of the clock, every sub-step under the element laws at its predicted pose.

A law costs almost the same for forty poses as for one, because numpy's cost is the call. So the window is worked in
look-aheads: (1) predict the poses of all coming sub-steps, (2) evaluate the elements at all of them in one batch, with
their tangents, (3) step the bodies under each sub-step's own forces, corrected by its own tangent for the little by which
the body's true next pose differs from the predicted one. As soon as that differs by more than `MOST_MISS_MM`, stop and
look ahead again from there, predicting with the laws just evaluated. The first sub-step of a look-ahead is always exact.

The scheme is semi-implicit (symplectic) Euler: forces belong to the pose x + v dt that the step is about to reach.
"""

import math
from dataclasses import dataclass

import numpy as np

from hoofsim.mechanics import bodies
from hoofsim.mechanics.assembly import evaluate
from hoofsim.mechanics.equilibrium import strains
from hoofsim.mechanics.model import Model
from hoofsim.mechanics.types import Array
from hoofsim.scene.space import SUBSTEP_S, FootSpace

# Sub-steps in a window, the clock's own step: controls, load and damage are carried forward between windows.
WINDOW = 24
# Largest miss of a predicted pose that the tangent may make good (turns count at `bodies.ARM_MM`), mm. Its error is of
# second order: under 0.01 mm after a window in which a foot was knocked at 600 mm/s, nothing once it rests.
MOST_MISS_MM = 0.1
# Predicting ends where a remembered law would have to reach further than this from its own pose, mm.
LONGEST_REACH_MM = 1.0
# A sub-step changes no speed by more than this, mm/s: far above what standing, walking and pulling do (tens), so that
# even a foot forced deep into the ground is pushed out and not shot out.
MOST_KICK_MM_PER_S = 500.0

# After a miss, look ahead no further than so many times as far as was foreseen rightly, and a little: while a foot lands
# one miss follows another, and what lies beyond the next is foreseen in vain.
AHEAD_AGAIN, AHEAD_LEAST = 2, 4

_UNIT, _STILL = np.eye(bodies.COUNT), np.zeros(bodies.COUNT)
# What a sub-step without forces does to freedoms and speeds, one below the other.
_COAST = np.block([[_UNIT, SUBSTEP_S * _UNIT], [0.0 * _UNIT, _UNIT]])
_INVERSE_SCALES = 1.0 / bodies.scales()


def _square(move: Array) -> float:
    """Square of the length of a move (11,), mm, turns at `bodies.ARM_MM`."""
    scaled = move * _INVERSE_SCALES
    return float(scaled.dot(scaled))


@dataclass
class _Laws:
    """Forces (n, 11), which are minus the energy's gradients, and Hessians (n, 11, 11) at poses (n, 11)."""

    poses: Array
    forces: Array
    hessian: Array

    @classmethod
    def at(cls, model: Model, poses: Array, worst: Array) -> "_Laws":
        """The elements' laws at poses (n, 11), with bond history `worst` (bonded, 1)."""
        found = evaluate(model, np.ascontiguousarray(poses.T), worst)
        hessian = np.ascontiguousarray(np.moveaxis(found.hessian, 2, 0))
        return cls(poses, np.ascontiguousarray(-found.gradient.T), hessian)

    def force(self, index: int, off: Array) -> Array:
        """The force (11,) where the pose is `off` (11,) the one of sub-step `index`."""
        return self.forces[index] - self.hessian[index].dot(off)  # type: ignore[no-any-return]

    def after(self, count: int) -> "_Laws":
        """The laws of the sub-steps after the first `count`."""
        return _Laws(self.poses[count:], self.forces[count:], self.hessian[count:])


class March:
    """Moves one foot's bodies; remembers the laws last evaluated, to predict with. `looks` counts the look-aheads.

    Between windows the load of a stride moves on, and so do the laws; by about as much as the time before, so what
    the remembered laws missed at the last window's start is expected again at the next.
    """

    def __init__(self, space: FootSpace) -> None:
        self.space = space
        self.looks = 0
        self._laws: _Laws | None = None
        self._jump: Array = np.zeros(bodies.COUNT)
        self._weigh()

    def _weigh(self) -> None:
        """Note what a force does to the speeds in one sub-step, and to their length with turns at `bodies.ARM_MM`."""
        self._rate: Array = SUBSTEP_S / self.space.inertia
        self._kick: Array = self._rate * _INVERSE_SCALES

    def forget(self) -> None:
        """Drop what was remembered, after the foot itself has changed."""
        self._laws, self._jump = None, np.zeros(bodies.COUNT)

    def _bounded(self, force: Array) -> Array:
        """Generalised forces (11,), made smaller if they would kick too hard."""
        kick = force * self._kick
        square = float(kick.dot(kick))
        return force if square <= MOST_KICK_MM_PER_S**2 else force * (MOST_KICK_MM_PER_S / math.sqrt(square))

    def _predict(self, laws: _Laws, pose: Array, speed: Array, pull: Array, count: int) -> Array:
        """Poses (count or fewer, 11) of the coming sub-steps under remembered laws, the last of them going on."""
        last = len(laws.poses) - 1
        if not last:
            poses = self._under_one_law(laws, pose, speed, pull, count)
            if poses is not None:
                return poses
        out = np.empty((count, bodies.COUNT))
        rate, decay = self._rate, self.space.decay
        for i in range(count):
            pose = pose + SUBSTEP_S * speed
            law = min(i, last)
            off = pose - laws.poses[law]
            if i and _square(off) > LONGEST_REACH_MM**2:
                return out[:i]
            out[i] = pose
            speed = decay * speed + rate * self._bounded(laws.force(law, off) + pull)
        return out

    def _under_one_law(self, laws: _Laws, pose: Array, speed: Array, pull: Array, count: int) -> Array | None:
        """As `_predict` with one remembered law, which makes all sub-steps one matrix; None where one kicks too hard."""
        size, decay, rate = bodies.COUNT, self.space.decay, self._rate[:, None] * laws.hessian[0]
        advance = _COAST.copy()
        advance[size:, :size] = -rate
        advance[size:, size:] = decay * _UNIT - SUBSTEP_S * rate
        gain = np.concatenate([_STILL, self._rate * (laws.forces[0] + pull)])
        states = np.empty((count + 1, 2 * size))
        states[0, :size], states[0, size:] = pose - laws.poses[0], speed
        for i in range(count):
            states[i + 1] = advance.dot(states[i]) + gain
        scaled = states[1:, :size] * _INVERSE_SCALES
        far = np.flatnonzero(np.einsum("ij,ij->i", scaled, scaled)[1:] > LONGEST_REACH_MM**2)
        seen = int(far[0]) + 1 if far.size else count
        kicks = (states[1 : seen + 1, size:] - decay * states[:seen, size:]) * _INVERSE_SCALES
        if np.einsum("ij,ij->i", kicks, kicks).max() > MOST_KICK_MM_PER_S**2:
            return None
        poses: Array = states[1 : seen + 1, :size] + laws.poses[0]
        return poses

    def window(self, model: Model, worst: Array, pull: Array) -> tuple[Array, Array]:
        """March through one window with bond history `worst` (bonded, 1) under the elements and a steady `pull` (11,).

        Returns the new history and the unbalanced force (11,) of the last sub-step.
        """
        self._weigh()
        space, passed = self.space, np.empty((WINDOW, bodies.COUNT))
        pose, speed = space.read()
        before = self._laws or _Laws.at(model, (pose + SUBSTEP_S * speed)[None], worst)
        laws, force, expected, count, ahead = before, pull, pull + self._jump, 0, WINDOW
        stiffest = np.zeros(bodies.COUNT)
        while count < WINDOW:
            sub_steps = min(WINDOW - count, ahead)
            laws = _Laws.at(model, self._predict(laws, pose, speed, expected, sub_steps), worst)
            stiffest = np.maximum(stiffest, np.einsum("nii->ni", laws.hessian).max(axis=0))
            if not count:
                first, nothing = laws.poses[0], np.zeros(bodies.COUNT)
                self._jump = laws.force(0, nothing) - before.force(0, first - before.poses[0])
            self.looks, expected = self.looks + 1, pull
            foreseen, done = len(laws.poses), 0
            while done < foreseen:
                off = pose + SUBSTEP_S * speed - laws.poses[done]
                if done and _square(off) > MOST_MISS_MM**2:
                    break
                force = laws.force(done, off) + pull
                space.step(self._bounded(force))
                pose, speed = space.read()
                passed[count + done] = pose
                done += 1
            count, ahead = count + done, AHEAD_AGAIN * done + AHEAD_LEAST
            laws = laws.after(min(done, foreseen - 1))
        space.bear(stiffest)
        self._laws = laws.after(len(laws.poses) - 1)
        suffered = strains(model, np.ascontiguousarray(passed.T)).max(axis=1, keepdims=True)
        return np.maximum(worst, suffered), force
