"""Outlines of the soft tissues: tendons, ligaments, lamellar zone, solar dermis, digital cushion, coronet and skin."""

import numpy as np

from hoofsim.foot.curves import (
    SPACING,
    band,
    bend,
    between,
    joined,
    left_of,
    lengths,
    piece,
    points_of,
    resampled,
    sides,
    smooth,
    unit,
)
from hoofsim.foot.drawn_once import drawn_once
from hoofsim.foot.landmarks import TENDON_HALF_THICKNESS_MM
from hoofsim.foot.outline_bones import pastern_section, size_of
from hoofsim.foot.outline_capsule import Points, groove, heights, horn_top, plate_axes, wall_up
from hoofsim.frames import Array

BURSA_MM = 0.7  # slip between the navicular's flexor surface and the tendon
CUT_GAP_MM = 9.0
FEWEST = 8  # points of an edge that is drawn at all


@drawn_once
def tendon_path(points: Points) -> Array:
    """Centre line (N, 2) of the deep flexor tendon: down the pastern, round the navicular bone, to its insertion."""
    size = size_of(points)
    origin, upper, insertion = points["tendon_origin"], points["tendon_upper"], points["tendon_insertion"]
    centre = points["navicular_arc_centre"]
    surface = float(np.hypot(*(points["navicular_flexor"] - centre)))
    radius = surface + (BURSA_MM + TENDON_HALF_THICKNESS_MM) * size
    onto, off = _touch(upper, centre, radius, 1.0), _touch(insertion, centre, radius, -1.0)
    turn = _angle(off - centre) - _angle(onto - centre)
    turn = (turn + np.pi) % (2 * np.pi) - np.pi
    if turn > 0:
        count = max(3, int(np.ceil(turn * radius / SPACING)))
        angles = _angle(onto - centre) + turn * np.linspace(0.0, 1.0, count)
        wrap = centre + radius * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    else:  # the tendon passes clear of the bone
        wrap = points_of(between(upper, insertion, 0.5))
    knee = bend(between(upper, origin, 0.35), upper, between(upper, wrap[0], 0.3))
    end = insertion + 3.0 * size * unit(points["solar_arch"] - insertion)
    line = np.vstack([points_of(origin), knee, wrap, points_of(insertion, end)])
    return resampled(line, max(40, int(lengths(line)[-1] / SPACING)))


def _angle(offset: Array) -> float:
    return float(np.arctan2(offset[1], offset[0]))


def _touch(outside: Array, centre: Array, radius: float, side: float) -> Array:
    """Where a straight line from a point touches a circle, on its anticlockwise (+1) or clockwise (-1) side."""
    offset = outside - centre
    reach = max(float(np.hypot(*offset)), radius * (1 + 1e-9))
    angle = _angle(offset) + side * float(np.arccos(radius / reach))
    place: Array = centre + radius * np.array([np.cos(angle), np.sin(angle)])
    return place


def _half_thickness(line: Array, size: float) -> Array:
    """Half the tendon's thickness along its path: even, then thinning over the last stretch to the insertion."""
    left = lengths(line)[-1] - lengths(line)
    half: Array = (
        TENDON_HALF_THICKNESS_MM * size * (0.35 + 0.65 * np.clip(left / (16.0 * size), 0.0, 1.0) ** 0.8)
    )
    return half


def tendon(points: Points) -> Array:
    """The deep digital flexor tendon as one band."""
    line = tendon_path(points)
    half = _half_thickness(line, size_of(points))
    return band(line, half, half)


def tendon_ends(points: Points) -> tuple[Array, Array]:
    """The two pieces of a cut tendon, drawn apart in the pastern, with a gap of CUT_GAP_MM."""
    line, size = tendon_path(points), size_of(points)
    whole = lengths(line)[-1]
    upper = float(np.hypot(*(points["tendon_origin"] - points["tendon_upper"])))
    at, gap = 0.62 * upper, 0.5 * CUT_GAP_MM * size
    full = TENDON_HALF_THICKNESS_MM * size
    above, below = piece(line, 0.0, at - gap), piece(line, at + gap, whole)
    fray = np.where(lengths(above) > at - gap - 2.0 * size, 0.75, 1.0) * full
    under = _half_thickness(below, size) * np.where(lengths(below) < 2.0 * size, 0.75, 1.0)
    return band(above, fray, fray), band(below, under, under)


