"""The loaded foot built a second time, in a general multibody engine (MuJoCo), and left to settle under gravity.

What the engine does by itself: the kinematic tree (slides and hinges), gravity on the limb and the capsule, the deep flexor
tendon wrapped on a cylinder with its own path finder, the lengths and levers of the ligaments, the wall's hinge and the
limb's hold as joint springs, time stepping. What it cannot know (stiffening bonds, softening, one-sided tissue) enters
through its passive-force callback from `second_laws`. From the program's own engine come numbers only: where stations
are and their constants.

Engine frame: x dorsal, z up, so a hinge about +y turns the tip down. Lengths mm, forces N; time and mass are free in a
statics problem and chosen for quick settling.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from hoofsim.frames import Array
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.bodies import TURNS
from hoofsim.mechanics.elements.line import SLACK_WIDTH_MM
from hoofsim.mechanics.model import FACET_STIFFNESS, FACET_WIDTH_MM, LINES, Model
from hoofsim.model import Foot
from hoofsim.verify.quantities.standing import read
from hoofsim.verify.referees import second_laws as laws

Constants = Mapping[str, Array]
Law = Callable[[Array, Array], tuple[Array, Array]]

BODIES = ("limb", "p3", "navicular", "border", "wall", "plate")


def tree_xml(m: Model) -> str:
    """Model text for one foot (batch of one)."""

    def xz(point: list[float]) -> str:
        return f"{point[0]!r} 0 {point[1]!r}"

    first = {name: np.asarray(value)[0].tolist() for name, value in m.pivot.items()}
    cor, border, wall, plate = first["p3"], first["border"], first["wall"], first["plate"]
    hinge = [wall[0] - border[0], wall[1] - border[1]]
    arc = m.arc_centre[0].tolist()
    origin, insertion = m.tendon_origin[0].tolist(), m.insertion[0].tolist()
    moving, fixed = (
        dict(zip(LINES, ends[:, 0].tolist(), strict=True)) for ends in (m.line_moving, m.line_fixed)
    )
    side = [arc[0] - 14.0, arc[1] - 40.0]
    free = 'mass="1e-6" diaginertia="1e-6 1e-6 1e-6"'
    light = f'<inertial pos="0 0 0" {free}/>'

    def heavy(newtons: float) -> str:
        return f'<inertial pos="0 0 0" mass="{float(newtons)!r}" diaginertia="1e-6 1e-6 1e-6"/>'

    def slides(name: str, stiffness: float = 0.0) -> str:
        return (
            f'<joint name="{name}_x" type="slide" axis="1 0 0" stiffness="{float(stiffness)!r}"/>'
            f'<joint name="{name}_z" type="slide" axis="0 0 1"/>'
        )

    def hinge_joint(name: str, stiffness: float = 0.0) -> str:
        return f'<joint name="{name}_turn" type="hinge" axis="0 1 0" stiffness="{float(stiffness)!r}"/>'

    return f"""
<mujoco>
  <compiler angle="radian"/>
  <option gravity="0 0 -1" timestep="1" integrator="Euler" jacobian="dense">
    <flag contact="disable" eulerdamp="disable"/>
  </option>
  <worldbody>
    <body name="limb" pos="{xz(cor)}">{heavy(m.force[0])}{slides("limb", m.limb_hold[0])}
      <site name="origin" pos="{xz(origin)}"/>
      <site name="extensor_origin" pos="{xz(fixed["extensor"])}"/>
      <site name="sesamoidean_origin" pos="{xz(fixed["sesamoidean"])}"/>
      <body name="p3" gravcomp="1">{light}{hinge_joint("p3")}
        <site name="insertion" pos="{xz(insertion)}"/>
        <site name="extensor_process" pos="{xz(moving["extensor"])}"/>
        <site name="impar_p3" pos="{xz(moving["impar"])}"/>
      </body>
      <body name="navicular" gravcomp="1">{light}{hinge_joint("navicular")}
        <geom name="arc" type="cylinder" size="{float(m.arc_radius[0])!r} 20" pos="{xz(arc)}" euler="{np.pi / 2!r} 0 0"
              contype="0" conaffinity="0" mass="0"/>
        <site name="side" pos="{xz(side)}"/>
        <site name="impar_navicular" pos="{xz(fixed["impar"])}"/>
        <site name="sesamoidean_navicular" pos="{xz(moving["sesamoidean"])}"/>
      </body>
    </body>
    <body name="border" pos="{xz(border)}">{heavy(m.border_weight[0])}{slides("border")}{hinge_joint("border")}
      <body name="wall" pos="{xz(hinge)}" gravcomp="1">{light}{hinge_joint("wall", m.wall_hinge[0])}</body>
    </body>
    <body name="plate" pos="{xz(plate)}">{heavy(m.plate_weight[0])}{slides("plate")}{hinge_joint("plate")}</body>
  </worldbody>
  <tendon>
    <spatial name="flexor"><site site="origin"/><geom geom="arc" sidesite="side"/><site site="insertion"/></spatial>
    <spatial name="extensor"><site site="extensor_process"/><site site="extensor_origin"/></spatial>
    <spatial name="impar"><site site="impar_p3"/><site site="impar_navicular"/></spatial>
    <spatial name="sesamoidean"><site site="sesamoidean_navicular"/><site site="sesamoidean_origin"/></spatial>
  </tendon>
