"""Every number a person may set, with its meaning, unit, range and source: the one table of controls.

A foot is nothing but values for these names, so a pony, a steep foot or a measured foot is another set of values.
Statuses: `abstract`, `second-hand`, `memory`, `practice` as in `hoofsim.sources`; `choice` marks a modelling choice.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from hoofsim.errors import BadInput, nearest
from hoofsim.units import shown_unit

Group = Literal["shape", "trim", "bonds", "tendon", "load", "tissue"]
Status = Literal["abstract", "second-hand", "memory", "practice", "choice"]

GROUP_TITLES: Mapping[Group, str] = {
    "shape": "Shape of the foot",
    "trim": "Trim and ground",
    "bonds": "Bonds",
    "tendon": "Tendon and bone tip",
    "load": "Load and limb",
    "tissue": "Tissue constants (uncertain)",
}


@dataclass(frozen=True)
class Parameter:
    """One control. `spread` is one standard deviation (same unit) where the value is uncertain, else None."""

    name: str
    label: str
    meaning: str
    unit: str
    default: float
    low: float
    high: float
    group: Group
    source: str
    status: Status
    spread: float | None = None


def _shape(
    name: str,
    label: str,
    meaning: str,
    unit: str,
    default: float,
    low: float,
    high: float,
    source: str = "",
    status: Status = "choice",
    spread: float | None = None,
) -> Parameter:
    return Parameter(name, label, meaning, unit, default, low, high, "shape", source, status, spread)


SHAPE = (
    _shape("body_mass_kg", "Body mass", "Mass of the whole horse.", "kg", 500, 100, 900),
    _shape("hoof_angle_deg", "Hoof angle", "Dorsal wall to the bearing surface, before any trim.", "deg",
           52, 42, 62, "R1", "abstract", 3.9),
    _shape("palmar_angle_deg", "Palmar angle", "Underside of the distal phalanx to the bearing surface, before any trim.",
           "deg", 4, -4, 14, "", "practice", 1.5),
    _shape("dorsal_wall_length_mm", "Dorsal wall length", "Toe hairline to the projected toe, before any trim.", "mm",
           88.5, 45, 120),
    _shape("heel_height_mm", "Heel height", "Heel hairline above the bearing surface, before any trim.", "mm", 25, 10, 60),
    _shape("sole_depth_mm", "Sole depth", "Tip of the distal phalanx down to the sole surface, dermis and horn together.",
           "mm", 12.5, 4, 25, "", "practice", 2.5),
    _shape("sole_clearance_mm", "Sole clearance", "Sole surface under the tip above the bearing surface.", "mm", 2.5, 0, 8),
    _shape("p3_dorsal_length_mm", "Bone length", "Extensor process to tip of the distal phalanx; scales every bone.", "mm",
           54.1, 28, 70),
    _shape("wall_to_bone_mm", "Wall to bone", "Outer dorsal wall to the dorsal face of the bone, at right angles.", "mm",
           15.5, 9, 26, "", "practice", 1.0),
    _shape("lucent_zone_mm", "Lucent zone", "Soft layer between inner wall and bone, at right angles.", "mm",
           7, 4, 15, "R2", "abstract", 0.5),
    _shape("tip_to_frog_mm", "Tip to frog",
           "True frog point behind the tip, along the bone's underside. About 10 in one practice's rule, 17-25 in others.",
           "mm", 10, 5, 35, "R10", "practice", 5.0),
    _shape("healed_rotation_deg", "Healed rotation", "Turn of the bone in the capsule that is already there at rest.",
           "deg", 0, 0, 20),
    _shape("healed_sinking_mm", "Healed sinking", "Drop of the bones in the capsule that is already there at rest.", "mm",
           0, 0, 12),
    _shape("healed_sole_follows_percent", "Sole that followed",
           "Share of the healed displacement that sole and frog made with the bone; what is left they made with the wall.",
           "%", 50, 0, 100),
)  # fmt: skip

TRIM = (
    Parameter("heel_change_mm", "Heel change", "Horn added to (or, negative, taken from) the heels; tips the whole foot.",
              "mm", 0, -18, 30, "trim", "", "choice"),
    Parameter("toe_change_mm", "Toe change", "Horn added at the toe along the wall (negative: taken away).",
              "mm", 0, -15, 40, "trim", "", "choice"),
    Parameter("breakover_setback_mm", "Breakover setback", "Ground contact of the toe behind the projected toe.",
              "mm", 11.4, 0, 35, "trim", "", "practice"),
    Parameter("sole_change_mm", "Sole change", "Sole horn grown (or, negative, pared) under the tip.",
              "mm", 0, -6, 6, "trim", "", "choice"),
    Parameter("wedge_deg", "Wedge", "Slope of the surface under the foot, heels raised positive.",
              "deg", 0, -8, 15, "trim", "", "choice"),
    Parameter("bed_depth_mm", "Yielding bed", "Depth of yielding ground; 0 is firm ground.",
              "mm", 0, 0, 60, "trim", "", "choice"),
)  # fmt: skip


def _bond(name: str, label: str, meaning: str) -> Parameter:
    return Parameter(name, label, meaning, "%", 100, 0, 100, "bonds", "", "choice")


BONDS = (
    _bond(
        "laminae_percent",
        "Laminae, whole wall",
        "Attached share of the dorsal laminae; multiplies the three thirds.",
    ),
    _bond(
        "laminae_proximal_percent",
        "Laminae, top third",
        "Attached share of the top third of the dorsal laminae.",
    ),
    _bond(
        "laminae_middle_percent",
        "Laminae, middle third",
        "Attached share of the middle third of the dorsal laminae.",
    ),
    _bond(
        "laminae_distal_percent",
        "Laminae, lower third",
        "Attached share of the lower third of the dorsal laminae.",
    ),
    _bond(
        "quarters_percent", "Quarters and heels", "Attached share of the laminae of the quarters and heels."
    ),
    _bond(
        "sole_to_bone_percent", "Sole to bone", "Attached share of the solar dermis between bone and sole."
    ),
    _bond("sole_to_wall_percent", "Sole to wall", "Attached share of the junction between sole and wall."),
)

TENDON = (
    Parameter("tendon_cut", "Tendon cut", "1: the deep digital flexor tendon is cut; 0: whole.", "", 0, 0, 1, "tendon",
              "", "choice"),
    Parameter("tendon_pull_percent", "Tendon pull", "Scales the whole tension of the deep digital flexor tendon.",
              "%", 100, 0, 300, "tendon", "", "choice"),
    Parameter("tendon_tone_n", "Added muscle tone", "Steady muscle tension added to the load case's own.", "N",
              0, 0, 2000, "tendon", "", "choice"),
    Parameter("tip_lost_mm", "Bone tip lost", "Bone worn from the tip: what a radiograph shows, not what moved.", "mm",
              0, 0, 15, "tendon", "R13", "second-hand"),
)  # fmt: skip

LOAD = (
    Parameter("load_percent", "Load share", "Scales the load case's force.", "%", 100, 10, 150, "load", "", "choice"),
    Parameter("stance_percent", "Moment of the stance", "Share of the stance elapsed, for walk and trot.", "%",
              50, 0, 100, "load", "", "choice"),
    Parameter("posture_spring_n_per_mm", "Limb hold", "How firmly the limb holds the coffin joint horizontally.",
              "N/mm", 5, 1, 60, "load", "", "choice", 3.0),
)  # fmt: skip


def _tissue(
    name: str,
    label: str,
    meaning: str,
    unit: str,
    default: float,
    low: float,
    high: float,
    spread: float,
    source: str = "",
    status: Status = "choice",
) -> Parameter:
    return Parameter(name, label, meaning, unit, default, low, high, "tissue", source, status, spread)


TISSUE = (
    _tissue("tendon_stiffness_n_per_mm", "Tendon stiffness", "Deep flexor tendon with its accessory ligament.", "N/mm",
            247, 80, 500, 11, "F9", "abstract"),
    _tissue("standing_tension_n_per_kg", "Standing tension",
            "Tendon tension of the untrimmed standing foot; set so that the centre of pressure lies where it was measured.",
            "N/kg", 1.4, 0.4, 3, 0.25, "F2", "second-hand"),
    _tissue("pastern_lever_mm", "Tendon lever, pastern joint", "Lever of the tendon at the pastern joint.", "mm",
            24, 10, 40, 4, "", "memory"),
    _tissue("fetlock_lever_mm", "Tendon lever, fetlock", "Lever of the tendon at the fetlock joint.", "mm",
            36, 20, 55, 4, "", "memory"),
    _tissue("laminar_small_modulus_mpa", "Laminae, first stiffness", "Laminar junction at small strain.", "MPa",
            0.15, 0.02, 1, 0.05, "F11", "abstract"),
    _tissue("laminar_large_modulus_mpa", "Laminae, main stiffness", "Laminar junction beyond the knee.", "MPa",
            7.58, 2, 20, 2.0, "F11", "abstract"),
    _tissue("laminar_shear_modulus_mpa", "Laminae, shear stiffness", "Proximodistal shear of the laminar junction.", "MPa",
            5.38, 1, 12, 1.49, "F10", "abstract"),
    _tissue("laminar_knee_strain", "Laminae, knee", "Strain at which the junction turns stiff.", "1",
            0.12, 0.03, 0.3, 0.03),
    _tissue("laminar_strength_mpa", "Laminae, strength", "Largest traction the attached junction carries.", "MPa",
            2.2, 1, 4, 0.4, "F11b", "abstract"),
    _tissue("laminar_rupture_strain", "Laminae, rupture",
            "Strain at which nothing is carried; the fall from the peak is centred on the published failure strain 0.50.",
            "1", 0.60, 0.55, 1.2, 0.05, "F11", "abstract"),
    _tissue("laminar_width_mm", "Laminae, width", "Width of dorsal wall that the sagittal section stands for.", "mm",
            80, 40, 110, 8),
    _tissue("solar_dermis_modulus_mpa", "Solar dermis, first stiffness", "Solar dermis at small strain.", "MPa",
            0.3, 0.05, 2, 0.1),
    _tissue("solar_dermis_stiff_modulus_mpa", "Solar dermis, main stiffness", "Solar dermis beyond the knee.", "MPa",
            5, 1, 15, 1.5),
    _tissue("solar_dermis_thickness_mm", "Solar dermis, thickness", "Soft layer between bone and sole.", "mm",
            10, 3, 14, 1.5, "", "practice"),
    _tissue("junction_stiffness_n_per_mm", "Sole-to-wall stiffness", "Whole junction between sole and wall.", "N/mm",
            600, 150, 2400, 200),
    _tissue("wall_modulus_mpa", "Wall horn", "Elastic modulus of the wall's horn, which sets its bending at the toe.", "MPa",
            762, 200, 3000, 295, "F13", "abstract"),
    _tissue("frog_modulus_mpa", "Frog horn", "Elastic modulus of the frog, which sets its give on the ground.", "MPa",
            9.9, 4, 80, 0.6, "F13", "abstract"),
    _tissue("cushion_modulus_mpa", "Digital cushion", "First stiffness of the digital cushion in compression.", "MPa",
            0.1, 0.02, 1, 0.05),
    _tissue("friction", "Friction", "Coefficient of friction of hoof on ground.", "1", 0.6, 0.2, 1.0, 0.1),
)  # fmt: skip

PARAMETERS: tuple[Parameter, ...] = SHAPE + TRIM + BONDS + TENDON + LOAD + TISSUE
BY_NAME: Mapping[str, Parameter] = {parameter.name: parameter for parameter in PARAMETERS}
DEFAULTS: Mapping[str, float] = {parameter.name: float(parameter.default) for parameter in PARAMETERS}


def parameter(name: str) -> Parameter:
    """The parameter called `name`; `BadInput` naming the nearest one if there is none."""
    if name not in BY_NAME:
        raise BadInput(f"unknown control '{name}': {nearest(name, BY_NAME)}")
    return BY_NAME[name]


def checked(name: str, value: object) -> float:
    """`value` as a float, or `BadInput` saying the control, what was given and what is allowed."""
    control = parameter(name)
    unit = f" {control.unit}" if control.unit not in ("", "1") else ""
    allowed = f"allowed {control.low:g} to {control.high:g}{unit}"
    if isinstance(value, bool):
        value = float(value) if name == "tendon_cut" else None
    if not isinstance(value, int | float) and not hasattr(value, "__float__"):
        raise BadInput(f"{name} needs a number, {allowed}")
    number = float(value)
    if not math.isfinite(number) or not control.low <= number <= control.high:
        raise BadInput(f"{name} = {number:g}{unit} is out of range: {allowed}")
    if name == "tendon_cut" and number not in (0.0, 1.0):
        raise BadInput(f"tendon_cut = {number:g} must be 0 (whole) or 1 (cut)")
    return number


def setting_words(name: str, value: float) -> str:
    """Such as "heel change 10 mm", from a control's label and unit."""
    control = BY_NAME[name]
    if name == "tendon_cut":
        return "tendon cut" if value else "tendon whole"
    words = (control.label[0].lower() + control.label[1:], f"{value:g}", shown_unit(control.unit))
    return " ".join(filter(None, words))
