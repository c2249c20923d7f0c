"""From a foot's values to its landmarks at rest: unloaded, trimmed, placed on its (possibly sloping) ground.

Works on one foot or on a batch: every value may be an array (B,), and landmarks are then (B, 2) in mm.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hoofsim.errors import BadInput
from hoofsim.foot import landmarks as template
from hoofsim.frames import Array, rotate

Values = Mapping[str, Array]

FOUNDER_LIMITS_MM = (-2.0, 16.0)
# Frog or sole left proud of the bearing surface is taken to be worn or trimmed flush with the ground.
PLATE_POINTS = ("frog_point", "frog_heel", "sole_under_palmar_process", "sole_under_tip", "sole_toe")
# Stations of the lucent zone, as shares of the bone's dorsal face from extensor process to tip.
LEVELS = {"proximal": 0.22, "middle": 0.55, "distal": 0.88}
# The wall hinges where sole and wall meet, half way from the ground to the inner wall opposite the tip.
HINGE_HEIGHT_SHARE = 0.5
# How far the heels of the sound foot's size may stand in front of the bone's hind end (choice): beyond, no frog has room.
HEELS_FORWARD_MM = 10.0


@dataclass(frozen=True)
class Rest:
    """A batch of feet at rest. Landmarks (B, 2) mm; angles (B,) radians, tip down positive.

    `tip_turn`: how far trim and wedge tip the whole foot. `ground_turn` and `ground_pivot`: slope of the ground and the
    point about which it slopes. `scale`: bone length over the sound foot's. `reference`: the same bones before any trim,
    which say how long the tendon and ligaments are.
    """

    points: dict[str, Array]
    reference: dict[str, Array]
    tip_turn: Array
    ground_turn: Array
    ground_pivot: Array
    scale: Array


def _along(angle_deg: Array) -> Array:
    """Unit vectors (B, 2) running palmar and up at an angle to the ground."""
    angle = np.radians(angle_deg)
    return np.stack([-np.cos(angle), np.sin(angle)], axis=-1)


def _bones(v: Values, scale: Array) -> dict[str, Array]:
    """Bone and limb landmarks in the capsule's frame, centre of rotation above the origin."""
    dorsal = np.radians(v["hoof_angle_deg"] - template.HOOF_ANGLE_DEG)
    solar = np.radians(v["palmar_angle_deg"] - template.PALMAR_ANGLE_DEG)
    tip = np.array(template.SOLAR_POINTS["tip"])

    def placed(points: Mapping[str, template.Point], turn: Array) -> dict[str, Array]:
        return {
            name: rotate(scale[:, None] * (np.array(point) - tip)[None, :], turn, (0.0, 0.0))
            for name, point in points.items()
        }

    joint = 0.5 * (dorsal + solar)
    points = placed(template.SOLAR_POINTS, solar) | placed(template.DORSAL_POINTS, dorsal)
    points |= placed(template.JOINT_POINTS, joint)
    cor = points["cor"]
    cor_template = np.array(template.JOINT_POINTS["cor"])
    for name, point in template.LIMB_POINTS.items():
        offset = scale[:, None] * (np.array(point) - cor_template)[None, :]
        points[name] = cor + rotate(offset, dorsal)
    lift = v["sole_clearance_mm"] + v["sole_depth_mm"]
    shift = np.stack([-cor[:, 0], lift], axis=-1)
    return {name: point + shift for name, point in points.items()}


