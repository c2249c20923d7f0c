"""The pymunk space: six bodies in mm, N and tonnes, one drag for all, and the way in and out of the freedoms.

No body has a collision shape: ground, facet and stops are elements of `hoofsim.mechanics`, and a second contact beside
them would be a second truth. Collision slop therefore has nothing to act on and is set to zero, on purpose.

Inertia is scaled: the scene shows how a foot comes to rest and does not study its vibration, so bodies weigh what lets
sub-steps of `SUBSTEP_S` stay well inside the limit of stability (a stiffness of 4 m / h^2). `INERTIA` does so for almost
every foot; the plate of sole and frog, which is light, is made heavier by `bear` for as long as it lies flat on the
ground. The limb's mass stands for the part of the horse that moves with the coffin joint.
"""

import math

import numpy as np
import pymunk
import pymunk.batch

from hoofsim.frames import to_engine_angle
from hoofsim.mechanics import bodies
from hoofsim.mechanics.model import Model
from hoofsim.mechanics.types import Array

# Sub-steps a second (choice: finer than 2 kHz, and a whole number of them in a window and a frame).
SUBSTEPS_PER_SECOND = 2400
SUBSTEP_S = 1.0 / SUBSTEPS_PER_SECOND
# Rate (1/s) at which every speed dies away, about twice the slowest stiff mode of a standing foot, so that it does not
# ring. Applied by the engine as an exact decay, which no stiffness or step can make unstable. Less in the air, where
# only slack tissue holds the foot's turn: least where it just hangs, more where it must land without rattling.
DRAG_PER_S, SWING_DRAG_PER_S, HANGING_DRAG_PER_S = 250.0, 80.0, 25.0
# Inertia of the sound foot's freedoms, in tonnes (N s2/mm) and tonne mm2; a choice, see above.
INERTIA = np.array([0.03, 0.03, 10.0, 3.0, 0.01, 0.01, 15.0, 0.01, 0.01, 10.0, 5.0])
# The stiffest that the plate's rise and turn may be, as a share of m / h^2, before it is made heavier: far below 4,
# because contact stiffens within a sub-step. Friction, which is bounded, is left out.
MOST_STIFF = 0.8
LIGHTER = 0.93  # what one window leaves of such a weight once the stiffness has gone
# Bodies that are carried by another's joint add this little mass to it.
CARRIED_SHARE = 1e-4

BODIES = ("p2", "p3", "navicular", "border", "plate", "wall")
# Where each freedom is found: body and place (x, y, angle) in it.
_PLACES = (
    ("p2", 0), ("p2", 1), ("p3", 2), ("navicular", 2), ("border", 0), ("border", 1), ("border", 2),
    ("plate", 0), ("plate", 1), ("plate", 2), ("wall", 2),
)  # fmt: skip
# The plate's freedoms, and whose stiffness each has to bear: a body weighs the same in either direction.
_PLATE, _PLATE_BORNE = [7, 8, 9], [8, 8, 9]
_FORCE_INDEX = np.array([3 * BODIES.index(body) + place for body, place in _PLACES])
_POSE_INDEX = np.array([6 * BODIES.index(body) + place for body, place in _PLACES])
_MOTION_INDEX = np.stack([_POSE_INDEX, _POSE_INDEX + 3])
# A pymunk angle grows anticlockwise, a turn clockwise; a torque changes sign with it.
_SIGN = np.array([to_engine_angle(1.0) if place == 2 else 1.0 for _, place in _PLACES])

_MOTION = (
    pymunk.batch.BodyFields.POSITION
    | pymunk.batch.BodyFields.ANGLE
    | pymunk.batch.BodyFields.VELOCITY
    | pymunk.batch.BodyFields.ANGULAR_VELOCITY
)
_PUSH = pymunk.batch.BodyFields.FORCE | pymunk.batch.BodyFields.TORQUE