def tendon_grain(points: Points, lines: int = 3) -> list[Array]:
    """Lines along the fibres of the tendon."""
    line = tendon_path(points)
    half = _half_thickness(line, size_of(points))
    aside = (sides(line, half, 0.0)[0] - line)[::3]
    return [line[::3] + share * aside for share in np.linspace(-1.0, 1.0, lines + 2)[1:-1]]


def bursa(points: Points) -> Array:
    """The navicular bursa: the slip of fluid between navicular bone and tendon."""
    line = tendon_path(points)
    size = size_of(points)
    near = np.hypot(*(line - points["navicular_arc_centre"]).T)
    close = np.flatnonzero(near < near.min() + 2.2 * size)
    stretch = line[close[0] : close[-1] + 1]
    swell = np.sin(np.pi * np.linspace(0.0, 1.0, len(stretch))) ** 0.4
    return band(stretch, (TENDON_HALF_THICKNESS_MM + 2.2 * BURSA_MM * swell) * size, 0.0)


def extensor_tendon(points: Points) -> Array:
    """The extensor tendon down the front of the pastern to the extensor process."""
    size = size_of(points)
    top, front, _ = pastern_section(points)
    p2_high, p2_low = points["p2_dorsal_proximal"], points["p2_dorsal_distal"]
    process = points["extensor_process"]
    line = smooth(points_of(top + 2.4 * size * front, p2_high + 3.4 * size * front,
                            between(p2_high, p2_low, 0.5) + 2.0 * size * front, p2_low + 3.0 * size * front,
                            process + 0.2 * size * front))  # fmt: skip
    left = lengths(line)[-1] - lengths(line)
    half = size * (
        1.6 * (0.6 + 0.4 * np.clip(left / (10.0 * size), 0.0, 1.0)) + 0.9 * np.exp(-left / (5.0 * size))
    )
    return band(line, half, half)


def impar_ligament(points: Points) -> Array:
    """The distal sesamoidean (impar) ligament from the navicular bone to P3."""
    end = between(points["joint_palmar"], points["tendon_insertion"], 0.62)
    return _strap(points["navicular_distal"], end, 1.5 * size_of(points))


def collateral_ligament(points: Points) -> Array:
    """The collateral sesamoidean ligament from P2 to the navicular bone."""
    low, high = points["p2_palmar_distal"], points["p2_palmar_proximal"]
    edge = between(low, high, 0.5) + 1.6 * size_of(points) * left_of(unit(high - low)) * -1.0
    return _strap(edge, points["navicular_proximal"], 1.5 * size_of(points))


def _strap(start: Array, end: Array, half: float) -> Array:
    line = resampled(points_of(start, end), 12)
    waist = half * (1.0 - 0.35 * np.sin(np.pi * np.linspace(0.0, 1.0, len(line))))
    return band(line, waist, waist)


def lamellar_zone(points: Points) -> Array:
    """The lamellae and their dermis, between the dorsal face of P3 and the inner wall."""
    return joined([points_of(points["extensor_process"], points["wall_inner_proximal"], points["wall_inner_middle"],
                             points["wall_inner_distal"], points["tip"])])  # fmt: skip


def coronary_corium(points: Points) -> Array:
    """The coronary band: the cushion in the groove at the top of the wall, from which the wall grows."""
    hairline, inner = points["toe_hairline"], points["wall_inner_proximal"]
    width = float(np.hypot(*(hairline - inner)))
    along = unit(hairline - inner)
    inward = left_of(along)
    back = smooth(points_of(hairline, hairline + width * (0.22 * along + 0.30 * inward),
                            between(inner, hairline, 0.80) + 0.74 * width * inward,
                            between(inner, hairline, 0.22) + 0.50 * width * inward, inner))  # fmt: skip
    return joined([groove(points)[:-1], back[:-1]])


