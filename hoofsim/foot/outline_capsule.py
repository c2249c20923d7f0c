"""Outlines of the horn: dorsal wall, white line, sole, frog, and the capsule's silhouette from the side.

Wall, border and plate move a little against each other when the foot is loaded, so every outline is drawn anew from the
moved landmarks; `rest` landmarks only say how thick the horn of the sole is, which load does not change.
"""

from collections.abc import Mapping

import numpy as np

from hoofsim.foot.curves import (
    bend,
    between,
    crossing,
    joined,
    left_of,
    lengths,
    piece,
    points_of,
    smooth,
    unit,
)
from hoofsim.foot.drawn_once import drawn_once
from hoofsim.foot.outline_bones import size_of
from hoofsim.frames import Array

Points = Mapping[str, Array]

CORIUM_MM, CORIUM_SHARE = (
    5.0,
    0.4,
)  # depth of the soft sole layer under the tip; at most this share of the sole depth
FROG_HORN_MM, WHITE_LINE_MM, LEAST_HORN_MM = 8.5, 2.2, 1.2


def wall_up(points: Points) -> Array:
    """Direction up the outer dorsal wall."""
    return unit(points["toe_hairline"] - points["wall_outer_distal"])


def bearing(points: Points) -> Array:
    """Direction of the bearing surface, from heel to toe."""
    return unit(points["breakover"] - points["heel_ground"])


@drawn_once
def plate_axes(points: Points) -> tuple[Array, Array]:
    """Directions along sole and frog toward the toe, and up out of them."""
    along = unit(points["sole_toe"] - points["frog_heel"])
    return along, left_of(along)


def horn_under_tip(rest: Points) -> float:
    """Thickness of the horny sole under the tip of P3 at rest, mm."""
    _, up = plate_axes(rest)
    depth = max(float(np.dot(rest["tip"] - rest["sole_under_tip"], up)), 0.5)
    return depth - min(CORIUM_MM * size_of(rest), CORIUM_SHARE * depth)


@drawn_once
def toe_profile(points: Points) -> Array:
    """The outer contour from the hairline down the dorsal wall, round the toe to where it leaves the ground."""
    toe, breakover = points["toe"], points["breakover"]
    up = wall_up(points)
    setback = float(np.hypot(*(toe - breakover)))
    free = float(np.dot(points["wall_outer_distal"] - toe, up))
    bevel = toe + min(0.95 * setback, max(free - 2.0, 0.5 * free)) * up
    pull = between(toe, between(bevel, breakover, 0.5), 0.45)
    return np.vstack([points_of(points["toe_hairline"]), bend(bevel, pull, breakover)])


def underside(points: Points) -> Array:
    """The toe profile carried on along the bearing surface to the heel."""
    return np.vstack([toe_profile(points), points_of(points["heel_ground"])])


@drawn_once
def inner_wall_foot(points: Points) -> Array:
    """Where the inner wall, carried down, comes out at the ground or at the rounded toe."""
    inner = points["wall_inner_distal"]
    down = unit(inner - points["wall_inner_proximal"])
    found = crossing(inner, down, underside(points)[1:])
    return points["sole_toe"] if found is None else found


def dorsal_wall(points: Points) -> Array:
    """The horny wall at the toe: outer face, rounded toe, inner face, and the coronary groove at its upper edge."""
    profile, foot = toe_profile(points), inner_wall_foot(points)
    outer = _until(profile, foot)
    inner = points_of(foot, points["wall_inner_distal"], points["wall_inner_middle"])
    return joined([outer, inner, groove(points)[:-1]])


@drawn_once
def groove(points: Points) -> Array:
    """The coronary groove in the upper edge of the wall, from its inner to its outer side (a line)."""
    hairline, inner = points["toe_hairline"], points["wall_inner_proximal"]
    hollow = -left_of(unit(hairline - inner)) * 0.07 * float(np.hypot(*(hairline - inner)))
    return bend(inner, between(inner, hairline, 0.45) + hollow, hairline)


