"""Where the true frog point lies, in the distal phalanx's frame and in the capsule's frame, in mm.

The distal phalanx's frame is the line from its tip to its palmar process; the capsule's frame is the line
from the heel's ground point to the projected toe. Neither turns with respect to its body when the whole foot
is tipped.
"""

from typing import Final

from hoofsim.frames import Array
from hoofsim.measures.describe import describe
from hoofsim.measures.distances import along, unit_vector
from hoofsim.measures.measure import Points


def tip_to_frog(points: Points) -> Array:
    """How far palmar of the true tip the frog point lies, along the line tip to palmar process."""
    return along(points["frog_point"] - points["tip"], unit_vector(points["tip"], points["palmar_process"]))


def tip_to_frog_seen(points: Points) -> Array:
    """As `tip_to_frog`, but from the tip that the radiograph shows: a lost tip reads as frog movement."""
    return along(
        points["frog_point"] - points["tip_seen"], unit_vector(points["tip_seen"], points["palmar_process"])
    )


def capsule_axis(points: Points) -> Array:
    """Unit vector (..., 2) along the bearing surface, from the heel's ground point to the projected toe."""
    return unit_vector(points["heel_ground"], points["toe"])


def tip_to_frog_capsule(points: Points) -> Array:
    """How far palmar of the true tip the frog point lies, along the bearing surface."""
    return along(points["tip"] - points["frog_point"], capsule_axis(points))


def frog_to_toe(points: Points) -> Array:
    """Frog point to the projected toe, along the bearing surface."""
    return along(points["toe"] - points["frog_point"], capsule_axis(points))


def frog_to_heel(points: Points) -> Array:
    """Heel's ground point to the frog point, along the bearing surface."""
    return along(points["frog_point"] - points["heel_ground"], capsule_axis(points))


_PALMAR = ("tip", "palmar_process")
_BEARING = ("heel_ground", "toe")

FROG: Final = (
    describe(
        "tip_to_frog",
        "tip to frog, bone's frame",
        "How far behind the true tip of the distal phalanx the true frog point lies, along the line from "
        "tip to palmar process. Tipping the whole foot does not change it.",
        "positive when the frog point is behind (palmar of) the tip",
        "mm",
        "R10",
        (*_PALMAR, "frog_point"),
        tip_to_frog,
    ),
    describe(
        "tip_to_frog_seen",
        "tip to frog, tip as seen",
        "As tip to frog, but from the tip that a radiograph shows: bone lost at the tip shortens it although "
        "nothing has moved.",
        "positive when the frog point is behind the tip",
        "mm",
        "R13",
        ("tip_seen", "palmar_process", "frog_point"),
        tip_to_frog_seen,
    ),
    describe(
        "tip_to_frog_capsule",
        "tip to frog, capsule's frame",
        "How far behind the true tip the true frog point lies, along the bearing surface from heel to toe.",
        "positive when the frog point is behind the tip",
        "mm",
        "R10",
        ("tip", "frog_point", *_BEARING),
        tip_to_frog_capsule,
    ),
    describe(
        "frog_to_toe",
        "frog to toe",
        "Distance from the true frog point to the projected toe, along the bearing surface.",
        "larger is further",
        "mm",
        "R10",
        ("frog_point", *_BEARING),
        frog_to_toe,
    ),
    describe(
        "frog_to_heel",
        "frog to heel",
        "Distance from the heel's ground point to the true frog point, along the bearing surface.",
        "larger is further",
        "mm",
        "R10",
        ("frog_point", *_BEARING),
        frog_to_heel,
    ),
)