def solar_dermis(points: Points, rest: Points) -> Array:
    """The soft layer on sole and frog horn: under P3 it fills the space to the bone, behind it is a thin layer."""
    top = horn_top(points, rest)
    along, up = plate_axes(points)
    size = size_of(points)
    insertion, arch, tip = points["tendon_insertion"], points["solar_arch"], points["tip"]
    layer = 2.4 * size
    behind = top[(top - insertion) @ along < -14.0 * size] + layer * up
    roof = smooth(points_of(tip, between(tip, arch, 0.5) + 0.5 * size * up, arch + 0.8 * size * up,
                            between(arch, insertion, 0.5), *behind[::12], top[-1]))  # fmt: skip
    roof = np.vstack([points_of(top[0], points["wall_inner_distal"]), roof])
    # Where the tip of a rotated bone stands in the horn, the layer is pressed to nothing and never turned inside out.
    thick = np.maximum(heights(roof, top, points) - top @ up, 0.05)
    return joined([top + thick[:, None] * up, top[::-1]])


def digital_cushion(points: Points, rest: Points) -> Array:
    """The digital cushion between the deep flexor tendon and the frog, back to the heel bulbs."""
    line, size = tendon_path(points), size_of(points)
    _, below = sides(line, 0.0, 0.5 * TENDON_HALF_THICKNESS_MM * size)
    top = horn_top(points, rest)
    along, up = plate_axes(points)
    # A bone torn far away has no frog below it: the cushion then keeps its last bit of frog and of tendon.
    behind = max(FEWEST, int(np.count_nonzero((top - points["tendon_insertion"]) @ along < 10.0 * size)))
    low = top[-behind:] + 2.2 * size * up
    skin = palmar_skin(points)
    level = float(np.dot(skin[int(0.5 * len(skin))], up))
    start = min(int(np.argmax(below @ up < level + 4.0 * size)), len(below) - 4 - FEWEST)
    high = below[start : len(below) - 4]
    back = skin[: int(0.45 * len(skin))] + 2.0 * size * along
    rear = smooth(points_of(high[0], between(high[0], back[-1], 0.6) + 1.0 * size * up, back[-1], *back[::-6][1:],
                            low[-1]))  # fmt: skip
    # Its tongue reaches forward under the end of the tendon.
    tongue = between(low[0], high[-1], 0.45) + 5.0 * size * along
    front = smooth(
        points_of(low[6], low[0], tongue, between(tongue, high[-1], 0.7) + 0.6 * size * along, high[-1])
    )
    return joined([rear[:-1], low[:5:-1], front[:-1], high[::-1]])


@drawn_once
def palmar_skin(points: Points) -> Array:
    """The skin behind, from the heel hairline over the bulb and up the pastern (a line)."""
    size = size_of(points)
    hairline, upper, origin = points["heel_hairline"], points["tendon_upper"], points["tendon_origin"]
    back = left_of(unit(origin - upper))
    hollow, top = upper + 9.5 * size * back, origin + 9.0 * size * back
    away = unit(hairline - points["heel_ground"])
    swell = left_of(away) * -1.0
    low, high = (
        hairline + 5.0 * size * away + 0.5 * size * swell,
        hairline + 13.0 * size * away + 5.5 * size * swell,
    )
    return smooth(points_of(hairline, low, high, between(high, hollow, 0.45) + 1.0 * size * back,
                            between(high, hollow, 0.8) - 1.5 * size * back, between(hollow, top, 0.3),
                            top))  # fmt: skip


def dorsal_skin(points: Points) -> Array:
    """The skin in front, from the toe hairline up the pastern (a line)."""
    size = size_of(points)
    hairline, high = points["toe_hairline"], points["p2_dorsal_proximal"]
    top, front, _ = pastern_section(points)
    up = wall_up(points)
    end, shoulder = top + 9.0 * size * front, high + 10.0 * size * front
    bulge = hairline + 7.0 * size * up - 0.8 * size * left_of(up)
    return smooth(
        points_of(hairline, bulge, between(bulge, shoulder, 0.5) - 0.8 * size * front, shoulder, end)
    )


def skin(points: Points, rest: Points) -> Array:
    """Everything inside the skin and the horn: the ground on which the deeper tissues are drawn."""
    inner = points_of(points["wall_inner_proximal"], points["wall_inner_distal"])
    return joined([inner, horn_top(points, rest), palmar_skin(points), dorsal_skin(points)[::-1]])