class FootSpace:
    """The bodies of one foot. Freedoms q and speeds v are (11,) as in `hoofsim.mechanics.bodies`, mm, rad, s."""

    def __init__(self, model: Model, freedoms: Array) -> None:
        self.space = pymunk.Space()
        self.space.gravity = (0.0, 0.0)  # weight is one of the elements
        self.space.collision_slop = 0.0
        self.space.iterations = 10
        self.bodies = {body: pymunk.Body(1.0, 1.0) for body in BODIES}
        self.space.add(*self.bodies.values())
        self._joints: list[pymunk.PivotJoint] = []
        self._read = pymunk.batch.Buffer()
        self._write = pymunk.batch.Buffer()
        self._forces = np.zeros(3 * len(BODIES))
        self._write.set_float_buf(self._forces)
        self.rest = np.zeros(bodies.COUNT)
        self.inertia = self._usual = INERTIA
        self.decay = 1.0
        self.drag(DRAG_PER_S)
        self.fit(model)
        self.place(model, freedoms, np.zeros(bodies.COUNT))

    def drag(self, rate: float) -> None:
        """Set the rate (1/s) at which speeds die away; `decay` is what a sub-step leaves of them."""
        self.space.damping = math.exp(-rate)
        self.decay = math.exp(-rate * SUBSTEP_S)

    def fit(self, model: Model) -> None:
        """Take another foot's pivots and inertia; call `place` afterwards."""
        scale = float(model.rest.scale[0])
        turning = np.isin(np.arange(bodies.COUNT), bodies.TURNS)
        self.inertia = self._usual = INERTIA * np.where(turning, scale**4, scale**2)
        self._weigh_bodies()
        pivot = {body: model.pivot[body][0] for body in ("p3", "border", "plate", "wall")}
        pivot["p2"] = pivot["navicular"] = pivot["p3"]
        self._pivot = pivot
        self.rest = np.array([pivot[body][place] if place < 2 else 0.0 for body, place in _PLACES])
        self._offset = np.stack([self.rest, np.zeros(bodies.COUNT)])
        self.space.remove(*self._joints)
        hinge = pivot["wall"] - pivot["border"]
        here = (0.0, 0.0)
        joint = pymunk.PivotJoint
        self._joints = [
            joint(self.bodies["p2"], self.bodies["p3"], here, here),
            joint(self.bodies["p2"], self.bodies["navicular"], here, here),
            joint(self.bodies["border"], self.bodies["wall"], (float(hinge[0]), float(hinge[1])), here),
        ]
        for one in self._joints:
            one.error_bias = 0.5**SUBSTEPS_PER_SECOND
        self.space.add(*self._joints)

    def _weigh_bodies(self) -> None:
        """Give the engine's bodies their inertia."""
        carried = {"p3": "p2", "navicular": "p2", "wall": "border"}
        heavy = {"p2": self.inertia[0], "border": self.inertia[4], "plate": self.inertia[7]}
        moments = {body: self.inertia[i] for i, (body, place) in enumerate(_PLACES) if place == 2}
        for name, body in self.bodies.items():
            body.mass = heavy[name] if name in heavy else CARRIED_SHARE * heavy[carried[name]]
            body.moment = moments.get(name, math.inf)

    def bear(self, stiffness: Array) -> None:
        """Make the plate as heavy as the stiffness (11,), N/mm and N mm, that it met in the last window asks for."""
        needed = np.zeros(bodies.COUNT)
        needed[_PLATE] = stiffness[_PLATE_BORNE] * (SUBSTEP_S**2 / MOST_STIFF)
        if self.inertia is self._usual and (needed <= self._usual).all():
            return
        heavier = np.maximum(needed, LIGHTER * self.inertia)
        self.inertia = self._usual if (heavier <= self._usual).all() else np.maximum(heavier, self._usual)
        self._weigh_bodies()

    def place(self, model: Model, freedoms: Array, speeds: Array) -> None:
        """Put every body at freedoms (11,) with speeds (11,); carried bodies go where their joint is."""
        pose = bodies.poses(freedoms[:, None], model.hinge_x, model.hinge_y)[:, 0]
        values, rates = freedoms * _SIGN + self.rest, speeds * _SIGN
        state = {body: np.zeros((2, 3)) for body in BODIES}
        for i, (body, place) in enumerate(_PLACES):
            state[body][:, place] = values[i], rates[i]
        for carried in ("p3", "navicular"):
            state[carried][:, :2] = state["p2"][:, :2]
        state["p2"][0, 2] = to_engine_angle(float(model.posture.p2_turn[0]))
        state["wall"][0, :2] = self._pivot["wall"] + pose[[11, 12]]
        for name, one in self.bodies.items():
            at, rate = state[name].tolist()
            one.position, one.angle = (at[0], at[1]), at[2]
            one.velocity, one.angular_velocity = (rate[0], rate[1]), rate[2]

    def turn_limb(self, model: Model) -> None:
        """Set the middle phalanx's angle to the model's posture."""
        self.bodies["p2"].angle = to_engine_angle(float(model.posture.p2_turn[0]))

    def read(self) -> tuple[Array, Array]:
        """Freedoms and speeds (11,) now."""
        self._read.clear()
        pymunk.batch.get_space_bodies(self.space, _MOTION, self._read)
        motion = (np.frombuffer(self._read.float_buf())[_MOTION_INDEX] - self._offset) * _SIGN
        return motion[0], motion[1]

    def step(self, force: Array) -> None:
        """One sub-step under generalised forces (11,), N and N mm."""
        self._forces[_FORCE_INDEX] = force * _SIGN
        pymunk.batch.set_space_bodies(self.space, _PUSH, self._write)
        self.space.step(SUBSTEP_S)