def _capsule(v: Values, bones: dict[str, Array], scale: Array) -> dict[str, Array]:
    """Wall, border, sole and frog landmarks around sound bones, before the trim."""
    up_wall = _along(v["hoof_angle_deg"])
    outward = np.stack([up_wall[:, 1], -up_wall[:, 0]], axis=-1)
    tip, extensor = bones["tip"], bones["extensor_process"]
    outer_at_tip = tip + v["wall_to_bone_mm"][:, None] * outward
    toe = outer_at_tip - (outer_at_tip[:, 1] / up_wall[:, 1])[:, None] * up_wall
    points = {"toe": toe, "toe_hairline": toe + v["dorsal_wall_length_mm"][:, None] * up_wall}
    below = (template.FIRM_HORN_BELOW_HAIRLINE_MM * scale)[:, None]
    points["firm_horn"] = points["toe_hairline"] - below * up_wall
    for level, share in LEVELS.items():
        on_bone = extensor + share * (tip - extensor)
        points[f"p3_dorsal_{level}"] = on_bone
        points[f"wall_inner_{level}"] = on_bone + v["lucent_zone_mm"][:, None] * outward
        points[f"wall_outer_{level}"] = on_bone + v["wall_to_bone_mm"][:, None] * outward
    for end, at in (("distal", tip), ("proximal", extensor)):
        points[f"wall_outer_{end}"] = at + v["wall_to_bone_mm"][:, None] * outward
        points[f"wall_inner_{end}"] = at + v["lucent_zone_mm"][:, None] * outward
    inner = points["wall_inner_distal"]
    points["wall_hinge"] = inner - (HINGE_HEIGHT_SHARE * inner[:, 1] / up_wall[:, 1])[:, None] * up_wall
    points["sole_toe"] = inner - ((inner[:, 1] - 1.0) / up_wall[:, 1])[:, None] * up_wall

    heel_up = _along(np.full_like(scale, template.HEEL_LINE_ANGLE_DEG))
    hairline_x = template.HEEL_HAIRLINE_X * scale
    points["heel_hairline"] = np.stack([hairline_x, v["heel_height_mm"]], axis=-1)
    points["heel_ground"] = points["heel_hairline"] - (v["heel_height_mm"] / heel_up[:, 1])[:, None] * heel_up

    sole_y = v["sole_clearance_mm"] - v["sole_change_mm"]
    points["sole_under_tip"] = np.stack([tip[:, 0], sole_y], axis=-1)
    palmar = bones["palmar_process"]
    points["sole_under_palmar_process"] = np.stack([palmar[:, 0], np.zeros_like(sole_y)], axis=-1)
    underside = (palmar - tip) / np.linalg.norm(palmar - tip, axis=-1, keepdims=True)
    # Square below the bone's underside, so that the distance along it is the foot's own tip-to-frog distance.
    under_bone = tip + v["tip_to_frog_mm"][:, None] * underside
    below = np.stack([-underside[:, 1], underside[:, 0]], axis=-1)
    points["frog_point"] = under_bone + ((0.8 * sole_y - under_bone[:, 1]) / below[:, 1])[:, None] * below
    points["frog_heel"] = np.stack(
        [points["heel_ground"][:, 0] + 2.0 * scale, np.zeros_like(sole_y)], axis=-1
    )
    return points


def _refuse(wrong: NDArray[np.bool_], sentence: str, **shown: Array) -> None:
    """Raise `BadInput` with `sentence` filled from the first foot that is `wrong`."""
    if np.any(wrong):
        first = int(np.flatnonzero(wrong)[0])
        raise BadInput(sentence.format(**{name: float(value[first]) for name, value in shown.items()}))


def _refuse_contradictions(v: Values, points: dict[str, Array], scale: Array) -> None:
    founder = points["firm_horn"][:, 1] - points["extensor_process"][:, 1]
    low, high = FOUNDER_LIMITS_MM
    _refuse(
        (founder < low) | (founder > high),
        "dorsal_wall_length_mm = {length:.1f} contradicts p3_dorsal_length_mm = {bone:.1f}: the founder distance would be "
        f"{{founder:.1f}} mm, allowed {low:g} to {high:g} mm (for a long toe use toe_change_mm)",
        length=v["dorsal_wall_length_mm"], bone=v["p3_dorsal_length_mm"], founder=founder,
    )  # fmt: skip
    wedge_of_bone = v["hoof_angle_deg"] - v["palmar_angle_deg"]
    _refuse(
        (wedge_of_bone < 40) | (wedge_of_bone > 58),
        "palmar_angle_deg = {palmar:.1f} contradicts hoof_angle_deg = {hoof:.1f}: their difference is the bone's own angle, "
        "allowed 40 to 58 deg",
        palmar=v["palmar_angle_deg"], hoof=v["hoof_angle_deg"],
    )  # fmt: skip
    horn = v["wall_to_bone_mm"] - v["lucent_zone_mm"]
    _refuse(
        horn < 3,
        "lucent_zone_mm = {lucent:.1f} contradicts wall_to_bone_mm = {wall:.1f}: "
        "the horn between them would be under 3 mm thick",
        lucent=v["lucent_zone_mm"], wall=v["wall_to_bone_mm"],
    )  # fmt: skip
    room = v["sole_depth_mm"] + v["sole_change_mm"] - v["healed_sinking_mm"]
    _refuse(
        room < 2,
        "sole_change_mm = {change:.1f} contradicts sole_depth_mm = {depth:.1f} and healed_sinking_mm: "
        "under 2 mm would be left below the bone",
        change=v["sole_change_mm"], depth=v["sole_depth_mm"],
    )  # fmt: skip
    remaining = v["heel_height_mm"] + v["heel_change_mm"]
    _refuse(
        remaining < 4,
        "heel_change_mm = {change:.1f} contradicts heel_height_mm = {heel:.1f}: under 4 mm of heel would be left",
        change=v["heel_change_mm"], heel=v["heel_height_mm"],
    )  # fmt: skip
    heel_line = points["heel_hairline"] - points["heel_ground"]
    heels = points["heel_ground"][:, 0] - v["heel_change_mm"] * heel_line[:, 0] / heel_line[:, 1]
    forward, allowed = heels - points["palmar_process"][:, 0], HEELS_FORWARD_MM * scale
    _refuse(
        forward > allowed,
        "heel_height_mm = {heel:.1f} with heel_change_mm = {change:.1f} contradicts p3_dorsal_length_mm = {bone:.1f}: the "
        "heels would stand {forward:.1f} mm in front of the bone's hind end, allowed up to {allowed:.1f} mm",
        heel=v["heel_height_mm"], change=v["heel_change_mm"], bone=v["p3_dorsal_length_mm"],
        forward=forward, allowed=allowed,
    )  # fmt: skip


