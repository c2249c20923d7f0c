"""What a solved batch of feet shows: moved landmarks, body poses, station states, forces and mechanical outputs."""

from typing import NamedTuple

import numpy as np

from hoofsim.foot.landmarks import BODY_OF
from hoofsim.frames import rotate
from hoofsim.mechanics import bodies
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.assembly import line_pulls, separations, station_laws, tendon_law, tendon_path
from hoofsim.mechanics.equilibrium import bond_damage
from hoofsim.mechanics.model import EXTENSOR, Model
from hoofsim.mechanics.types import Array

GROUND_LEAST_N = 1e-9
LEAST_AREA_MM2 = 1e-9


class BodyPose(NamedTuple):
    """Move of a body since rest: shift x, y (B,) mm, turn (B,) rad about the moved pivot, pivot (B, 2) at rest."""

    x: Array
    y: Array
    turn: Array
    pivot: Array


class StationState(NamedTuple):
    """Stations of one kind, (S, B): ends (S, B, 2) mm; attached and damage 0-1; normal (pull positive) and shear traction
    of the attached tissue in MPa, or force in N for the ground (push positive)."""

    bone_end: Array
    horn_end: Array
    attached: Array
    damage: Array
    normal: Array
    shear: Array


class BatchForce(NamedTuple):
    """A force (B, 2) in N drawn at a point (B, 2) in mm."""

    at: Array
    force: Array


class Outputs(NamedTuple):
    """Everything a person can see of a batch; `mechanics` as `hoofsim.measures` expects it."""

    points: dict[str, Array]
    poses: dict[str, BodyPose]
    stations: dict[str, StationState]
    forces: dict[str, BatchForce]
    mechanics: dict[str, Array]


def body_poses(model: Model, freedoms: Array) -> dict[str, BodyPose]:
    """Pose of every body at freedoms (11, B)."""
    pose = bodies.poses(freedoms, model.hinge_x, model.hinge_y)
    joint = model.pivot["p3"]
    out = {
        "p2": BodyPose(pose[0], pose[1], model.posture.p2_turn, joint),
        "navicular": BodyPose(pose[0], pose[1], pose[3], joint),
    }
    for body, rows in bodies.ROWS.items():
        if body != "ground":
            out[body] = BodyPose(pose[rows[0]], pose[rows[1]], pose[rows[2]], model.pivot[body])
    return out


def move(points: Array, pose: BodyPose) -> Array:
    """Rest points (..., B, 2) moved by a body's pose."""
    return rotate(points, pose.turn, pose.pivot) + np.stack([pose.x, pose.y], axis=-1)


def _moved(rest: dict[str, Array], poses: dict[str, BodyPose]) -> dict[str, Array]:
    """Landmarks (B, 2) by name, each moved with its body; those of a body together."""
    found: dict[str, Array] = {}
    for body, pose in poses.items():
        names = [name for name in rest if BODY_OF[name] == body]
        found |= zip(names, move(np.stack([rest[name] for name in names]), pose), strict=True)
    return {name: found[name] for name in rest}


def _unit(vector: Array) -> Array:
    out: Array = vector / np.linalg.norm(vector, axis=-1, keepdims=True)
    return out


def _stations(
    model: Model, freedoms: Array, worst: Array, poses: dict[str, BodyPose]
) -> dict[str, StationState]:
    sep = separations(model, bodies.poses(freedoms, model.hinge_x, model.hinge_y))
    laws = station_laws(model, sep, worst)
    s = model.stations
    damage = np.zeros_like(s.area)
    damage[places.BONDED] = bond_damage(model, worst)
    normals = np.stack([s.normal_x, s.normal_y], axis=-1)
    out: dict[str, StationState] = {}
    grounds: list[StationState] = []
    for kind in places.KINDS:
        here = places.SLICES[kind.name]
        rest = model.station_points[here]
        bone_end = move(rest, poses[kind.body])
        if kind.frame == "ground":
            foot = bone_end - (np.maximum(sep.n[here], 0.0))[..., None] * normals[here]
            state = StationState(
                bone_end, foot, s.attached[here], damage[here], -laws.d_n[here], laws.d_s[here]
            )
            grounds.append(state)
            continue
        horn_rest = rest - s.thickness[here][..., None] * normals[here]
        area = s.area[here] * np.where(s.attached[here] > 0, s.attached[here], 1.0)
        # A pressed station is carried by its whole area, bonded or not.
        area = np.where(laws.d_n[here] < 0, s.area[here], area)
        out[kind.name] = StationState(
            bone_end, move(horn_rest, poses[kind.frame]), s.attached[here], damage[here],
            laws.d_n[here] / area, laws.d_s[here] / area,
        )  # fmt: skip
    out["ground"] = StationState(*(np.concatenate(parts) for parts in zip(*grounds, strict=True)))
    return out


