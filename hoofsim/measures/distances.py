"""Distances between bone, capsule and ground, in mm."""

from typing import Final

import numpy as np

from hoofsim.frames import Array
from hoofsim.measures.describe import describe
from hoofsim.measures.measure import Points


def unit_vector(start: Array, end: Array) -> Array:
    """Unit vector (..., 2) from `start` to `end`, both (..., 2)."""
    step = np.asarray(end) - np.asarray(start)
    # Both coordinates written out: a sum over an axis of two costs far more than the two.
    return np.asarray(step / np.sqrt(step[..., :1] ** 2 + step[..., 1:] ** 2))


def along(vector: Array, direction: Array) -> Array:
    """Length (...) of `vector` (..., 2) along the unit `direction` (..., 2)."""
    return np.asarray(vector[..., 0] * direction[..., 0] + vector[..., 1] * direction[..., 1])


def wall_normal(points: Points) -> Array:
    """Unit vector (..., 2) square to the whole dorsal wall (projected toe to hairline), pointing out of the
    foot.
    """
    down = unit_vector(points["toe_hairline"], points["toe"])
    return np.stack([-down[..., 1], down[..., 0]], axis=-1)


def _to_outer_wall(points: Points, bone: str) -> Array:
    return along(points["toe"] - points[bone], wall_normal(points))


def wall_to_bone_proximal(points: Points) -> Array:
    """Extensor process to the outer face of the dorsal wall, square to the wall."""
    return _to_outer_wall(points, "extensor_process")


def wall_to_bone_distal(points: Points) -> Array:
    """True tip to the outer face of the dorsal wall, square to the wall."""
    return _to_outer_wall(points, "tip")


def _lucent(points: Points, level: str) -> Array:
    return along(points[f"wall_inner_{level}"] - points[f"p3_dorsal_{level}"], wall_normal(points))


def lucent_zone_proximal(points: Points) -> Array:
    """Soft zone between bone and horn at the top, square to the wall."""
    return _lucent(points, "proximal")


def lucent_zone_middle(points: Points) -> Array:
    """Soft zone between bone and horn half-way down, square to the wall."""
    return _lucent(points, "middle")


def lucent_zone_distal(points: Points) -> Array:
    """Soft zone between bone and horn opposite the tip, square to the wall."""
    return _lucent(points, "distal")


def founder_distance(points: Points) -> Array:
    """Height of the firm-horn marker above the extensor process."""
    return points["firm_horn"][..., 1] - points["extensor_process"][..., 1]


def founder_distance_hairline(points: Points) -> Array:
    """Height of the hairline marker above the extensor process: another measure, 7 to 10 mm more than with firm
    horn.
    """
    return points["toe_hairline"][..., 1] - points["extensor_process"][..., 1]


def _sole_depth(points: Points, bone: str) -> Array:
    """Vertical from a bone point to the sole surface, taken straight between its two marked points."""
    rear, front, at = points["sole_under_palmar_process"], points["sole_under_tip"], points[bone]
    slope = (front[..., 1] - rear[..., 1]) / (front[..., 0] - rear[..., 0])
    near = rear if bone == "palmar_process" else front
    return at[..., 1] - near[..., 1] - slope * (at[..., 0] - near[..., 0])


def sole_depth_tip(points: Points) -> Array:
    """True tip to the sole surface, vertically."""
    return _sole_depth(points, "tip")


def sole_depth_tip_seen(points: Points) -> Array:
    """As `sole_depth_tip`, but from the tip that the radiograph shows."""
    return _sole_depth(points, "tip_seen")


def sole_depth_palmar(points: Points) -> Array:
    """Palmar process to the sole surface, vertically."""
    return _sole_depth(points, "palmar_process")


def ground_depth_tip(points: Points) -> Array:
    """True tip to the ground, vertically."""
    return np.asarray(points["tip"])[..., 1]


def ground_depth_palmar(points: Points) -> Array:
    """Palmar process to the ground, vertically."""
    return np.asarray(points["palmar_process"])[..., 1]


