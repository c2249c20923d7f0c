"""What is said about a structure under the pointer: its name, one sentence, and its present number."""

from collections.abc import Mapping

from hoofsim.app.screens.sandbox.holding import HOLDABLE
from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.drawing.parts import PARTS
from hoofsim.measures.table import MEASURES
from hoofsim.units import show

# The one number that says most about a structure.
NUMBER_OF: Mapping[str, str] = {
    "p2": "p2_angle",
    "p3": "palmar_angle",
    "palmar_process": "ground_depth_palmar",
    "navicular": "navicular_load",
    "coffin_joint": "phalangeal_rotation",
    "flexor_tendon": "tendon_tension",
    "lamellar_zone": "lucent_zone_middle",
    "laminae": "laminar_stress_peak",
    "solar_dermis": "sole_pressure_tip",
    "solar_bonds": "sole_pressure_tip",
    "dorsal_wall": "hoof_angle",
    "capsule": "capsular_rotation",
    "sole": "sole_depth_tip",
    "frog": "frog_to_toe",
    "frog_point": "tip_to_frog",
    "tip": "ground_depth_tip",
    "cor": "toe_to_cor",
    "toe": "toe_to_cor",
    "extensor_process": "founder_distance",
    "firm_horn": "founder_distance",
    "breakover": "breakover_to_tip",
    "tendon_insertion": "tendon_insertion_angle",
    "heel_ground": "frog_to_heel",
    "ground_force": "centre_of_pressure",
    "tendon_force": "tendon_tension",
    "navicular_force": "navicular_load",
}


HOW_HELD = "Drag it to pull; by keys: Enter on the foot takes hold, arrows pull."


def number_words(part: str, values: Mapping[str, float | None], length_unit: str) -> str:
    """The measure's name and present value; empty for a part that has none."""
    name = NUMBER_OF.get(part)
    if name is None or values.get(name) is None:
        return ""
    measure = MEASURES[name]
    return f"{headed(measure.label)}: {show(values[name], measure.unit, length_unit)}"


def told(
    part: str, values: Mapping[str, float | None], length_unit: str, can_hold: bool = False
) -> list[tuple[str, str]]:
    """Lines (text, role) for a tooltip; `can_hold`: the view lets a bone be taken hold of, so say how."""
    if part not in PARTS:
        return []
    known = PARTS[part]
    lines = [(headed(known.label), "small_bold"), (known.sentence, "small")]
    number = number_words(part, values, length_unit)
    if number:
        lines.append((number, "small_bold"))
    return [*lines, (HOW_HELD, "small")] if can_hold and part in HOLDABLE else lines
