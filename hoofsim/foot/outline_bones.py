"""Outlines of the bones and joints in the median plane, from landmarks.

The distal phalanx is drawn as cut along the middle, with its palmar process (which lies beside the middle) as a part of
its own behind it.
"""

from collections.abc import Mapping

import numpy as np

from hoofsim.foot import landmarks as template
from hoofsim.foot.curves import arc, between, joined, left_of, on_circle, points_of, smooth, unit
from hoofsim.foot.drawn_once import drawn_once
from hoofsim.frames import Array

CARTILAGE = 0.07  # joint space, as a share of the condyle's radius
PASTERN_SHOWN = (
    30.0 / 42.0
)  # proximal phalanx shown above the pastern joint, over the middle phalanx's length


@drawn_once
def size_of(points: Mapping[str, Array]) -> float:
    """Bone size over the sound foot's, from the radius of the coffin joint."""
    return float(np.hypot(*(points["joint_dorsal"] - points["cor"]))) / template.CONDYLE_RADIUS_MM


def distal_phalanx(points: Mapping[str, Array]) -> Array:
    """P3 cut along the middle: dorsal face, extensor process, joint surface, flexor surface, arched solar face, tip."""
    tip, process = points["tip_seen"], points["extensor_process"]
    dorsal, palmar = points["joint_dorsal"], points["joint_palmar"]
    insertion, arch = points["tendon_insertion"], points["solar_arch"]
    size = size_of(points)
    up, down = unit(process - tip), unit(insertion - palmar)
    inward = left_of(up)  # from the dorsal face into the bone
    face = [between(process, tip, share) for share in (0.12, 0.5, 0.88)]
    face[1] = face[1] + 0.35 * size * inward
    head = smooth(points_of(face[0], process, process + 1.1 * size * inward + 0.1 * size * up, dorsal))
    joint = arc(points["cor"], dorsal, palmar, clockwise=True)
    heel = palmar + 2.2 * size * down - 0.9 * size * left_of(down)
    flexor = smooth(points_of(palmar, heel, between(palmar, insertion, 0.6) + 0.9 * size * left_of(down),
                              insertion))  # fmt: skip
    under = smooth(points_of(insertion, between(insertion, arch, 0.3) - 0.9 * size * _up_from(points), arch,
                             between(arch, tip, 0.6) + 0.8 * size * _up_from(points), tip))  # fmt: skip
    return joined([smooth(points_of(tip, *face[::-1]))[:-1], head, joint, flexor, under[:-1]])


def lost_tip(points: Mapping[str, Array]) -> Array:
    """What is missing at the tip of P3 (three or more points; of no area when nothing is missing)."""
    tip, seen, arch = points["tip"], points["tip_seen"], points["solar_arch"]
    return joined([points_of(seen), points_of(tip), points_of(between(tip, arch, 0.25))])


def _up_from(points: Mapping[str, Array]) -> Array:
    """Away from the ground, square to the line from the tip to the palmar process."""
    return -left_of(unit(points["palmar_process"] - points["tip"]))


def palmar_process(points: Mapping[str, Array]) -> Array:
    """The solar margin and palmar process of P3 that lie beside the middle, seen behind it."""
    tip, low, high = points["tip"], points["palmar_process"], points["palmar_process_top"]
    up, back = _up_from(points), unit(low - tip)
    size = size_of(points)
    margin = smooth(points_of(between(tip, low, 0.12), between(tip, low, 0.4) + 1.3 * size * up,
                              between(tip, low, 0.75) + 0.5 * size * up, low - 1.5 * size * back, low,
                              low + 1.0 * size * back + 2.4 * size * up,
                              between(low, high, 0.5) - 1.6 * size * back, high + 0.8 * size * back - 1.8 * size * up,
                              high, between(high, points["joint_palmar"], 0.5) + 0.9 * size * up,
                              points["joint_palmar"] + 1.0 * size * up))  # fmt: skip
    hidden = points_of(between(points["joint_dorsal"], points["solar_arch"], 0.4))
    return joined([margin, hidden])


def condyle_radius(points: Mapping[str, Array]) -> float:
    """Radius of P2's rounded lower end: the joint surface of P3 less the joint space."""
    return float(np.hypot(*(points["joint_dorsal"] - points["cor"]))) * (1.0 - CARTILAGE)


