"""One radiograph of an evidence table: its points in the program's frame, and what was said of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from hoofsim.claims.evidence.columns import LANDMARKS
from hoofsim.errors import BadInput
from hoofsim.frames import Array

Marker = Literal["firm_horn", "hairline"]

BONE_LENGTH_MM = (20.0, 90.0)
SHORTEST_GROUND_MM = 50.0


@dataclass(frozen=True)
class Film:
    """One radiograph. `points`: landmark -> (2,) mm, toe to the right, y up, ground at y = 0 when `has_ground`.

    `error`: standard error of a point along each axis, mm. `tip_lost` is None when not said. `founder_marker` is None
    when no founder point was marked. `row` is the row of the table.
    """

    case: str
    film: Literal["baseline", "case"]
    row: int
    points: Mapping[str, Array]
    error: float
    has_ground: bool
    founder_marker: Marker | None
    tip_lost: bool | None


def into_frame(
    marks: Mapping[str, Array], scale: float, toe_right: bool, y_up: bool
) -> tuple[dict[str, Array], bool]:
    """Points in mm with the toe to the right and y up; level on the ground at y = 0 when two ground points are given.

    `marks` are in the film's own units. Gives the landmarks (and `founder`), and whether the ground was marked.
    """
    axes = np.array([scale if toe_right else -scale, scale if y_up else -scale])
    points = {name: xy * axes for name, xy in marks.items()}
    level = "ground_a" in points and "ground_b" in points
    if level:
        step = points["ground_b"] - points["ground_a"]
        if np.linalg.norm(step) < SHORTEST_GROUND_MM:
            raise BadInput(
                f"ground_a and ground_b are less than {SHORTEST_GROUND_MM:g} mm apart: mark them further apart"
            )
        along = step * np.sign(step[0] or 1.0) / np.linalg.norm(step)
        across = np.array([-along[1], along[0]])
        origin = points["ground_a"]
        points = {
            name: np.array([(xy - origin) @ along, (xy - origin) @ across]) for name, xy in points.items()
        }
    return {name: xy for name, xy in points.items() if name in LANDMARKS or name == "founder"}, level


def refuse_nonsense(points: Mapping[str, Array]) -> None:
    """BadInput, in words, for points that no foot with its toe to the right and y up can have."""
    tip, extensor, palmar = points["tip"], points["extensor_process"], points["palmar_process"]
    length = float(np.linalg.norm(tip - extensor))
    low, high = BONE_LENGTH_MM
    if not low <= length <= high:
        raise BadInput(
            f"tip to extensor_process is {length:.1f} mm, allowed {low:g} to {high:g} mm: check the scale"
        )
    if palmar[0] >= tip[0]:
        raise BadInput("palmar_process lies in front of the tip: check toe_points (right or left)")
    if extensor[1] <= tip[1] or points["toe_hairline"][1] <= points["toe"][1]:
        raise BadInput("the foot stands on its head: check y_points (up or down)")
    if points["toe"][0] <= points["toe_hairline"][0] or points["heel_ground"][0] >= points["toe"][0]:
        raise BadInput("the toe is not the foremost point: check toe, toe_hairline and heel_ground")
    if tip[0] > points["toe"][0]:
        raise BadInput("the tip lies in front of the toe: check tip and toe")
    if points["cor"][1] <= palmar[1]:
        raise BadInput("the centre of rotation (cor) lies below the palmar_process: check cor")
    for name, xy in points.items():
        if float(np.linalg.norm(xy - tip)) > 5.0 * length:
            raise BadInput(
                f"{name} lies {np.linalg.norm(xy - tip):.0f} mm from the tip, as no landmark of this foot can"
            )
