"""The foot's display list with the options that the window uses."""

from typing import Any

from hoofsim.drawing.display_list import DisplayList
from hoofsim.drawing.foot_picture import foot_picture
from hoofsim.drawing.foot_shown import Options

# What a presenter can hide, each under a digit.
LAYERS: tuple[tuple[str, str, frozenset[str]], ...] = (
    ("1", "skin", frozenset({"skin", "coronet"})),
    ("2", "capsule", frozenset({"capsule"})),
    ("3", "wall", frozenset({"dorsal_wall", "white_line", "coronary_corium"})),
    ("4", "sole, frog", frozenset({"sole", "frog"})),
    ("5", "soft tissue", frozenset({"digital_cushion", "solar_dermis", "lamellar_zone"})),
    ("6", "bonds", frozenset({"laminae", "solar_bonds"})),
    ("7", "tendons", frozenset({"flexor_tendon", "extensor_tendon", "bursa"})),
    (
        "8",
        "ligaments",
        frozenset({"collateral_ligament", "impar_ligament"}),
    ),
    (
        "9",
        "forces",
        frozenset({"load", "ground_force", "tendon_force", "navicular_force", "extensor_force"}),
    ),
)


def hidden_parts(layers: frozenset[str]) -> frozenset[str]:
    """The parts of the hidden layers, by their digits."""
    return frozenset(part for digit, _, parts in LAYERS if digit in layers for part in parts)


def picture_of(foot: Any, baseline: Any, **options: Any) -> DisplayList:
    """The foot as a display list; `options` as in `hoofsim.drawing.foot_shown.Options`."""
    return foot_picture(foot, baseline=baseline, show=Options(**options))