def _until(profile: Array, foot: Array) -> Array:
    """The profile as far as the place where the inner wall meets it (or all of it, and then along the ground)."""
    gaps = np.hypot(*(profile[1:] - foot).T)
    nearest = int(np.argmin(gaps)) + 1
    if gaps[nearest - 1] < 1.5 and nearest < len(profile) - 1:
        return np.vstack([profile[:nearest], points_of(foot)])
    return profile


@drawn_once
def _sole_line(points: Points) -> Array:
    """Lower surface of the horny sole, from the white line to the true frog point."""
    start = _white_line_foot(points)
    along, up = plate_axes(points)
    rounded = toe_profile(points)[1:]
    bevelled = rounded[((rounded - start) @ along < -0.4) & ((rounded - start) @ up < 0)]
    front = np.vstack([points_of(start), bevelled]) if len(bevelled) else points_of(start)
    under, frog = points["sole_under_tip"], points["frog_point"]
    behind = [one for one in (between(points["sole_toe"], under, 0.5), under)
              if float(np.dot(one - front[-1], along)) < -1.0 and float(np.dot(one - frog, along)) > 1.0]  # fmt: skip
    return np.vstack([front[:-1], smooth(points_of(front[-1], *behind, frog))])


@drawn_once
def _white_line_foot(points: Points) -> Array:
    """Lower end of the white line: the sole's own toe end, or the rounded toe where that has cut the sole away."""
    foot, toe_end = inner_wall_foot(points), points["sole_toe"]
    up = wall_up(points)
    return foot if float(np.dot(foot - toe_end, up)) > 0 else toe_end


def _white_line_top(points: Points, horn: float) -> Array:
    """Upper end of the white line, on the inner wall level with the top of the horny sole."""
    inner, foot = points["wall_inner_distal"], _white_line_foot(points)
    _, up = plate_axes(points)
    rise = float(np.dot(inner - foot, up))
    return between(foot, inner, min(max(horn / max(rise, 1e-6), 0.1), 0.95))


def horn_top(points: Points, rest: Points) -> Array:
    """Upper surface of sole and frog horn, from the white line to the heel bulbs: what the dermis lies on.

    However thin the horn is, this surface stays above the lower one.
    """
    return _horn_surface(points, horn_under_tip(rest))


@drawn_once
def _horn_surface(points: Points, horn: float) -> Array:
    along, up = plate_axes(points)
    size = size_of(points)
    under = points["sole_under_tip"] + horn * up
    frog = points["frog_point"]
    thick = min(FROG_HORN_MM * size, 0.9 * horn + 3.0)
    length = max(float(np.dot(frog - points["frog_heel"], along)), 1.0)
    floor = points["frog_heel"]
    rear = [floor + share * length * along + thick * up for share in (0.62, 0.35, 0.12)]
    top = smooth(points_of(_white_line_top(points, horn), under, *rear, _frog_tail(points)))
    lower = heights(np.vstack([_sole_line(points), _frog_ground(points)]), top, points)
    to_end = np.hypot(*(top - top[-1]).T)
    least = LEAST_HORN_MM * size * np.clip(to_end / (10.0 * size), 0.0, 1.0)
    lifted: Array = top + np.maximum(lower + least - top @ up, 0.0)[:, None] * up
    return lifted


def _frog_tail(points: Points) -> Array:
    """Where frog horn ends at the back, below the heel bulbs."""
    up_heel = unit(points["heel_hairline"] - points["heel_ground"])
    reach = 0.5 * float(np.hypot(*(points["heel_hairline"] - points["heel_ground"])))
    return points["frog_heel"] + min(reach, 18.0 * size_of(points)) * up_heel


def frog(points: Points, rest: Points) -> Array:
    """The horny frog along the middle, from its true point to the heel bulbs."""
    top = horn_top(points, rest)
    return joined([_frog_ground(points)[:-1], top[_frog_shoulder(points, top) :][::-1]])


