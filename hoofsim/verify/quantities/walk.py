"""The walk: the tendon's peak force and strain, and when breakover begins."""

from hoofsim.verify.quantities.stance import breakover_starts, peak

# F9 and the middle of F9b (memory).
TENDON_MODULUS_MPA = 843.0
TENDON_SECTION_MM2 = 150.0


def peak_tendon_force() -> float:
    """Peak tension of the deep flexor tendon over the stance, N."""
    return peak("walk", "tendon_tension")


def peak_tendon_strain() -> float:
    """Strain of the tendon itself at that tension, %: stress over modulus."""
    return 100.0 * peak_tendon_force() / (TENDON_MODULUS_MPA * TENDON_SECTION_MM2)


def breakover_share() -> float:
    """Share of the stance with the heels off the ground, %."""
    return 100.0 - breakover_starts("walk")
