"""Holding a part of the foot: where it is taken, and how far keys move the hand."""

import numpy as np
import pygame

from hoofsim.drawing.display_list import Circle, DisplayList, Point, Polygon
from hoofsim.drawing.parts import PARTS
from hoofsim.frames import Array

HOLDABLE = frozenset({"p1", "p2", "p3", "navicular", "palmar_process", "tip", "extensor_process", "cor"})
STEP_MM, LONG_STEP_MM = 1.0, 5.0
# Keys take the hand no farther than this from where it took hold, so that it does not get lost off the sheet.
REACH_MM = 60.0
LET_GO_KEYS = (pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_ESCAPE)
TAKE_KEYS = (pygame.K_RETURN, pygame.K_KP_ENTER)
WAYS = {
    pygame.K_LEFT: (-1.0, 0.0),
    pygame.K_RIGHT: (1.0, 0.0),
    pygame.K_UP: (0.0, 1.0),
    pygame.K_DOWN: (0.0, -1.0),
}


def place_of(picture: DisplayList, part: str) -> Point | None:
    """A place (mm) in the midst of a part as drawn; None for one that has no extent, or is not drawn."""
    found: Point | None = None
    for primitive in picture.primitives():
        if primitive.part != part:
            continue
        if isinstance(primitive, Polygon):
            x, y = middle(np.array(primitive.points))
            return x, y
        if isinstance(primitive, Circle):
            found = (float(primitive.centre[0]), float(primitive.centre[1]))
    return found


def middle(corners: Array) -> Point:
    """The centre of area (mm) of a closed outline (N, 2)."""
    x, y = corners.T
    next_x, next_y = np.roll(corners, -1, axis=0).T
    cross = x * next_y - next_x * y
    area = float(cross.sum())
    if area == 0.0:
        return float(x.mean()), float(y.mean())
    return (
        float(((x + next_x) * cross).sum() / (3.0 * area)),
        float(((y + next_y) * cross).sum() / (3.0 * area)),
    )


def moved_by(event: pygame.event.Event, hand: Point, start: Point) -> Point | None:
    """Where the hand (mm), which took hold at `start`, goes by a key; None for a key that does not move it."""
    if event.key not in WAYS:
        return None
    step = LONG_STEP_MM if event.mod & pygame.KMOD_SHIFT else STEP_MM
    way = WAYS[event.key]
    from_start = np.array([hand[0] + step * way[0] - start[0], hand[1] + step * way[1] - start[1]])
    from_start *= min(1.0, REACH_MM / max(float(np.hypot(*from_start)), REACH_MM))
    return start[0] + float(from_start[0]), start[1] + float(from_start[1])


def why_not(part: str | None) -> str:
    """Why the part pointed at cannot be taken hold of."""
    if part is None or part not in PARTS:
        return "Point at a structure first: Left and Right go from one to the next."
    return f"Only bones can be taken hold of, not the {PARTS[part].short}."
