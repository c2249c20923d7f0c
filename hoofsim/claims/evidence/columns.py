"""The columns of an evidence table: the one place that names them and says what each means."""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True)
class Column:
    """One column. `required`: every row must fill it."""

    name: str
    meaning: str
    required: bool = False


ABOUT_THE_FILM: Final = (
    Column("case", "the foot's own word or number; a baseline and a later film of one foot share it", True),
    Column("film", "'baseline' for the film taken before, 'case' for the one in question", True),
    Column("reading_error_mm", "standard error of a marked point along each axis, in mm", True),
    Column("mm_per_unit", "size of one unit of the coordinates, in mm (1 when they are in mm already)"),
    Column("known_length_mm", "or: true length of a marker on the film, whose ends are ruler_a and ruler_b"),
    Column("toe_points", "side to which the toe points on the film: 'right' (taken when empty) or 'left'"),
    Column("y_points", "'up' (taken when empty) or 'down', as image coordinates have it"),
    Column("founder_marker", "what the point 'founder' is: 'firm_horn' or 'hairline'"),
    Column(
        "tip_lost",
        "'yes' when bone is missing at the tip or it is lipped, 'no' when it is whole; empty: not said",
    ),
)

MARKS: Final[dict[str, str]] = {
    "ruler_a": "one end of the marker of known length",
    "ruler_b": "its other end",
    "ground_a": "a point on the ground's surface",
    "ground_b": "another, at least 50 mm away",
    "founder": "marker at the top of the dorsal wall, for the founder distance",
}
"""Points that are no landmarks of the foot."""

LANDMARKS: Final[dict[str, str]] = {
    "tip": "tip of the distal phalanx as the film shows it",
    "extensor_process": "top of the extensor process of the distal phalanx",
    "palmar_process": "lowest palmar point of the distal phalanx",
    "cor": "centre of rotation of the coffin joint: centre of the circle through the middle phalanx's condyle",
    "toe": "where the line of the dorsal wall meets the bearing surface",
    "toe_hairline": "dorsal wall at the hairline",
    "heel_ground": "palmar end of the bearing surface at the heels",
    "frog_point": "true point of the frog",
    "p2_dorsal_distal": "dorsal face of the middle phalanx, lower point",
    "p2_dorsal_proximal": "dorsal face of the middle phalanx, upper point",
    "breakover": "where the foot breaks over: most dorsal contact with the ground",
    "sole_under_tip": "sole surface straight below the tip",
    "sole_under_palmar_process": "sole or frog surface straight below the palmar process",
    "wall_outer_middle": "outer dorsal wall a third of the way down",
    "p3_dorsal_proximal": "dorsal face of the distal phalanx, top",
    "p3_dorsal_middle": "dorsal face of the distal phalanx, middle",
    "p3_dorsal_distal": "dorsal face of the distal phalanx, low down",
    "wall_inner_proximal": "inner face of the dorsal horn, opposite p3_dorsal_proximal",
    "wall_inner_middle": "inner face of the dorsal horn, opposite p3_dorsal_middle",
    "wall_inner_distal": "inner face of the dorsal horn, opposite p3_dorsal_distal",
}

REQUIRED_LANDMARKS: Final = (
    "tip",
    "extensor_process",
    "palmar_process",
    "cor",
    "toe",
    "toe_hairline",
    "heel_ground",
)


def point_columns(name: str) -> tuple[str, str]:
    """The two columns of a point."""
    return f"{name}_x", f"{name}_y"


def all_columns() -> list[Column]:
    """Every column in order, points as their two coordinates."""
    columns = list(ABOUT_THE_FILM)
    for name, meaning in {**LANDMARKS, **MARKS}.items():
        for column, way in zip(point_columns(name), ("along the film", "across it"), strict=True):
            columns.append(Column(column, f"{meaning}; {way}", name in REQUIRED_LANDMARKS))
    return columns