</mujoco>"""


@dataclass
class Station:
    """One interface's stations: bodies, A's points in A's frame, rest offset in B's frame, normals, and their law."""

    body: int
    frame: int
    local: Array
    rest: Array
    normal: Array
    law: Law


def _column(constants: object) -> dict[str, Array]:
    return {name: np.asarray(value)[:, 0] for name, value in vars(constants).items()}


def _rows(table: Constants, here: slice) -> dict[str, Array]:
    return {name: value[here] for name, value in table.items()}


def ground_law(stiffness: Array, gap: Array, friction: float) -> Law:
    """Forces (along the normal, across it) in N for separations n, t of stations on the ground."""

    def law(n: Array, t: Array) -> tuple[Array, Array]:
        push, grip = laws.ground_push(n + gap, t, stiffness, friction)
        return -push, grip

    return law


def two_sided_law(c: Constants, bonded: Array) -> Law:
    """The same for bonds that resist opening, closing and sliding alike."""

    def law(n: Array, t: Array) -> tuple[Array, Array]:
        pull, drag = laws.bond_pull(n, t, c, True)
        return bonded * pull, bonded * drag

    return law


def cushion_law(c: Constants, area: Array) -> Law:
    """The same for tissue that only resists being pressed."""
    return lambda n, t: (-area * laws.squeeze(n, c), 0.0 * t)


def one_sided_law(c: Constants, pressed: Constants, bonded: Array, area: Array) -> Law:
    """The same for bonds that pull when opened, and are tissue when pressed."""

    def law(n: Array, t: Array) -> tuple[Array, Array]:
        pull, drag = laws.bond_pull(n, t, c, False)
        return bonded * pull - area * laws.squeeze(n, pressed), bonded * drag

    return law


class Settling:
    """A foot in the engine: build it from the product's numbers, settle it, read poses and tension."""

    def __init__(self, model: Model) -> None:
        import mujoco

        self.engine = mujoco.MjModel.from_xml_string(tree_xml(model))
        self.state = mujoco.MjData(self.engine)
        self.number = {name: self.engine.body(name).id for name in BODIES} | {"ground": 0}
        self.joint = {
            self.engine.joint(i).name: int(self.engine.joint(i).dofadr[0]) for i in range(self.engine.njnt)
        }
        self.lines = {}
        flexor, short = model.tendon, model.lines
        parts = {"flexor": (flexor.stiffness, flexor.slack, flexor.tone)} | {
            name: (short.stiffness[row], short.slack[row], short.tone[row]) for row, name in enumerate(LINES)
        }
        for name, part in parts.items():
            stiffness, slack, tone = (float(one[0]) for one in part)
            self.lines[self.engine.tendon(name).id] = stiffness, slack, tone
        self.facet_arm = float(model.facet_arm[0])
        self.stations = self._stations(model)

    def _stations(self, model: Model) -> list[Station]:
        s = model.stations
        out: list[Station] = []
        two, one, pressed = (_column(c) for c in (model.two_sided, model.one_sided, model.pressed))
        friction = float(np.asarray(model.ground.friction).ravel()[0])
        pivot = {name: np.asarray(value)[0] for name, value in model.pivot.items()}
        first_pressed, first_one = places.PRESSED.start, places.ONE_SIDED.start
        for kind in places.KINDS:
            here = places.SLICES[kind.name]
            area = s.area[here, 0]
            bonded = area * s.attached[here, 0]
            stiffness = s.stiffness[here, 0]
            gap = s.gap[here, 0]

            in_one = slice(here.start - first_one, here.stop - first_one)
            in_pressed = slice(here.start - first_pressed, here.stop - first_pressed)
            if kind.frame == "ground":
                law = ground_law(stiffness, gap, friction)
            elif kind.name in ("quarters", "junction"):
                law = two_sided_law(_rows(two, here), bonded)
            elif kind.name == "cushion":
                law = cushion_law(_rows(pressed, in_pressed), area)
            else:
                law = one_sided_law(_rows(one, in_one), _rows(pressed, in_pressed), bonded, area)
            local = np.stack([s.lever_x[here, 0], s.lever_y[here, 0]], axis=-1)
            rest = local + pivot[kind.body] - pivot[kind.frame]
            normal = np.stack([s.normal_x[here, 0], s.normal_y[here, 0]], axis=-1)
            out.append(Station(self.number[kind.body], self.number[kind.frame], local, rest, normal, law))
        return out

    def _separations(self, station: Station, place: Array, turn: Array) -> tuple[Array, Array, Array]:
        """Where a station's points are, how they moved in B's frame, and the direction across the normal."""
        at = place[station.body] + station.local @ turn[station.body].T
        move = (at - place[station.frame]) @ turn[station.frame] - station.rest
        return at, move, np.stack([station.normal[:, 1], -station.normal[:, 0]], axis=-1)

    def _forces(self, station: Station, place: Array, turn: Array) -> tuple[Array, Array]:
        """Force (stations, 2) N of body A on body B at the points `at` (stations, 2) mm."""
        at, move, across = self._separations(station, place, turn)
        pull, drag = station.law((move * station.normal).sum(axis=1), (move * across).sum(axis=1))
        return at, (pull[:, None] * station.normal + drag[:, None] * across) @ turn[station.frame].T

    def _frames(self) -> tuple[Array, Array]:
        """Origins (bodies, 2) and axes (bodies, 2, 2) of all bodies in the sagittal plane, from the engine."""
        return self.state.xpos[:, (0, 2)], self.state.xmat.reshape(-1, 3, 3)[:, (0, 2)][:, :, (0, 2)]

    def ground(self) -> tuple[Array, float]:
        """The ground's resultant on the foot (2,) N, and its moment about the world's origin, N mm (x f_z - z f_x)."""
        place, turn = self._frames()
        total, moment = np.zeros(2), 0.0
        for station in self.stations:
            if station.frame == self.number["ground"]:
                at, force = self._forces(station, place, turn)
                total -= force.sum(axis=0)
                moment -= (at[:, 0] * force[:, 1] - at[:, 1] * force[:, 0]).sum()
        return total, moment

    def _passive(self, engine: Any, state: Any) -> None:
        """The engine's passive-force callback: add every tissue's force to `qfrc_passive`."""
        import mujoco

        place, turn = self._frames()
        force, torque = np.zeros((engine.nbody, 3)), np.zeros((engine.nbody, 3))
        for station in self.stations:
            at, on_b = self._forces(station, place, turn)
            for body, sign in ((station.body, -1.0), (station.frame, 1.0)):
                arm = at - place[body]
                force[body, 0] += sign * on_b[:, 0].sum()
                force[body, 2] += sign * on_b[:, 1].sum()
                # About +y: z times force x minus x times force z.
                torque[body, 1] += sign * (arm[:, 1] * on_b[:, 0] - arm[:, 0] * on_b[:, 1]).sum()
        for body in range(1, engine.nbody):
            mujoco.mj_applyFT(
                engine, state, force[body], torque[body], state.xpos[body], body, state.qfrc_passive
            )
        for number in self.lines:
            tension = self.tension(number)
            state.qfrc_passive[:] -= tension * self.jacobian(number)
        p3, navicular = self.joint["p3_turn"], self.joint["navicular_turn"]
        approach = self.facet_arm * (state.qpos[p3] - state.qpos[navicular])
        push = FACET_STIFFNESS * float(laws.stiffening(approach, FACET_WIDTH_MM)) * self.facet_arm
        state.qfrc_passive[p3] -= push
        state.qfrc_passive[navicular] += push

    def tension(self, number: int = 0) -> float:
        """Tension of a line from the engine's own length of it, N."""
        stiffness, slack, tone = self.lines[number]
        return (
            stiffness * float(laws.stiffening(self.state.ten_length[number] - slack, SLACK_WIDTH_MM)) + tone
        )

    def jacobian(self, number: int) -> Array:
        """The engine's own change of a line's length by every joint (nv,)."""
        out = np.zeros(self.engine.nv)
        start, count = self.engine.ten_J_rowadr[number], self.engine.ten_J_rownnz[number]
        here = slice(start, start + count)
        out[self.engine.ten_J_colind[here]] = self.state.ten_J[here]
        return out

    def net_force(self, pose: Array) -> Array:
        """Force on every joint at rest in `pose`: passive minus gravity (nv,); zero where the foot is settled."""
        import mujoco

        self.state.qpos[:], self.state.qvel[:] = pose, 0.0
        mujoco.mj_forward(self.engine, self.state)
        return np.asarray(self.state.qfrc_passive - self.state.qfrc_bias)

    def _stiffness(self, pose: Array, step: float = 1e-5) -> Array:
        """Stiffness (nv, nv) at `pose`, by differences of the engine's own forces."""
        columns = [
            (self.net_force(pose - step * unit) - self.net_force(pose + step * unit)) / (2 * step)
            for unit in np.eye(self.engine.nv)
        ]
        return np.array(columns)

    def settle(self, rounds: int = 12, steps: int = 120, quiet: float = 1e-7) -> int:
        """Let the foot fall from its unloaded pose and come to rest; returns the steps taken.

        Each round sets the joints' added inertia from the stiffness at the present pose, so that the quickest swing takes
        several steps, and a damping that is critical for the slowest one; neither can move the place of rest. The first
        rounds add the inertia of a foot already on the ground. Ends when nothing moves by more than `quiet` mm in a step
        (radians count 30 mm).
        """
        import mujoco

        size = np.array([1.0 if "_turn" not in name else 30.0 for name in self.joint])
        landed, pose, taken = 2e4 * size**2, np.zeros(self.engine.nv), 0
        mujoco.set_mjcb_passive(self._passive)
        try:
            for number in range(rounds):
                stiffness = self._stiffness(pose)
                inertia = 1.5 * (np.abs(stiffness) / size).sum(axis=1) * size
                inertia = np.maximum(inertia, landed * 0.2**number)
                slowest = np.linalg.eigvals(stiffness / inertia[:, None]).real.min()
                self.engine.dof_armature[:] = inertia
                self.engine.dof_damping[:] = 2.0 * np.sqrt(max(slowest, 1e-3)) * inertia
                mujoco.mj_setConst(self.engine, self.state)
                self.state.qpos[:], self.state.qvel[:] = pose, 0.0
                for _ in range(steps):
                    mujoco.mj_step(self.engine, self.state)
                taken += steps
                pose = self.state.qpos.copy()
                if (size * np.abs(self.state.qvel)).max() < quiet:
                    break
            self.net_force(pose)
        finally:
            mujoco.set_mjcb_passive(None)
        return taken

    def freedoms(self) -> Array:
        """The settled pose in the product's order and meaning (11,): the wall's turn is absolute there."""
        q = self.state.qpos
        order = ("limb_x", "limb_z", "p3_turn", "navicular_turn", "border_x", "border_z", "border_turn",
                 "plate_x", "plate_z", "plate_turn")  # fmt: skip
        return np.array(
            [
                *(q[self.joint[name]] for name in order),
                q[self.joint["wall_turn"]] + q[self.joint["border_turn"]],
            ]
        )


SETTLED_CASES = (
    (Foot("sound"), "standing", None),
    (Foot("long_toe_low_heel"), "walk", 84.0),
    (Foot("sound", wedge_deg=6), "trot", 50.0),
    (Foot("failed_laminae"), "standing", None),
)


@lru_cache(maxsize=1)
def settled_differences() -> tuple[float, float, float]:
    """Largest differences over a few feet: positions mm, turns deg, tendon tension %."""
    lengths, turns, tensions = [], [], []
    for foot, case, percent in SETTLED_CASES:
        loaded = foot.load(case, percent)
        settled = Settling(loaded.model)
        settled.settle()
        away = np.abs(settled.freedoms() - loaded.equilibrium.freedoms[:, 0])
        turns.append(float(np.degrees(away[list(TURNS)].max())))
        lengths.append(float(np.delete(away, TURNS).max()))
        tension = read(loaded, "tendon_tension")
        tensions.append(100.0 * abs(settled.tension() / tension - 1.0))
    return max(lengths), max(turns), max(tensions)