def middle_phalanx(points: Mapping[str, Array]) -> Array:
    """P2: rounded condyle about the centre of rotation, a waist, and a shallow cup for the proximal phalanx."""
    cor, radius = points["cor"], condyle_radius(points)
    dorsal_low, dorsal_high = points["p2_dorsal_distal"], points["p2_dorsal_proximal"]
    palmar_low, palmar_high = points["p2_palmar_distal"], points["p2_palmar_proximal"]
    axis = unit(points["pip_centre"] - cor)
    side = left_of(axis)  # palmar of the bone
    size = size_of(points)
    condyle = arc(cor, on_circle(cor, dorsal_low, radius), on_circle(cor, palmar_low, radius), clockwise=True)
    waist_palmar = smooth(points_of(condyle[-1], between(condyle[-1], palmar_high, 0.22) - 1.5 * size * side,
                                    between(condyle[-1], palmar_high, 0.6) - 1.6 * size * side,
                                    palmar_high - 4.0 * size * axis, palmar_high))  # fmt: skip
    cup = _cup(dorsal_high, palmar_high, axis, 4.2 * size)[::-1]
    waist_dorsal = smooth(points_of(dorsal_high, dorsal_high - 4.0 * size * axis,
                                    between(condyle[0], dorsal_high, 0.5) + 1.4 * size * side,
                                    between(condyle[0], dorsal_high, 0.2) + 0.6 * size * side,
                                    condyle[0]))  # fmt: skip
    return joined([condyle[:-1], waist_palmar[:-1], cup[1:-1], waist_dorsal[:-1]])


def _cup(dorsal: Array, palmar: Array, axis: Array, depth: float) -> Array:
    """The hollow upper end of P2, from its dorsal to its palmar corner."""
    middle = between(dorsal, palmar, 0.5) - depth * axis
    quarter = [between(dorsal, palmar, share) - 0.78 * depth * axis for share in (0.24, 0.76)]
    lips = [between(dorsal, palmar, share) + 0.3 * axis for share in (0.03, 0.97)]
    return smooth(points_of(dorsal, lips[0], quarter[0], middle, quarter[1], lips[1], palmar))


@drawn_once
def pastern_section(points: Mapping[str, Array]) -> tuple[Array, Array, Array]:
    """Where P1 is cut off: its dorsal corner and palmar corner, with the direction out of the front between them."""
    axis = unit(points["pip_centre"] - points["cor"])
    front = -left_of(axis)
    length = float(np.hypot(*(points["pip_centre"] - points["cor"])))
    half = 0.5 * float(np.hypot(*(points["p2_dorsal_proximal"] - points["p2_palmar_proximal"])))
    top = (
        between(points["p2_dorsal_proximal"], points["p2_palmar_proximal"], 0.5)
        + PASTERN_SHOWN * length * axis
    )
    return top + 0.66 * half * front, front, top - 0.50 * half * front


def proximal_phalanx(points: Mapping[str, Array]) -> Array:
    """The lower end of P1, above the pastern joint, cut off square to the bone."""
    dorsal_top, front, palmar_top = pastern_section(points)
    axis, size = left_of(front), size_of(points)
    half = 0.5 * float(np.hypot(*(points["p2_dorsal_proximal"] - points["p2_palmar_proximal"])))
    centre = between(points["p2_dorsal_proximal"], points["p2_palmar_proximal"], 0.5)
    shape = ((0.69, 12.0), (0.80, 4.5), (0.62, -0.4), (0.0, -2.9), (-0.62, -0.4), (-0.76, 4.5), (-0.60, 12.0))
    low = smooth(
        points_of(*(centre + across * half * front + above * size * axis for across, above in shape))
    )
    return joined([points_of(dorsal_top), low, points_of(palmar_top)])


def navicular(points: Mapping[str, Array]) -> Array:
    """The navicular bone: hollow toward P2, rounded toward the tendon."""
    cor = points["cor"]
    joint, distal, proximal = (points[f"navicular_{name}"] for name in ("joint", "distal", "proximal"))
    flexor, centre = points["navicular_flexor"], points["navicular_arc_centre"]
    radius = float(np.hypot(*(joint - cor)))
    reach = float(np.hypot(*(flexor - centre)))
    face = [on_circle(cor, between(joint, end, 0.62), radius + 0.15) for end in (distal, proximal)]
    around = [on_circle(centre, between(flexor, end, 0.5), reach * share) for end, share in
              ((proximal, 0.98), (distal, 0.98))]  # fmt: skip
    return smooth(
        points_of(distal, face[0], joint, face[1], proximal, around[0], flexor, around[1]), closed=True
    )


def coffin_joint(points: Mapping[str, Array]) -> Array:
    """The joint space between P2's condyle and the distal phalanx and navicular bone."""
    cor = points["cor"]
    inner = condyle_radius(points)
    start, end = points["joint_dorsal"], points["navicular_proximal"]
    outer = float(np.hypot(*(points["joint_dorsal"] - cor))) + 0.5 * size_of(
        points
    )  # under the edge of the bones
    front = arc(cor, on_circle(cor, start, outer), on_circle(cor, end, outer), clockwise=True)
    back = arc(cor, on_circle(cor, end, inner), on_circle(cor, start, inner), clockwise=False)
    return joined([front, back])