def _trim(v: Values, points: dict[str, Array]) -> Array:
    """Move toe and heel for the trim (in place) and return how far the new bearing line tips the foot, radians."""
    up_wall = _along(v["hoof_angle_deg"])
    heel_line = points["heel_hairline"] - points["heel_ground"]
    heel_up = heel_line / np.linalg.norm(heel_line, axis=-1, keepdims=True)
    points["toe"] = points["toe"] - v["toe_change_mm"][:, None] * up_wall
    points["heel_ground"] = points["heel_ground"] - (v["heel_change_mm"] / heel_up[:, 1])[:, None] * heel_up
    bearing = points["toe"] - points["heel_ground"]
    # Tall heels lie below the old ground line, so levelling the bearing line turns the tip down.
    return np.arctan2(bearing[:, 1], bearing[:, 0])


def refuse_contradictions(values: Values) -> None:
    """`BadInput` when values (B,) of every control, each allowed, make no foot together."""
    v = _columns(values)
    _unchanged(v, v["p3_dorsal_length_mm"] / template.BONE_LENGTH_MM)


def _columns(values: Values) -> dict[str, Array]:
    return {name: np.atleast_1d(np.asarray(value, dtype=float)) for name, value in values.items()}


def _unchanged(v: Values, scale: Array) -> dict[str, Array]:
    """Landmarks before anything healed and before the trim."""
    bones = _bones(v, scale)
    points = bones | _capsule(v, bones, scale)
    _refuse_contradictions(v, points, scale)
    return points


def rest_foot(values: Values) -> Rest:
    """Landmarks of a batch of feet at rest from values (B,) of every control; `BadInput` for contradictory values."""
    v = _columns(values)
    scale = v["p3_dorsal_length_mm"] / template.BONE_LENGTH_MM
    points = _unchanged(v, scale)

    # Displacement that has healed in place: the distal phalanx alone turns, then every bone drops.
    healed = np.radians(v["healed_rotation_deg"])
    drop = np.stack([np.zeros_like(scale), -v["healed_sinking_mm"]], axis=-1)
    cor = points["cor"]
    for name in points:
        if template.BODY_OF[name] in ("p3", "navicular"):
            points[name] = rotate(points[name], healed, cor) + drop
        elif template.BODY_OF[name] == "p2":
            points[name] = points[name] + drop
    # How much of that the sole and frog took part in is itself in dispute, so it is a control.
    share = v["healed_sole_follows_percent"] / 100.0
    for name in PLATE_POINTS[:4]:
        points[name] = rotate(points[name], share * healed, cor) + share[:, None] * drop
    reference = {
        name: point for name, point in points.items() if template.BODY_OF[name] in ("p3", "p2", "navicular")
    }

    tip_turn = _trim(v, points)
    toe = points["toe"]
    lost = v["tip_lost_mm"][:, None]
    up_bone = points["extensor_process"] - points["tip"]
    points["tip_seen"] = points["tip"] + lost * up_bone / np.linalg.norm(up_bone, axis=-1, keepdims=True)

    total = tip_turn + np.radians(v["wedge_deg"])
    centre = points["cor"]
    # The untrimmed foot keeps y = 0 under its toe; the trimmed one stands on its new bearing line.
    level = rotate(points["heel_ground"], tip_turn, toe)[:, 1]
    placed = {
        name: rotate(rotate(point, tip_turn, toe), np.radians(v["wedge_deg"]), toe)
        for name, point in points.items()
    }
    lower = np.stack([centre[:, 0] - placed["cor"][:, 0], -level], axis=-1)
    placed = {name: point + lower for name, point in placed.items()}
    pivot = placed["toe"]
    ground_turn = np.radians(v["wedge_deg"])
    along_ground = np.stack([np.cos(ground_turn), -np.sin(ground_turn)], axis=-1)
    up_ground = np.stack([np.sin(ground_turn), np.cos(ground_turn)], axis=-1)
    for name in PLATE_POINTS:
        below = np.minimum(np.einsum("bk,bk->b", placed[name] - pivot, up_ground), 0.0)
        placed[name] = placed[name] - below[:, None] * up_ground
    placed["breakover"] = placed["toe"] - v["breakover_setback_mm"][:, None] * along_ground
    return Rest(placed, reference, total, ground_turn, pivot, scale)
