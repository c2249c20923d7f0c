"""Soft tissue pressed between two hard ones: soft, then stiff past a knee, then locking. Needs no bond.

Pressure against compressive strain e: E0 e + (E1 - E0) ramp(e - knee) + E_lock ramp(e - lock). A modelling choice.
"""

from dataclasses import dataclass

import numpy as np

from hoofsim.mechanics.elements.one_sided import one_sided
from hoofsim.mechanics.types import Array, LineLaw, Numbers

FIRST_WIDTH = 0.02
LOCK_WIDTH = 0.1


@dataclass(frozen=True)
class CompressionConstants:
    """Moduli in MPa, strains, thickness in mm; arrays that broadcast against the separations."""

    small: Array
    large: Array
    knee: Array
    locking: Array
    lock: Array
    thickness: Array


def compression(n: Numbers, c: CompressionConstants) -> LineLaw:
    """Energy per area (N/mm), force (dE/dn, MPa, negative when pressed) and stiffness for separation n (mm, opening +)."""
    strain = -n / c.thickness
    energy, pressure, slope = one_sided(strain, FIRST_WIDTH)
    energy, pressure, slope = c.small * energy, c.small * pressure, c.small * slope
    knee_energy, knee_force, knee_slope = one_sided(strain - 0.5 * c.knee, c.knee)
    extra = c.large - c.small
    energy = energy + extra * knee_energy
    pressure = pressure + extra * knee_force
    slope = slope + extra * knee_slope
    past = strain.real > c.lock
    if np.any(past):
        lock_energy, lock_force, lock_slope = one_sided(strain - c.lock, LOCK_WIDTH)
        energy = energy + c.locking * lock_energy
        pressure = pressure + c.locking * lock_force
        slope = slope + c.locking * lock_slope
    return LineLaw(c.thickness * energy, -pressure, slope / c.thickness)
