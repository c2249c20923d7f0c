"""Smooth outlines of every tissue from landmarks, the same for the foot at rest and under load.

Give the current (moved) landmarks, and each outline follows its body, or stretches between the bodies it joins.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from hoofsim.foot import outline_bones as bones
from hoofsim.foot import outline_capsule as capsule
from hoofsim.foot import outline_soft as soft
from hoofsim.foot.drawn_once import Landmarks
from hoofsim.frames import Array

Points = Mapping[str, Array]


@dataclass(frozen=True, eq=False)
class Outline:
    """A closed area (N, 2) in mm, its last point joining the first; `bodies` are those whose landmarks shape it."""

    name: str
    points: Array
    bodies: tuple[str, ...]


_ALONE: dict[str, tuple[Callable[[Points], Array], tuple[str, ...]]] = {
    "capsule": (capsule.capsule, ("wall", "border")),
    "dorsal_wall": (capsule.dorsal_wall, ("wall", "border", "plate")),
    "coronary_corium": (soft.coronary_corium, ("wall",)),
    "lamellar_zone": (soft.lamellar_zone, ("p3", "wall")),
    "palmar_process": (bones.palmar_process, ("p3",)),
    "bursa": (soft.bursa, ("navicular", "p2", "p3")),
    "flexor_tendon": (soft.tendon, ("navicular", "p2", "p3")),
    "coffin_joint": (bones.coffin_joint, ("p2", "p3", "navicular")),
    "impar_ligament": (soft.impar_ligament, ("navicular", "p3")),
    "collateral_ligament": (soft.collateral_ligament, ("p2", "navicular")),
    "p1": (bones.proximal_phalanx, ("p2",)),
    "p2": (bones.middle_phalanx, ("p2",)),
    "p3": (bones.distal_phalanx, ("p3",)),
    "navicular": (bones.navicular, ("navicular",)),
    "extensor_tendon": (soft.extensor_tendon, ("p2", "p3")),
}

_ON_HORN: dict[str, tuple[Callable[[Points, Points], Array], tuple[str, ...]]] = {
    "skin": (soft.skin, ("p2", "wall", "plate", "border")),
    "solar_dermis": (soft.solar_dermis, ("p3", "plate", "wall", "border")),
    "digital_cushion": (soft.digital_cushion, ("p3", "navicular", "p2", "plate", "border")),
    "sole": (capsule.sole, ("plate", "wall")),
    "white_line": (capsule.white_line, ("wall", "plate")),
    "frog": (capsule.frog, ("plate", "border")),
}

# From back to front, as a picture stacks them.
ORDER = (
    "capsule", "skin", "solar_dermis", "digital_cushion", "lamellar_zone", "coronary_corium", "dorsal_wall", "sole",
    "white_line", "frog", "palmar_process", "bursa", "flexor_tendon", "coffin_joint", "collateral_ligament",
    "impar_ligament", "p1", "p2", "p3", "navicular", "extensor_tendon",
)  # fmt: skip


def outlines(points: Points, rest: Points | None = None) -> dict[str, Outline]:
    """Every outline by name, back to front, from current landmarks (2,) in mm.

    `rest` are the same foot's landmarks at rest (default: the current ones): they say how thick the horn of the sole
    is, which load does not change.
    """
    drawn = points if isinstance(points, Landmarks) else Landmarks(points)
    unloaded = drawn if rest is None else rest
    made = {}
    for name in ORDER:
        if name in _ALONE:
            build, bodies = _ALONE[name]
            made[name] = Outline(name, build(drawn), bodies)
        else:
            build_on, bodies = _ON_HORN[name]
            made[name] = Outline(name, build_on(drawn, unloaded), bodies)
    return made
