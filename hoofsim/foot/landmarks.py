"""The template of the sound foot: landmark coordinates and which body each landmark rides on.

Coordinates are those of a generic 500 kg horse's front foot (a modelling choice within the ranges named in
`hoofsim.sources`), in mm, toe to the right, ground at y = 0, origin under the centre of rotation of the coffin joint.
"""

from collections.abc import Mapping

Point = tuple[float, float]

# Points that turn with the bone's underside (palmar angle), with its dorsal face (hoof angle), or half with each.
SOLAR_POINTS: Mapping[str, Point] = {
    "tip": (57.6, 15.0),
    "tendon_insertion": (6.1, 24.6),
    "palmar_process": (-18.3, 20.3),
    "palmar_process_top": (-19.1, 36.4),
    "solar_arch": (30.1, 22.9),
}
DORSAL_POINTS: Mapping[str, Point] = {
    "extensor_process": (24.3, 57.6),
    "joint_dorsal": (19.1, 52.3),
}
JOINT_POINTS: Mapping[str, Point] = {
    "cor": (0.0, 56.4),
    "joint_palmar": (-4.5, 37.4),
    "navicular_distal": (-7.2, 36.1),
    "navicular_proximal": (-19.4, 44.9),
    "navicular_joint": (-11.9, 40.9),
    "navicular_flexor": (-19.1, 31.3),
    "navicular_arc_centre": (-13.0, 38.0),
}
LIMB_POINTS: Mapping[str, Point] = {
    "p2_dorsal_distal": (13.8, 67.9),
    "p2_dorsal_proximal": (-14.0, 99.5),
    "p2_palmar_distal": (-13.0, 45.4),
    "p2_palmar_proximal": (-41.6, 76.3),
    "pip_centre": (-27.0, 88.5),
    "tendon_upper": (-45.0, 68.0),
    "tendon_origin": (-60.0, 100.0),
    "extensor_origin": (-8.0, 112.0),
    "sesamoidean_origin": (-19.0, 74.0),
}

HOOF_ANGLE_DEG = 52.0
PALMAR_ANGLE_DEG = 4.0
BONE_LENGTH_MM = 54.1
HEEL_HAIRLINE_X = -76.0
HEEL_LINE_ANGLE_DEG = 45.0
FIRM_HORN_BELOW_HAIRLINE_MM = 8.9
CONDYLE_RADIUS_MM = 19.5
# The tendon's centre line runs about half its thickness outside the navicular's flexor surface (radius 8.5).
NAVICULAR_SURFACE_RADIUS_MM = 8.5
TENDON_HALF_THICKNESS_MM = 3.0

_NAVICULAR = tuple(name for name in JOINT_POINTS if name.startswith("navicular"))
LANDMARKS_OF: Mapping[str, tuple[str, ...]] = {
    "p3": (
        *SOLAR_POINTS, *DORSAL_POINTS, "joint_palmar", "tip_seen",
        "p3_dorsal_proximal", "p3_dorsal_middle", "p3_dorsal_distal",
    ),
    "p2": (*LIMB_POINTS, "cor"),
    "navicular": _NAVICULAR,
    "wall": (
        "toe", "breakover", "toe_hairline", "firm_horn", "wall_hinge",
        "wall_outer_proximal", "wall_outer_middle", "wall_outer_distal",
        "wall_inner_proximal", "wall_inner_middle", "wall_inner_distal",
    ),
    "border": ("heel_ground", "heel_hairline"),
    "plate": ("sole_under_tip", "sole_under_palmar_process", "frog_point", "frog_heel", "sole_toe"),
}  # fmt: skip
BODY_OF: Mapping[str, str] = {name: body for body, names in LANDMARKS_OF.items() for name in names}
