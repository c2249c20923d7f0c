"""What has changed: the unchanged foot as a dashed ghost, and arrows on the landmarks that moved."""

from collections.abc import Mapping

import numpy as np

from hoofsim.drawing.display_list import Arrow, Group, Item, Polyline, as_point, as_points
from hoofsim.drawing.foot_shown import Options, ShownFoot
from hoofsim.errors import BadInput, nearest
from hoofsim.foot.outlines import outlines
from hoofsim.frames import Array, rotate

Points = Mapping[str, Array]

GHOSTED = ("capsule", "frog", "p3")
WATCHED = ("tip", "extensor_process", "palmar_process", "frog_point", "toe_hairline", "breakover", "heel_ground",
           "cor")  # fmt: skip
# The two landmarks of each body that the ghost is laid upon.
LAID_UPON: Mapping[str, tuple[str, str] | None] = {
    "ground": None,
    "capsule": ("toe_hairline", "heel_hairline"),
    "bone": ("tip", "extensor_process"),
}
LEAST_MOVE_MM, LARGE_MOVE_MM, ENLARGED = 0.25, 4.0, 3.0


def laid_upon(points: Points, target: Points, body: str) -> dict[str, Array]:
    """Landmarks `points` shifted and turned as one so that `body` lies on the same body of `target`.

    BadInput for a body other than those of LAID_UPON.
    """
    if body not in LAID_UPON:
        raise BadInput(f"a ghost cannot be laid upon '{body}'; {nearest(body, LAID_UPON)}")
    pair = LAID_UPON[body]
    if pair is None:
        return dict(points)
    start, end = pair
    before, after = points[end] - points[start], target[end] - target[start]
    turn = float(np.arctan2(before[1], before[0]) - np.arctan2(after[1], after[0]))  # clockwise is positive
    return {
        name: rotate(place, turn, points[start]) + target[start] - points[start]
        for name, place in points.items()
    }


def ghost(
    points: Points, rest: Points, names: tuple[str, ...] = GHOSTED, role: str = "ghost"
) -> tuple[Item, ...]:
    """Outlines only, dashed: of the unchanged foot, or (role "rival") of what an account says should be seen."""
    made = outlines(points, rest)
    return tuple(
        Polyline(as_points(np.vstack([made[name].points, made[name].points[:1]])), role) for name in names
    )


def change_items(shown: ShownFoot, baseline: ShownFoot | None, options: Options) -> tuple[list[Item], str]:
    """Ghost and arrows with the words that explain them; nothing where no baseline is given or nothing moved."""
    if baseline is None or options.ghost == "none":
        return [], ""
    before = laid_upon(baseline.points, shown.points, options.ghost)
    moves = {name: shown.points[name] - before[name] for name in WATCHED}
    largest = max(float(np.hypot(*move)) for move in moves.values())
    if largest < LEAST_MOVE_MM:
        return [], f"Nothing has moved against the {options.ghost}." if shown is not baseline else ""
    scale = options.moved_scale
    if scale is None:
        scale = ENLARGED if largest < LARGE_MOVE_MM else 1.0
    rest = laid_upon(baseline.rest_points, shown.points, options.ghost)
    dashed = ghost(before, rest, tuple(name for name in GHOSTED if name not in options.hide))
    arrows = [
        Arrow(
            as_point(shown.points[name] - scale * move), as_point(shown.points[name]), "moved", "moved", 3.0
        )
        for name, move in moves.items()
        if float(np.hypot(*move)) >= LEAST_MOVE_MM
    ]
    times = f"{scale:g} times as long as the movement" if scale != 1.0 else "as long as the movement"
    words = f"Dashed: {options.compared}, laid on the same {options.ghost}. Violet arrows: {times}."
    return [Group(dashed, "ghost"), *arrows], words
