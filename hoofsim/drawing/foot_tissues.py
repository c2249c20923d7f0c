"""The tissues of the foot as polygons with roles, back to front; a cut tendon; a lost tip; the rim of a chosen part."""

import numpy as np

from hoofsim.drawing.display_list import Group, Item, Polygon, Polyline, as_points
from hoofsim.drawing.foot_shown import Options, ShownFoot
from hoofsim.foot import outline_bones, outline_capsule, outline_soft
from hoofsim.foot.outlines import Outline

ROLES = {
    "capsule": "capsule", "skin": "skin", "solar_dermis": "solar_dermis", "digital_cushion": "cushion",
    "lamellar_zone": "lamellar_zone", "coronary_corium": "coronet", "dorsal_wall": "horn", "sole": "sole",
    "white_line": "white_line", "frog": "frog", "palmar_process": "bone_beyond", "bursa": "joint",
    "flexor_tendon": "tendon", "coffin_joint": "joint", "collateral_ligament": "ligament",
    "impar_ligament": "ligament", "p1": "bone", "p2": "bone", "p3": "bone", "navicular": "bone",
    "extensor_tendon": "extensor",
}  # fmt: skip
LEAST_LOSS_MM = 0.2


def is_cut(shown: ShownFoot) -> bool:
    """Whether the deep flexor tendon is cut."""
    return shown.foot.values.get("tendon_cut", 0.0) >= 0.5


def tissues(shown: ShownFoot, made: dict[str, Outline], options: Options) -> list[Item]:
    """Every tissue that is not hidden, each a group with its part's name."""
    items: list[Item] = []
    for name, outline in made.items():
        if name in options.hide:
            continue
        if name == "flexor_tendon":
            items.append(Group(tuple(_tendon(shown, outline))))
        elif name == "dorsal_wall":
            grain = [
                Polyline(as_points(line), "horn_grain", name)
                for line in outline_capsule.horn_grain(shown.points)
            ]
            items.append(Group((Polygon(as_points(outline.points), "horn", name), *grain)))
        else:
            items.append(Polygon(as_points(outline.points), ROLES[name], name))
        if name == "p3":
            items.extend(_lost_tip(shown))
    return items


def _tendon(shown: ShownFoot, outline: Outline) -> list[Item]:
    part = outline.name
    if is_cut(shown):
        return [Polygon(as_points(end), "tendon", part) for end in outline_soft.tendon_ends(shown.points)]
    grain = [
        Polyline(as_points(line), "tendon_grain", part) for line in outline_soft.tendon_grain(shown.points)
    ]
    return [Polygon(as_points(outline.points), "tendon", part), *grain]


def _lost_tip(shown: ShownFoot) -> list[Item]:
    loss = float(np.hypot(*(shown.points["tip"] - shown.points["tip_seen"])))
    if loss < LEAST_LOSS_MM:
        return []
    return [Polygon(as_points(outline_bones.lost_tip(shown.points)), "lost_bone", "tip")]


def edges(shown: ShownFoot, options: Options) -> list[Item]:
    """The hairline and heel of the side view, drawn over the cut."""
    if "capsule" in options.hide:
        return []
    return [
        Polyline(as_points(outline_capsule.coronet(shown.points)), "coronet_line", "coronet"),
        Polyline(as_points(outline_capsule.heel_line(shown.points)), "coronet_line", "capsule"),
    ]


def rim(made: dict[str, Outline], options: Options) -> list[Item]:
    """A bright rim round the highlighted part, where it is an area."""
    if options.highlight is None or options.highlight not in made:
        return []
    return [Polygon(as_points(made[options.highlight].points), "highlight", options.highlight)]
