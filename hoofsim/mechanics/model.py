"""A batch of feet made ready for the solver: stations, lines, springs and loads as plain arrays (B,) or (stations, B)."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hoofsim.foot import landmarks as template
from hoofsim.foot.geometry import Rest, rest_foot
from hoofsim.frames import rotate
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.elements.bond import BondConstants, peak_strain
from hoofsim.mechanics.elements.compression import CompressionConstants
from hoofsim.mechanics.elements.contact import ContactConstants
from hoofsim.mechanics.elements.line import LineConstants, slack_length
from hoofsim.mechanics.elements.spring import cantilever_stiffness, curved_strip
from hoofsim.mechanics.elements.stop import StopConstants
from hoofsim.mechanics.loads import LoadCase, Moment, fetlock_change
from hoofsim.mechanics.posture import Posture, posture
from hoofsim.mechanics.types import Array
from hoofsim.mechanics.wrapping import path

# The short lines, each from a landmark that moves with the bone it turns to one on the limb or the other bone.
LINES: Mapping[str, tuple[str, str]] = {
    "extensor": ("extensor_process", "extensor_origin"),
    "impar": ("tendon_insertion", "navicular_distal"),
    "sesamoidean": ("navicular_proximal", "sesamoidean_origin"),
}
EXTENSOR = list(LINES).index("extensor")
# Ligaments and small tendons: modelling choices. The navicular follows the distal phalanx by 0.97 (F12).
IMPAR_STIFFNESS, SESAMOIDEAN_STIFFNESS, FACET_STIFFNESS = 1000.0, 30.0, 1500.0
FACET_ARM_MM, FACET_WIDTH_MM = 20.0, 0.05
IMPAR_PRELOAD_N = 40.0
EXTENSOR_STIFFNESS, EXTENSOR_TONE_PER_KG = 20.0, 0.06
LAMINAR_COMPRESSION = (0.5, 6.0, 0.12)
LOCKING_MPA, LOCK_STRAIN = 60.0, 0.55
CUSHION_STIFFENING, CUSHION_KNEE = 20.0, 0.25
SOLAR_SHEAR_SHARE = 0.35
JUNCTION_STRENGTH_STRAIN, JUNCTION_RUPTURE_STRAIN = 0.4, 0.8
# Least strain between peak and rupture.
LEAST_FALL = 0.08
# The toe third of the wall bends as a strip curved across its width, which stiffens it (choice of width and rise).
WALL_STRIP_SHARE, WALL_RISE_MM = 0.8, 12.0
LIMB_HOLD_LIFTED = 200.0
# Weight of the horn capsule of a full-sized foot, N (choice; a capsule of about 0.4 kg).
BORDER_WEIGHT_N, PLATE_WEIGHT_N = 3.0, 1.5
# Where the coffin joint's own ligaments stop it, from the unloaded foot (common practice, no source).
MOST_FLEXION_DEG, MOST_EXTENSION_DEG = 45.0, 35.0
JOINT_STOP, JOINT_STOP_WIDTH = 3.0e6, float(np.radians(3.0))
# A sole torn from the wall still lies inside it: how far it may slide before wall or bars stop it.
SOLE_PLAY_MM, SOLE_STOP, SOLE_STOP_WIDTH_MM = 8.0, 200.0, 1.0


@dataclass(frozen=True)
class Model:
    """Everything the energy needs. `force`: vertical load N; joint-centred points (B, 2) mm; `pull`: 0 when cut.

    The short lines `LINES` lie one below the other: `line_moving` ends (lines, B, 2) on the bone that turns them,
    `line_fixed` ends, `lines` constants (lines, B).
    """

    rest: Rest
    values: dict[str, Array]
    case: LoadCase
    posture: Posture
    stations: places.StationArrays
    station_points: Array
    two_sided: BondConstants
    one_sided: BondConstants
    pressed: CompressionConstants
    ground: ContactConstants
    floor: ContactConstants
    bed_floor: Array
    pivot: dict[str, Array]
    pivot_x: Array
    pivot_y: Array
    hinge_x: Array
    hinge_y: Array
    tendon_origin: Array
    arc_centre: Array
    insertion: Array
    arc_radius: Array
    tendon: LineConstants
    line_moving: Array
    line_fixed: Array
    lines: LineConstants
    facet_arm: Array
    joint_stop: StopConstants
    sole_stop: StopConstants
    border_weight: Array
    plate_weight: Array
    wall_hinge: Array
    limb_hold: Array
    limb_lift_hold: Array
    force: Array

    @property
    def batch(self) -> int:
        """How many feet."""
        return int(self.force.shape[0])


def _rows(batch: int, kinds: tuple[str, ...], per_kind: tuple[Array | float, ...]) -> Array:
    """One row a station (stations of `kinds`, B) from a number, or a value (B,), of each kind."""
    parts = [
        np.broadcast_to(value, (places.COUNTS[kind], batch))
        for kind, value in zip(kinds, per_kind, strict=True)
    ]
    return np.ascontiguousarray(np.concatenate(parts))


def _bonds(values: Mapping[str, Array], s: places.StationArrays) -> tuple[BondConstants, BondConstants]:
    v, batch = values, s.area.shape[1]

    def constants(
        here: slice, kinds: tuple[str, ...], **per_kind: tuple[Array | float, ...]
    ) -> BondConstants:
        full = {name: _rows(batch, kinds, parts) for name, parts in per_kind.items()}
        peak = peak_strain(full["small"], full["large"], full["knee"], full["strength"])
        return BondConstants(**full, thickness=s.thickness[here], peak=peak)

    shear = v["laminar_shear_modulus_mpa"] / v["laminar_large_modulus_mpa"]
    junction = places.junction_modulus(v)
    small, large, solar = (
        v["laminar_small_modulus_mpa"],
        v["laminar_large_modulus_mpa"],
        v["solar_dermis_stiff_modulus_mpa"],
    )
    knee, strength, rupture = v["laminar_knee_strain"], v["laminar_strength_mpa"], v["laminar_rupture_strain"]
    # A stiffness low enough to put the peak near the rupture strain moves the rupture out with it.
    late = knee + strength / np.minimum(large, solar) + LEAST_FALL
    rupture = np.maximum(rupture, late)
    # The junction is linear: its two moduli are equal, so its knee does nothing.
    two_sided = constants(
        places.TWO_SIDED, ("quarters", "junction"), small=(small, junction), large=(large, junction), knee=(knee, 0.1),
        strength=(strength, junction * JUNCTION_STRENGTH_STRAIN), rupture=(rupture, JUNCTION_RUPTURE_STRAIN),
        weight_n=(shear, 1.0), weight_s=(shear, 1.0),
    )  # fmt: skip
    one_sided = constants(
        places.ONE_SIDED, ("laminae", "solar_dermis"), small=(small, v["solar_dermis_modulus_mpa"]), large=(large, solar),
        knee=(knee, knee), strength=(strength, strength), rupture=(rupture, rupture),
        weight_n=(1.0, 1.0), weight_s=(shear, SOLAR_SHEAR_SHARE),
    )  # fmt: skip
    return two_sided, one_sided


def _pressed(values: Mapping[str, Array], s: places.StationArrays) -> CompressionConstants:
    batch = s.area.shape[1]
    kinds = ("laminae", "solar_dermis", "cushion")

    def rows(*per_kind: Array | float) -> Array:
        return _rows(batch, kinds, per_kind)

    first, main, knee = LAMINAR_COMPRESSION
    cushion = values["cushion_modulus_mpa"]
    return CompressionConstants(
        rows(first, values["solar_dermis_modulus_mpa"], cushion),
        rows(main, values["solar_dermis_stiff_modulus_mpa"], cushion * CUSHION_STIFFENING),
        rows(knee, values["laminar_knee_strain"], CUSHION_KNEE),
        rows(LOCKING_MPA, LOCKING_MPA, 0.0),
        rows(LOCK_STRAIN, LOCK_STRAIN, LOCK_STRAIN),
        s.thickness[places.PRESSED],
    )


def _chord(a: Array, b: Array) -> Array:
    length: Array = np.linalg.norm(a - b, axis=-1)
    return length


def build(values: Mapping[str, Array], case: LoadCase) -> Model:
    """Model of a batch of feet from values (B,) of every control under one load case; `BadInput` for contradictions."""
    batch = max(np.size(value) for value in values.values())
    v = {name: np.broadcast_to(np.asarray(value, dtype=float), (batch,)) for name, value in values.items()}
    rest = rest_foot(v)
    p, ref = rest.points, rest.reference
    stations, station_points = places.place(rest, v, case.lifted)
    two_sided, one_sided = _bonds(v, stations)

    def from_joint(name: str) -> Array:
        return p[name] - p["cor"]

    def reference(name: str) -> Array:
        return ref[name] - ref["cor"]

    radius = (template.NAVICULAR_SURFACE_RADIUS_MM + template.TENDON_HALF_THICKNESS_MM) * rest.scale
    still = np.zeros(batch)
    own_path = path(
        reference("tendon_origin"),
        reference("navicular_arc_centre"),
        reference("tendon_insertion"),
        radius,
        still,
        still,
    )
    pull = (1.0 - v["tendon_cut"]) * v["tendon_pull_percent"] / 100.0
    stiffness = v["tendon_stiffness_n_per_mm"] * rest.scale
    slack = slack_length(own_path.length, v["standing_tension_n_per_kg"] * v["body_mass_kg"], stiffness)
    tendon = LineConstants(pull * stiffness, slack, pull * v["tendon_tone_n"])

    extensor_tone = EXTENSOR_TONE_PER_KG * v["body_mass_kg"]
    extensor_stiffness = EXTENSOR_STIFFNESS * rest.scale
    extensor_length = _chord(reference("extensor_process"), reference("extensor_origin"))
    extensor_slack = slack_length(extensor_length, extensor_tone, extensor_stiffness)
    impar_stiffness = IMPAR_STIFFNESS * rest.scale
    impar_length = _chord(ref["tendon_insertion"], ref["navicular_distal"])
    impar_slack = slack_length(impar_length, IMPAR_PRELOAD_N * rest.scale, impar_stiffness)
    sesamoidean_length = _chord(ref["navicular_proximal"], ref["sesamoidean_origin"])
    lines = LineConstants(
        np.stack([extensor_stiffness, impar_stiffness, SESAMOIDEAN_STIFFNESS * rest.scale]),
        np.stack([extensor_slack, impar_slack, sesamoidean_length]),
        np.stack([still, still, still]),
    )

    horn = v["wall_to_bone_mm"] - v["lucent_zone_mm"]
    bent = curved_strip(WALL_STRIP_SHARE * v["laminar_width_mm"], horn, WALL_RISE_MM * rest.scale)
    free_length = _chord(p["toe_hairline"], p["wall_hinge"])
    pivot = places.pivots(rest)
    upright = Model(
        rest=rest, values=v, case=case, posture=Posture(still, still), stations=stations, station_points=station_points,
        two_sided=two_sided, one_sided=one_sided, pressed=_pressed(v, stations),
        ground=ContactConstants(stations.stiffness[places.GROUND], v["friction"]),
        floor=ContactConstants(np.full_like(stations.stiffness[places.GROUND], places.BEARING_STIFFNESS), v["friction"]),
        bed_floor=np.where(v["bed_depth_mm"] > 0, places.BED_COMPACTION * v["bed_depth_mm"], np.inf),
        pivot=pivot,
        pivot_x=np.stack([pivot[a][:, 0] - pivot[b][:, 0] for a, b in places.JOINTS.pairs]),
        pivot_y=np.stack([pivot[a][:, 1] - pivot[b][:, 1] for a, b in places.JOINTS.pairs]),
        hinge_x=pivot["wall"][:, 0] - pivot["border"][:, 0], hinge_y=pivot["wall"][:, 1] - pivot["border"][:, 1],
        tendon_origin=from_joint("tendon_origin"), arc_centre=from_joint("navicular_arc_centre"),
        insertion=from_joint("tendon_insertion"), arc_radius=radius, tendon=tendon,
        line_moving=np.stack([from_joint(moving) for moving, _ in LINES.values()]),
        line_fixed=np.stack([from_joint(fixed) for _, fixed in LINES.values()]),
        lines=lines, facet_arm=FACET_ARM_MM * rest.scale,
        joint_stop=StopConstants(still - np.radians(MOST_EXTENSION_DEG), still + np.radians(MOST_FLEXION_DEG),
                                 JOINT_STOP, JOINT_STOP_WIDTH),
        sole_stop=StopConstants(-SOLE_PLAY_MM * rest.scale, SOLE_PLAY_MM * rest.scale, SOLE_STOP, SOLE_STOP_WIDTH_MM),
        border_weight=BORDER_WEIGHT_N * rest.scale**3, plate_weight=PLATE_WEIGHT_N * rest.scale**3,
        wall_hinge=cantilever_stiffness(v["wall_modulus_mpa"], bent, free_length),
        limb_hold=v["posture_spring_n_per_mm"] + (LIMB_HOLD_LIFTED if case.lifted else 0.0),
        limb_lift_hold=np.full(batch, LIMB_HOLD_LIFTED if case.lifted else 0.0),
        force=still,
    )  # fmt: skip
    return under(upright, case.at(v["stance_percent"]))


def under(model: Model, moment: Moment) -> Model:
    """The same feet with the limb's load and posture at another moment (B,): what changes while a foot walks."""
    v, p, scale = model.values, model.rest.points, model.rest.scale
    # More or less than the case's own load lets the fetlock down more or less, as every other load does.
    load_share = v["load_percent"] / 100.0
    extension = moment.fetlock_extension + fetlock_change(moment.force_per_kg * (load_share - 1.0))
    stance = posture(
        model.rest.tip_turn, moment.pastern_turn, extension,
        v["pastern_lever_mm"] * scale, v["fetlock_lever_mm"] * scale,
    )  # fmt: skip
    stretched, turned = stance.stretch - model.posture.stretch, stance.p2_turn - model.posture.p2_turn

    def limb(name: str) -> Array:
        return rotate(p[name] - p["cor"], stance.p2_turn)

    ends, line = model.joint_stop, model.tendon
    fixed = model.line_fixed.copy()
    for row, (_, end) in enumerate(LINES.values()):
        if end.endswith("_origin"):
            fixed[row] = limb(end)
    measured = moment.force_per_kg * v["body_mass_kg"] * load_share
    return replace(
        model,
        posture=stance,
        tendon_origin=limb("tendon_origin"),
        line_fixed=fixed,
        joint_stop=replace(ends, least=ends.least + turned, most=ends.most + turned),
        # The posture's stretch belongs to the path above the foot, so it shortens what is slack.
        tendon=replace(line, slack=line.slack - stretched),
        # Published loads were measured under the hoof, so the capsule's own weight is part of them.
        force=np.maximum(measured - model.border_weight - model.plate_weight, 0.0),
    )


def take(model: Model, index: NDArray[np.intp] | slice) -> Model:
    """The same model for the feet at `index` only: arrays are cut along their batch axis (a slice copies nothing)."""
    picked: dict[str, object] = {}
    for name, value in vars(model).items():
        picked[name] = _take(value, index, model.batch)
    return Model(**picked)  # type: ignore[arg-type]


def _take(value: object, index: NDArray[np.intp] | slice, batch: int) -> object:
    # The batch is the middle axis of point rows (S, B, 2), the first of points (B, 2), else the last.
    if isinstance(value, np.ndarray):
        if value.ndim == 3:
            return value[:, index]
        if value.ndim == 2 and value.shape[1] == 2 and value.shape[0] == batch:
            return value[index]
        return value[..., index] if value.shape[-1] == batch else value
    if isinstance(value, dict):
        return {name: _take(item, index, batch) for name, item in value.items()}
    if isinstance(value, Posture):
        return Posture(*(_take(item, index, batch) for item in value))  # type: ignore[arg-type]
    if hasattr(value, "__dataclass_fields__") and not isinstance(value, LoadCase):
        return type(value)(**{name: _take(item, index, batch) for name, item in vars(value).items()})
    return value
