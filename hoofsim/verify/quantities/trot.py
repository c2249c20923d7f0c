"""The trot: moment at the coffin joint, force on the navicular, breakover, and wrapping against joint force."""

from hoofsim.model import Foot
from hoofsim.verify.quantities.stance import (
    MASS_KG,
    PERCENT,
    breakover_starts,
    coffin_moment,
    over_stance,
    peak,
)
from hoofsim.verify.quantities.standing import joint_force, read


def peak_coffin_moment() -> float:
    """Peak moment of the ground's force about the coffin joint, N mm per kg of body mass."""
    return float(coffin_moment("trot").max())


def peak_navicular_force() -> float:
    """Peak force of the tendon on the navicular bone, N per kg of body mass."""
    return peak("trot", "navicular_load") / MASS_KG


def breakover_lever() -> float:
    """Mean lever of the ground's force about the coffin joint while the heels are off the ground, mm."""
    return float(over_stance("trot", "ground_force_lever")[breakover_starts("trot") <= PERCENT].mean())


def breakover_share() -> float:
    """Share of the stance with the heels off the ground, %."""
    return 100.0 - breakover_starts("trot")


def wrapping_over_joint_force() -> float:
    """Force where the tendon bends round the navicular over the bone-to-bone force of the coffin joint, at peak load."""
    loaded = Foot("sound").load("trot", 50.0)
    return read(loaded, "navicular_load") / joint_force(loaded)
