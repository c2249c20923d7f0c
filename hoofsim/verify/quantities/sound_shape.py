"""The sound foot's shape, standing: angles, distances and the lucent zone."""

import numpy as np

from hoofsim.foot.parameters import DEFAULTS
from hoofsim.frames import angle_to_ground
from hoofsim.model import Foot
from hoofsim.verify.quantities.standing import read, reading, standing


def hoof_angle() -> float:
    """Dorsal wall to the ground, deg."""
    return reading("hoof_angle")


def heel_angle() -> float:
    """Line of the heel to the ground, deg."""
    points = standing().points
    return float(angle_to_ground(points["heel_ground"], points["heel_hairline"]))


def palmar_angle() -> float:
    """Underside of the coffin bone to the ground, deg."""
    return reading("palmar_angle")


def capsular_rotation() -> float:
    """Coffin bone's dorsal face against the wall, deg."""
    return reading("capsular_rotation")


def small_horse_capsular_rotation() -> float:
    """The same of the pony, which stands for small horses, deg."""
    return read(Foot("pony").load("standing"), "capsular_rotation")


def phalangeal_rotation() -> float:
    """Coffin bone's dorsal face against the middle phalanx, deg."""
    return reading("phalangeal_rotation")


def founder_distance() -> float:
    """Limit of firm horn to extensor process, mm."""
    return reading("founder_distance")


def wall_to_bone_proximal() -> float:
    """Outer wall to bone at the extensor process, mm."""
    return reading("wall_to_bone_proximal")


def wall_to_bone_distal() -> float:
    """Outer wall to bone at the tip, mm."""
    return reading("wall_to_bone_distal")


def lucent_zone_proximal() -> float:
    """Soft layer near the top, mm."""
    return reading("lucent_zone_proximal")


def lucent_zone_distal() -> float:
    """Soft layer near the tip, mm."""
    return reading("lucent_zone_distal")


def lucent_zone_middle() -> float:
    """Soft layer half-way down, mm."""
    return reading("lucent_zone_middle")


def lucent_share_of_palmar_cortex() -> float:
    """Lucent zone over the length of the coffin bone's underside, tip to palmar process."""
    points = standing().points
    return lucent_zone_middle() / float(np.linalg.norm(points["tip"] - points["palmar_process"]))


def toe_to_joint_less_wall_length() -> float:
    """Projected toe to the joint's centre along the ground, less the dorsal wall's length, at twice standing load, mm."""
    return read(Foot("sound").load("other_lifted"), "toe_to_cor") - DEFAULTS["dorsal_wall_length_mm"]