def _ground_force(model: Model, ground: StationState) -> tuple[Array, Array]:
    """Resultant (B, 2) N of the ground's push and the point (B, 2) on the ground where its line passes."""
    turn = model.rest.ground_turn
    up = np.stack([np.sin(turn), np.cos(turn)], axis=-1)
    along = np.stack([np.cos(turn), -np.sin(turn)], axis=-1)
    push = ground.normal.sum(axis=0)
    grip = -ground.shear.sum(axis=0)
    force = push[:, None] * up + grip[:, None] * along
    pivot = model.rest.ground_pivot
    reach = np.einsum("sbk,bk->sb", ground.bone_end - pivot[None], along)
    lift = np.einsum("sbk,bk->sb", ground.bone_end - pivot[None], up)
    moment = (ground.normal * reach + ground.shear * lift).sum(axis=0)
    centre = np.where(push > GROUND_LEAST_N, moment / np.maximum(push, GROUND_LEAST_N), 0.0)
    return force, pivot + centre[:, None] * along


def observe(model: Model, freedoms: Array, worst: Array) -> Outputs:
    """Outputs of a batch at freedoms (11, B) with bond history `worst`."""
    poses = body_poses(model, freedoms)
    rest = model.rest.points
    points = _moved(rest, poses)
    stations = _stations(model, freedoms, worst, poses)
    along = tendon_path(model, freedoms)
    tension = tendon_law(model, along).force
    extensor_pull = line_pulls(model, freedoms)[0].force[EXTENSOR]
    joint = points["cor"]

    lower, upper = along.lower + joint, along.upper + joint
    origin = joint + model.tendon_origin
    at_insertion = _unit(lower - points["tendon_insertion"])
    upward = _unit(origin - upper)
    on_navicular = tension[:, None] * (upward - at_insertion)
    turn = along.wrap
    underside = _unit(points["palmar_process"] - points["tip"])
    insertion_angle = np.degrees(np.arccos(np.clip((at_insertion * underside).sum(axis=-1), -1.0, 1.0)))

    force, centre = _ground_force(model, stations["ground"])
    size = np.linalg.norm(force, axis=-1)
    arm = centre - joint
    lever = (arm[:, 0] * force[:, 1] - arm[:, 1] * force[:, 0]) / np.maximum(size, GROUND_LEAST_N)
    ground_run = np.stack([np.cos(model.rest.ground_turn), -np.sin(model.rest.ground_turn)], axis=-1)
    laminae, dermis = stations["laminae"], stations["solar_dermis"]
    pulled = np.maximum(laminae.normal, 0.0)
    stress = np.where(laminae.attached > 0, np.hypot(pulled, laminae.shear), 0.0)
    count = places.COUNTS["laminae"]
    bonded = model.stations.area[places.BONDED] * model.stations.attached[places.BONDED]
    torn = (bonded * bond_damage(model, worst)).sum(axis=0) / np.maximum(bonded.sum(axis=0), LEAST_AREA_MM2)
    mechanics = {
        "bonds_torn": torn,
        "tendon_tension": tension,
        "tendon_lever": -(along.d_p3 + along.d_navicular),
        "tendon_turn": np.degrees(turn),
        "tendon_insertion_angle": insertion_angle,
        "navicular_load": 2.0 * tension * np.sin(0.5 * turn),
        "laminar_stress": stress.T,
        "laminar_stress_at": (np.arange(count) + 0.5) / count,
        "sole_pressure_tip": -dermis.normal[:2].mean(axis=0),
        "centre_of_pressure": ((points["toe"] - centre) * ground_run).sum(axis=-1),
        "ground_force_lever": lever,
    }
    extensor_line = _unit(joint + model.line_fixed[EXTENSOR] - points["extensor_process"])
    forces = {
        "load": BatchForce(joint, np.stack([np.zeros_like(model.force), -model.force], axis=-1)),
        "ground": BatchForce(centre, force),
        "tendon": BatchForce(points["tendon_insertion"], tension[:, None] * at_insertion),
        "navicular": BatchForce(points["navicular_flexor"], on_navicular),
        "extensor": BatchForce(points["extensor_process"], extensor_pull[:, None] * extensor_line),
    }
    return Outputs(points, poses, stations, forces, mechanics)
