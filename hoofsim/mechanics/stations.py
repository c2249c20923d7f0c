"""Where the distributed tissues act: every station of laminae, dermis, cushion, junction and ground, as arrays.

A station joins a point of body A to body B. Its separation is the movement of A's point in B's frame since rest, resolved
along `normal` (opening positive) and along the tangent (normal turned a quarter clockwise). Arrays are (stations, B).
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from hoofsim.foot.geometry import Rest
from hoofsim.mechanics.bodies import Joints
from hoofsim.mechanics.types import Array

Values = Mapping[str, Array]


@dataclass(frozen=True)
class StationKind:
    """A group of stations: `interface` names its two bodies; counts fix its place in the arrays."""

    name: str
    body: str
    frame: str
    count: int


# Order matters: two-sided bonds, then one-sided bonds, then pressed tissue, then ground (see `assembly`).
KINDS = (
    StationKind("quarters", "p3", "border", 6),
    StationKind("junction", "plate", "border", 4),
    StationKind("laminae", "p3", "wall", 18),
    StationKind("solar_dermis", "p3", "plate", 14),
    StationKind("cushion", "p3", "plate", 4),
    StationKind("border_ground", "border", "ground", 7),
    StationKind("wall_ground", "wall", "ground", 1),
    StationKind("plate_ground", "plate", "ground", 9),
    StationKind("bone_ground", "p3", "ground", 2),
)
COUNTS = {kind.name: kind.count for kind in KINDS}
_ENDS = np.cumsum([0] + [kind.count for kind in KINDS])
SLICES = {kind.name: slice(int(_ENDS[i]), int(_ENDS[i + 1])) for i, kind in enumerate(KINDS)}
TWO_SIDED = slice(SLICES["quarters"].start, SLICES["junction"].stop)
ONE_SIDED = slice(SLICES["laminae"].start, SLICES["solar_dermis"].stop)
BONDED = slice(TWO_SIDED.start, ONE_SIDED.stop)
PRESSED = slice(SLICES["laminae"].start, SLICES["cushion"].stop)
GROUND = slice(SLICES["border_ground"].start, SLICES["bone_ground"].stop)
TOTAL = int(_ENDS[-1])

# Interfaces: runs of stations that share both bodies.
INTERFACES: tuple[tuple[str, str, slice], ...] = (
    ("p3", "border", SLICES["quarters"]),
    ("plate", "border", SLICES["junction"]),
    ("p3", "wall", SLICES["laminae"]),
    ("p3", "plate", slice(SLICES["solar_dermis"].start, SLICES["cushion"].stop)),
    ("border", "ground", SLICES["border_ground"]),
    ("wall", "ground", SLICES["wall_ground"]),
    ("plate", "ground", SLICES["plate_ground"]),
    ("p3", "ground", SLICES["bone_ground"]),
)
STARTS = np.array([interface[2].start for interface in INTERFACES])
JOINTS = Joints.of([(body, frame) for body, frame, _ in INTERFACES])
INTERFACE_OF = np.repeat(np.arange(len(INTERFACES)), [here.stop - here.start for _, _, here in INTERFACES])

QUARTER_AREA_MM2 = 70.0 * 45.0
SOLAR_WIDTH_MM = 65.0
CUSHION_AREA_MM2 = 45.0 * 34.0
CUSHION_THICKNESS_MM = 18.0
BEARING_STIFFNESS = 1500.0
SOLE_STIFFNESS = 800.0
FROG_WIDTH_MM, FROG_THICKNESS_MM = 35.0, 12.0
BED_MODULUS_MPA = 1.0
BED_WIDTHS_MM = {"border_ground": 60.0, "wall_ground": 60.0, "plate_ground": 35.0, "bone_ground": 35.0}
# Share of its depth by which a yielding bed can be pressed before it is as firm as its floor.
BED_COMPACTION = 0.6
LIFT_MM = 80.0
LEAST_DERMIS_MM = 1.5


@dataclass(frozen=True)
class StationArrays:
    """Arrays (stations, B): lever of A's point from A's pivot, unit normal, rest gap and place of grip (ground only: the
    slide at which friction began, mm), area mm2, attached share 0-1, thickness mm, ground stiffness N/mm."""

    lever_x: Array
    lever_y: Array
    normal_x: Array
    normal_y: Array
    gap: Array
    grip: Array
    area: Array
    attached: Array
    thickness: Array
    stiffness: Array


def pivots(rest: Rest) -> dict[str, Array]:
    """Rest pivots (B, 2) of the bodies: joint centre, hinge, and the middles of border and plate, where they weigh."""
    p = rest.points
    return {
        "p3": p["cor"],
        "border": 0.5 * (p["heel_ground"] + p["wall_hinge"]),
        "plate": 0.5 * (p["frog_heel"] + p["sole_toe"]),
        "wall": p["wall_hinge"],
        "ground": np.zeros_like(p["cor"]),
    }


def _between(start: Array, end: Array, shares: Array) -> Array:
    """Points (stations, B, 2) at shares of the way from start to end (B, 2)."""
    return start[None] + shares[:, None, None] * (end - start)[None]


def _middles(count: int) -> Array:
    return (np.arange(count) + 0.5) / count


def place(rest: Rest, values: Values, lifted: bool) -> tuple[StationArrays, Array]:
    """Stations of a batch of feet and the rest points (stations, B, 2) of their A ends."""
    p, batch = rest.points, rest.scale.shape[0]
    at = np.empty((TOTAL, batch, 2))
    normal = np.empty((TOTAL, batch, 2))
    shape = (TOTAL, batch)
    gap, area, thickness, stiffness = np.zeros(shape), np.zeros(shape), np.ones(shape), np.zeros(shape)
    attached = np.ones(shape)
    share = {name: values[name] / 100.0 for name in values if name.endswith("_percent")}

    tip, extensor, palmar = p["tip"], p["extensor_process"], p["palmar_process"]
    wall_run = p["wall_inner_distal"] - p["wall_inner_proximal"]
    wall_run = wall_run / np.linalg.norm(wall_run, axis=-1, keepdims=True)
    inward = np.stack([wall_run[:, 1], -wall_run[:, 0]], axis=-1)
    bone_run = (palmar - tip) / np.linalg.norm(palmar - tip, axis=-1, keepdims=True)
    up_bone = np.stack([bone_run[:, 1], -bone_run[:, 0]], axis=-1)

    here = SLICES["quarters"]
    along = _between(p["joint_dorsal"], palmar, 0.25 + 0.75 * _middles(COUNTS["quarters"]))
    at[here] = along
    normal[here] = up_bone
    area[here] = QUARTER_AREA_MM2 * rest.scale**2 / COUNTS["quarters"]
    thickness[here] = values["lucent_zone_mm"]
    attached[here] = share["quarters_percent"]

    here = SLICES["junction"]
    frog_line = p["frog_heel"] - p["sole_toe"]
    at[here] = _between(
        p["sole_toe"] + 0.27 * frog_line, p["sole_toe"] + 0.73 * frog_line, np.linspace(0, 1, 4)
    )
    normal[here] = up_bone
    attached[here] = share["sole_to_wall_percent"]
    area[here] = JUNCTION_AREA_MM2 * rest.scale**2 / COUNTS["junction"]
    thickness[here] = JUNCTION_THICKNESS_MM

    here, count = SLICES["laminae"], COUNTS["laminae"]
    at[here] = _between(extensor, tip, 0.04 + 0.94 * _middles(count))
    normal[here] = inward
    face = np.linalg.norm(tip - extensor, axis=-1)
    area[here] = values["laminar_width_mm"] * 0.94 * face / count
    to_wall = np.einsum("sbk,bk->sb", at[here] - p["wall_inner_proximal"][None], inward)
    thickness[here] = np.maximum(to_wall, 3.0)
    thirds = np.repeat(["proximal", "middle", "distal"], count // 3)
    for row, third in enumerate(thirds):
        attached[here.start + row] = share["laminae_percent"] * share[f"laminae_{third}_percent"]

    here, count = SLICES["solar_dermis"], COUNTS["solar_dermis"]
    at[here] = _between(tip, palmar, 0.02 + 0.96 * _middles(count))
    normal[here] = up_bone
    underside = np.linalg.norm(palmar - tip, axis=-1)
    area[here] = SOLAR_WIDTH_MM * rest.scale * 0.96 * underside / count
    sole = _between(p["sole_under_tip"], p["sole_under_palmar_process"], 0.02 + 0.96 * _middles(count))
    room = np.linalg.norm(at[here] - sole, axis=-1)
    thickness[here] = np.clip(0.8 * room, LEAST_DERMIS_MM, values["solar_dermis_thickness_mm"])
    attached[here] = share["sole_to_bone_percent"]

    here = SLICES["cushion"]
    at[here] = _between(palmar, 0.5 * (palmar + tip), 0.8 * _middles(COUNTS["cushion"]))
    normal[here] = up_bone
    area[here] = CUSHION_AREA_MM2 * rest.scale**2 / COUNTS["cushion"]
    thickness[here] = CUSHION_THICKNESS_MM * rest.scale

    _ground(rest, values, lifted, at, normal, gap, stiffness)
    pivot = pivots(rest)
    for kind in KINDS:
        here = SLICES[kind.name]
        at[here] -= pivot[kind.body][None]
    lever = at.copy()
    for kind in KINDS:
        at[SLICES[kind.name]] += pivot[kind.body][None]
    return StationArrays(
        np.ascontiguousarray(lever[..., 0]), np.ascontiguousarray(lever[..., 1]),
        np.ascontiguousarray(normal[..., 0]), np.ascontiguousarray(normal[..., 1]),
        gap, np.zeros_like(gap), area, attached, thickness, stiffness,
    ), at  # fmt: skip


# The white-line zone around the sole, lumped: 600 N/mm in all by default, see `junction_modulus`.
JUNCTION_AREA_MM2 = 2000.0
JUNCTION_THICKNESS_MM = 10.0


def junction_modulus(values: Values) -> Array:
    """Modulus (B,) in MPa of the sole-to-wall junction that gives its stiffness in N/mm over its lumped area."""
    return values["junction_stiffness_n_per_mm"] * JUNCTION_THICKNESS_MM / JUNCTION_AREA_MM2


def _ground(
    rest: Rest, values: Values, lifted: bool, at: Array, normal: Array, gap: Array, stiffness: Array
) -> None:
    """Fill the ground stations: bearing border from heel to toe, the wall's breakover point, frog and sole."""
    p = rest.points
    turn = rest.ground_turn
    up = np.stack([np.sin(turn), np.cos(turn)], axis=-1)
    along = np.stack([np.cos(turn), -np.sin(turn)], axis=-1)

    here, count = SLICES["border_ground"], COUNTS["border_ground"]
    reach = np.einsum("bk,bk->b", p["wall_hinge"] - p["heel_ground"], along)
    front = p["heel_ground"] + reach[:, None] * along
    at[here] = _between(p["heel_ground"], front, np.linspace(0.0, 1.0, count))
    stiffness[here] = BEARING_STIFFNESS

    at[SLICES["wall_ground"]] = p["breakover"][None]
    stiffness[SLICES["wall_ground"]] = BEARING_STIFFNESS

    here = SLICES["plate_ground"]
    frog, sole = 6, COUNTS["plate_ground"] - 6
    frog_points = _between(p["frog_heel"], p["frog_point"], np.linspace(0.0, 1.0, frog))
    sole_points = np.stack(
        [0.5 * (p["frog_point"] + p["sole_under_tip"]), p["sole_under_tip"], p["sole_toe"]]
    )
    at[here] = np.concatenate([frog_points, sole_points])
    step = np.linalg.norm(p["frog_heel"] - p["frog_point"], axis=-1) / frog
    stiffness[here][:frog] = (
        values["frog_modulus_mpa"] * FROG_WIDTH_MM * rest.scale * step / FROG_THICKNESS_MM
    )
    stiffness[here][frog : frog + sole] = SOLE_STIFFNESS

    # Bone meets the ground itself only where the sole has been pushed out of its way.
    at[SLICES["bone_ground"]] = np.stack([p["tip"], p["palmar_process"]])
    stiffness[SLICES["bone_ground"]] = BEARING_STIFFNESS

    spacing = reach / count
    for name, width in BED_WIDTHS_MM.items():
        here = SLICES[name]
        bed = BED_MODULUS_MPA * width * rest.scale * spacing / np.maximum(values["bed_depth_mm"], 1e-3)
        stiffness[here] = np.where(
            values["bed_depth_mm"] > 0, 1.0 / (1.0 / stiffness[here] + 1.0 / bed), stiffness[here]
        )
    normal[GROUND] = up
    gap[GROUND] = np.einsum("sbk,bk->sb", at[GROUND] - rest.ground_pivot[None], up)
    if lifted:
        gap[GROUND] += LIFT_MM
