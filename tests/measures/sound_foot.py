"""Landmarks of a sound 500 kg foot written out by hand, mm, so that the measures are tested on their own."""

import numpy as np

_P3 = {
    "tip": (57.6, 15.0),
    "extensor_process": (24.3, 57.6),
    "palmar_process": (-18.3, 20.3),
    "p3_dorsal_proximal": (25.9, 55.5),
    "p3_dorsal_middle": (40.9, 36.3),
    "p3_dorsal_distal": (56.0, 17.1),
}
_LIMB = {
    "cor": (0.0, 56.4),
    "p2_dorsal_distal": (13.8, 67.9),
    "p2_dorsal_proximal": (-14.0, 99.5),
}
_CAPSULE = {
    "toe": (89.0, 0.0),
    "breakover": (77.6, 0.0),
    "toe_hairline": (34.8, 69.3),
    "firm_horn": (40.3, 62.3),
    "wall_outer_middle": (53.3, 45.7),
    "wall_inner_proximal": (31.4, 59.8),
    "wall_inner_middle": (46.4, 40.6),
    "wall_inner_distal": (61.5, 21.4),
    "heel_ground": (-51.0, 0.0),
}
_PLATE = {
    "sole_under_tip": (57.6, 2.5),
    "sole_under_palmar_process": (-18.3, 2.5),
    "frog_point": (46.701, 2.5),
}
FRAMES = {"p3": _P3, "limb": _LIMB, "capsule": _CAPSULE, "plate": _PLATE}
"""The same landmarks by the body that they belong to."""


def sound_points() -> dict[str, np.ndarray]:
    """Landmark name -> (2,) mm."""
    return {name: np.array(xy) for body in FRAMES.values() for name, xy in body.items()}