@drawn_once
def _frog_ground(points: Points) -> Array:
    """Lower surface of the frog, from its true point to the heel bulbs."""
    along, up = plate_axes(points)
    point, heel, tail = points["frog_point"], points["frog_heel"], _frog_tail(points)
    length, drop = float(np.dot(point - heel, along)), float(np.dot(point - heel, up))
    return smooth(points_of(point, point - 0.10 * length * along - 0.7 * drop * up, heel + 0.72 * length * along,
                            heel + 0.08 * length * along, heel, between(heel, tail, 0.5) - 0.6 * up,
                            tail))  # fmt: skip


def _frog_shoulder(points: Points, top: Array) -> int:
    """Index of the horn's upper surface where the frog, thickening from its point, reaches it."""
    along, _ = plate_axes(points)
    length = float(np.dot(points["frog_point"] - points["frog_heel"], along))
    behind = (points["frog_point"] - top) @ along
    return int(np.argmin(np.abs(behind - 0.17 * length)))


def sole(points: Points, rest: Points) -> Array:
    """The horny sole from the white line to the frog, which it overlaps."""
    width = WHITE_LINE_MM * size_of(points)
    lower, upper = (piece(line, width, lengths(line)[-1]) for line in _sole_faces(points, rest))
    return joined([lower, upper[::-1]])


def _sole_faces(points: Points, rest: Points) -> tuple[Array, Array]:
    """Lower and upper face of the horny sole, from the white line to the frog."""
    top = horn_top(points, rest)
    return _sole_line(points), top[: _frog_shoulder(points, top) + 1]


def heights(line: Array, places: Array, points: Points) -> Array:
    """Height (M,) over the plate's own axis of a line along sole and frog, at places (M, 2)."""
    along, up = plate_axes(points)
    place = line @ along
    order = np.argsort(place, kind="stable")
    return np.interp(places @ along, place[order], (line @ up)[order])


def white_line(points: Points, rest: Points) -> Array:
    """The softer horn that joins sole and wall."""
    width = WHITE_LINE_MM * size_of(points)
    lower, upper = (piece(line, 0.0, width) for line in _sole_faces(points, rest))
    return joined([upper[::-1], lower])


def coronet(points: Points) -> Array:
    """The coronet seen from the side, from the toe to the heel hairline (a line, not an area)."""
    toe, heel = points["toe_hairline"], points["heel_hairline"]
    span = heel - toe
    lift = left_of(unit(-span)) * 0.05 * float(np.hypot(*span))
    return smooth(points_of(toe, between(toe, heel, 0.18) + 0.55 * lift, between(toe, heel, 0.5) + 0.5 * lift,
                            between(toe, heel, 0.82) + 0.25 * lift, heel))  # fmt: skip


def heel_line(points: Points) -> Array:
    """The back edge of the heels from the hairline to the ground (a line)."""
    top, foot = points["heel_hairline"], points["heel_ground"]
    back = left_of(unit(top - foot))
    return bend(top, between(top, foot, 0.45) + 0.06 * float(np.hypot(*(top - foot))) * back, foot)


def capsule(points: Points) -> Array:
    """The whole hoof seen from the side."""
    return joined([toe_profile(points), heel_line(points)[::-1], coronet(points)[::-1]])


def horn_grain(points: Points, lines: int = 4) -> list[Array]:
    """Lines along the horn tubules of the dorsal wall, inside it."""
    profile = underside(points)
    up = wall_up(points)
    made = []
    for share in np.linspace(0.0, 1.0, lines + 2)[1:-1]:
        start, near = (between(points[f"wall_outer_{end}"], points[f"wall_inner_{end}"], share)
                       for end in ("proximal", "distal"))  # fmt: skip
        foot = crossing(near, -up, profile[1:])
        whole = points_of(start - 2.0 * up, near if foot is None else foot)
        length = float(np.hypot(*(whole[1] - whole[0])))
        kept = max(length - 1.2, 0.5 * length) / max(length, 1e-12)
        made.append(points_of(whole[0], between(whole[0], whole[1], kept)))
    return made
