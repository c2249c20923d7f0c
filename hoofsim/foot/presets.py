"""Ready feet: each a few values that differ from the sound foot, with one sentence on what it is."""

from collections.abc import Mapping
from dataclasses import dataclass

from hoofsim.errors import BadInput, nearest
from hoofsim.foot.parameters import DEFAULTS


@dataclass(frozen=True)
class Preset:
    """A named foot: `changes` from the sound foot's values."""

    name: str
    label: str
    sentence: str
    changes: Mapping[str, float]

    @property
    def values(self) -> dict[str, float]:
        """Every control's value for this foot."""
        return {**DEFAULTS, **self.changes}


_FAILED: Mapping[str, float] = {
    "laminae_percent": 12, "laminae_distal_percent": 30, "quarters_percent": 70, "healed_rotation_deg": 6,
    "sole_depth_mm": 14, "sole_clearance_mm": 5, "toe_change_mm": 6, "heel_change_mm": 3,
}  # fmt: skip

_PRESETS = (
    Preset("sound", "Sound foot", "A sound front foot of a 500 kg horse.", {}),
    Preset("long_toe_low_heel", "Long toe, low heel", "The toe has run forward and the heels are low.",
           {"toe_change_mm": 16, "heel_change_mm": -8, "breakover_setback_mm": 5}),
    Preset("overgrown_heel", "Overgrown heel", "The heels have grown tall and tip the whole foot.", {"heel_change_mm": 18}),
    Preset("steep", "Steep foot", "An upright foot whose bone and wall agree with each other.",
           {"hoof_angle_deg": 58, "palmar_angle_deg": 8, "heel_height_mm": 36, "dorsal_wall_length_mm": 84}),
    Preset("pony", "Pony", "A small, compact foot of a 220 kg pony.",
           {"body_mass_kg": 220, "hoof_angle_deg": 54, "palmar_angle_deg": 5, "dorsal_wall_length_mm": 63,
            "heel_height_mm": 20, "sole_depth_mm": 10, "sole_clearance_mm": 2, "p3_dorsal_length_mm": 38.5,
            "wall_to_bone_mm": 12, "lucent_zone_mm": 5.5, "tip_to_frog_mm": 8, "breakover_setback_mm": 8,
            "laminar_width_mm": 58}),
    Preset("failed_laminae", "Failed laminae, rotated",
           "Most dorsal laminae have let go; the bone has turned and healed so, and the sole followed half-way.", _FAILED),
    Preset("failed_laminae_sole_stayed", "Failed laminae, sole stayed",
           "The same failed foot, had sole and frog stayed with the wall.", {**_FAILED, "healed_sole_follows_percent": 0}),
    Preset("failed_laminae_sole_carried", "Failed laminae, sole carried",
           "The same failed foot, had sole and frog ridden with the bone.", {**_FAILED, "healed_sole_follows_percent": 100}),
    Preset("sunk", "Sunk bone", "The bone has dropped in the capsule without turning.",
           {"laminae_percent": 35, "quarters_percent": 35, "healed_sinking_mm": 7, "sole_depth_mm": 14}),
)  # fmt: skip

PRESETS: Mapping[str, Preset] = {preset.name: preset for preset in _PRESETS}


def preset(name: str) -> Preset:
    """The preset called `name`; `BadInput` naming the nearest one if there is none."""
    if name not in PRESETS:
        raise BadInput(f"unknown foot '{name}': {nearest(name, PRESETS)}")
    return PRESETS[name]
