"""The foot's display list with the options that the window uses, and the view that shows it as large as can be."""

from collections.abc import Callable
from typing import Any

from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import Bounds, DisplayList
from hoofsim.drawing.foot_picture import bare_foot, foot_picture
from hoofsim.drawing.foot_shown import Options

FORCES = frozenset({"load", "ground_force", "tendon_force", "navicular_force", "extensor_force"})
# What a presenter can hide, each under a digit.
LAYERS: tuple[tuple[str, str, frozenset[str]], ...] = (
    ("1", "skin", frozenset({"skin", "coronet"})),
    ("2", "capsule", frozenset({"capsule"})),
    ("3", "wall", frozenset({"dorsal_wall", "white_line", "coronary_corium"})),
    ("4", "sole, frog", frozenset({"sole", "frog"})),
    ("5", "soft tissue", frozenset({"digital_cushion", "solar_dermis", "lamellar_zone"})),
    ("6", "bonds", frozenset({"laminae", "solar_bonds"})),
    ("7", "tendons", frozenset({"flexor_tendon", "extensor_tendon", "bursa"})),
    ("8", "ligaments", frozenset({"collateral_ligament", "impar_ligament"})),
    ("9", "forces", FORCES),
)
HALVINGS = 7


def hidden_parts(layers: frozenset[str]) -> frozenset[str]:
    """The parts of the hidden layers, by their digits."""
    return frozenset(part for digit, _, parts in LAYERS if digit in layers for part in parts)


def picture_of(foot: Any, baseline: Any, **options: Any) -> DisplayList:
    """The foot as a display list; `options` as in `hoofsim.drawing.foot_shown.Options`."""
    return foot_picture(foot, baseline=baseline, show=Options(**options))


def bare_picture_of(foot: Any, baseline: Any, **options: Any) -> tuple[DisplayList, list[str]]:
    """The foot without any words, as large as it can be, and the notes that belong to it, for the window to set.

    Forces keep their arrows: their names and numbers are told when pointed at.
    """
    return bare_foot(foot, baseline=baseline, show=Options(**options | {"labels": (), "force_words": False}))


def largest_view(size: tuple[int, int], text_pixels: float, build: Callable[[float], Bounds]) -> Camera:
    """The camera that shows the picture as large as the window allows, with type of a fixed size in pixels.

    `build(text_mm)` gives the bounds of the picture with type of that size: the nearer the view, the smaller the type
    in millimetres, so the largest scale is sought by halving.
    """
    low, high = 0.2, max(size) / 100.0
    best = Camera.fit(build(text_pixels / low), size)
    for _ in range(HALVINGS):
        scale = (low + high) / 2
        left, bottom, right, top = build(text_pixels / scale)
        if (right - left) * scale <= 0.97 * size[0] and (top - bottom) * scale <= 0.97 * size[1]:
            low = scale
            best = Camera(scale, ((left + right) / 2, (bottom + top) / 2), size)
        else:
            high = scale
    return best