_WALL = ("toe", "toe_hairline")
_SOLE = ("sole_under_tip", "sole_under_palmar_process")

BONE_TO_CAPSULE: Final = (
    describe(
        "founder_distance",
        "founder distance, firm-horn marker",
        "Vertical distance from the firm-horn marker at the top of the dorsal wall down to the extensor "
        "process. Never compare it with a hairline reading. Being vertical, it also falls when the whole "
        "foot is tipped.",
        "positive when the extensor process is lower than the marker",
        "mm",
        "R3",
        ("firm_horn", "extensor_process"),
        founder_distance,
    ),
    describe(
        "founder_distance_hairline",
        "founder distance, hairline marker",
        "Vertical distance from a marker at the hairline down to the extensor process. It reads 7 to 10 mm "
        "more than with the firm-horn marker and is a separate measure.",
        "positive when the extensor process is lower than the marker",
        "mm",
        "R3",
        ("toe_hairline", "extensor_process"),
        founder_distance_hairline,
    ),
    describe(
        "wall_to_bone_proximal",
        "wall to bone, top",
        "Distance from the extensor process to the outer face of the dorsal wall, square to the whole wall.",
        "larger is further from the wall",
        "mm",
        "practice",
        ("extensor_process", *_WALL),
        wall_to_bone_proximal,
    ),
    describe(
        "wall_to_bone_distal",
        "wall to bone, bottom",
        "Distance from the true tip of the distal phalanx to the outer face of the dorsal wall, square to "
        "the wall.",
        "larger is further from the wall",
        "mm",
        "practice",
        ("tip", *_WALL),
        wall_to_bone_distal,
    ),
    *(
        describe(
            f"lucent_zone_{level}",
            f"lucent zone, {word}",
            f"Thickness of the soft zone between bone and horn at {where}, square to the wall (sound feet: "
            f"mean {mean} mm; acute laminitis: {acute} mm).",
            "larger is thicker",
            "mm",
            "R2",
            (f"wall_inner_{level}", f"p3_dorsal_{level}", *_WALL),
            function,
        )
        for level, word, where, mean, acute, function in (
            ("proximal", "top", "the top of the bone", 7.3, 8.8, lucent_zone_proximal),
            ("middle", "middle", "the middle of the bone", 6.9, 8.9, lucent_zone_middle),
            ("distal", "bottom", "the tip of the bone", 7.5, 9.2, lucent_zone_distal),
        )
    ),
    describe(
        "sole_depth_tip",
        "sole depth under the tip",
        "Vertical distance from the true tip to the outer surface of the sole (not to the ground).",
        "larger is deeper",
        "mm",
        "practice",
        ("tip", *_SOLE),
        sole_depth_tip,
    ),
    describe(
        "sole_depth_tip_seen",
        "sole depth under the tip, tip as seen",
        "As sole depth under the tip, but from the tip that a radiograph shows, whether or not bone has "
        "been lost.",
        "larger is deeper",
        "mm",
        "R13",
        ("tip_seen", *_SOLE),
        sole_depth_tip_seen,
    ),
    describe(
        "sole_depth_palmar",
        "sole depth under the palmar process",
        "Vertical distance from the palmar process to the outer surface of the sole (not to the ground).",
        "larger is deeper",
        "mm",
        "practice",
        ("palmar_process", *_SOLE),
        sole_depth_palmar,
    ),
    describe(
        "ground_depth_tip",
        "tip to ground",
        "Vertical distance from the true tip to the ground: sole depth and the air or dirt under it "
        "together.",
        "larger is higher",
        "mm",
        "practice",
        ("tip",),
        ground_depth_tip,
    ),
    describe(
        "ground_depth_palmar",
        "palmar process to ground",
        "Vertical distance from the palmar process to the ground.",
        "larger is higher",
        "mm",
        "practice",
        ("palmar_process",),
        ground_depth_palmar,
    ),
)
