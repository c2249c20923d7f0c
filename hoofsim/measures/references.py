"""Ranges that a sound foot is expected in, each with its source, and the smallest change worth reading."""

from typing import Final

from hoofsim.measures.measure import Reference

SMALLEST_READABLE: Final = 2.0
"""Degrees or millimetres (R9): smaller changes are not readable on a radiograph."""
SMALLEST_READABLE_RATIO: Final = 0.02
"""For a ratio of ground lengths: 2 mm (R9) on about 130 mm, rounded up. A choice."""

REFERENCES: Final[dict[str, Reference]] = {
    "hoof_angle": Reference(47.9, 55.7, "R1", "abstract", "51.8 ± 3.9 deg, 225 hooves, mixed breeds"),
    "capsular_rotation": Reference(
        -3.5,
        2.0,
        "R11",
        "abstract",
        "parallel when sound, within the 2 deg that a radiograph shows (R9); −1.7 ± 1.8 deg in 10 small horses (R4)",
    ),
    "phalangeal_rotation": Reference(
        0.5, 6.1, "R4", "abstract", "3.3 ± 2.8 deg, 10 small horses before a trim"
    ),
    "palmar_angle": Reference(3.0, 8.0, "practice", "practice", "3 to 8 deg"),
    "founder_distance": Reference(1.9, 6.3, "R3", "memory", "4.1 ± 2.2 mm with the firm-horn marker"),
    "wall_to_bone_proximal": Reference(
        15.0, 19.0, "practice", "practice", "15 to 19 mm, equal top and bottom"
    ),
    "wall_to_bone_distal": Reference(15.0, 19.0, "practice", "practice", "15 to 19 mm, equal top and bottom"),
    "lucent_zone_middle": Reference(
        0.0, 7.5, "R2", "abstract", "mean 6.9 mm in 32 sound controls; above 7.5 mm suggests laminitis"
    ),
    "tip_to_frog": Reference(
        8.0,
        25.0,
        "R10",
        "practice",
        "about 10 mm (read to 2 mm) by one rule of thumb, 17 to 25 mm by others",
    ),
    "ground_force_lever": Reference(
        10.0,
        15.0,
        "F2",
        "second-hand",
        "standing: centre of pressure 10 to 15 mm in front of the centre of rotation",
    ),
    "centre_of_pressure": Reference(
        62.0, 78.0, "F2", "abstract", "standing: 70 ± 8 mm from the toe, 6 horses"
    ),
}
