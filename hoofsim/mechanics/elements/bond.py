"""The bond between two tissues: J-shaped pull, a peak, then softening to nothing (a cohesive law) with memory.

Traction against effective strain e = sqrt(weight_n n^2 + weight_s s^2) / thickness:
  up to the peak   T(e) = E0 e + (E1 - E0) ramp(e - knee)         (soft toe, then stiff)
  after the peak   T(e) = strength (1 - 3 x^2 + 2 x^3),  x = (e - peak) / (rupture - peak)
  below the largest strain k seen before   T(e) = (1 - damage(k)) times the rising curve: damage never heals.
Energy is that of the next step: stored energy plus what tearing further would take, so that its minimum already holds
the damage that the load does. Sources of the constants: F10, F11, F11b; the shape of the knee is a modelling choice.
"""

from dataclasses import dataclass

import numpy as np

from hoofsim.mechanics.elements.one_sided import one_sided, ramp
from hoofsim.mechanics.types import Array, Numbers, PlaneLaw

TINY_STRAIN = 1e-9
# Width over which a bond passes from pressed (no pull) to pulled, mm.
CLOSING_WIDTH_MM = 0.1


@dataclass(frozen=True)
class BondConstants:
    """Constants of a bond; arrays that broadcast against the separations.

    small, large: moduli E0, E1 (MPa); knee, rupture: strains; strength: peak traction (MPa); thickness: mm;
    weight_n, weight_s: how much normal and shear separation count (1 = as a pull along `large`); peak: strain at which the
    rising curve reaches `strength` (from `peak_strain`).
    """

    small: Array
    large: Array
    knee: Array
    strength: Array
    rupture: Array
    thickness: Array
    weight_n: Array
    weight_s: Array
    peak: Array


def peak_strain(small: Array, large: Array, knee: Array, strength: Array) -> Array:
    """Strain at which the rising curve, well past its knee, reaches `strength`."""
    return knee + (strength - small * knee) / large


def _rising(strain: Numbers, c: BondConstants) -> tuple[Numbers, Numbers, Numbers]:
    """Energy density, traction and slope of the undamaged rising curve."""
    energy, force, stiffness = one_sided(strain - 0.5 * c.knee, c.knee)
    extra = c.large - c.small
    return (
        0.5 * c.small * strain * strain + extra * energy,
        c.small * strain + extra * force,
        c.small + extra * stiffness,
    )


def envelope(strain: Numbers, c: BondConstants) -> tuple[Numbers, Numbers, Numbers]:
    """Work per volume, traction (MPa) and slope of the first, undamaged pull to `strain`."""
    peak = c.peak
    work, traction, slope = _rising(np.where(strain.real < peak, strain, peak), c)
    span = c.rupture - peak
    x = (strain - peak) / span
    x = np.where(x.real <= 0.0, 0.0, np.where(x.real >= 1.0, 1.0, x))
    after = strain.real > peak
    softened = c.strength * (1.0 - 3.0 * x**2 + 2.0 * x**3)
    softened_work = c.strength * span * (x - x**3 + 0.5 * x**4)
    softened_slope = c.strength * (-6.0 * x + 6.0 * x**2) / span
    return (
        work + np.where(after, softened_work, 0.0),
        np.where(after, softened, traction),
        np.where(after, softened_slope, slope),
    )


def damage(worst: Array, c: BondConstants) -> Array:
    """Share of stiffness lost, 0 to 1, after the largest strain `worst` so far."""
    past = worst > c.peak
    if not past.any():
        return np.zeros(np.broadcast_shapes(worst.shape, np.shape(c.peak)))
    traction = envelope(worst, c)[1]
    rising = _rising(worst, c)[1]
    return np.where(past, 1.0 - traction / np.where(past, rising, 1.0), 0.0)


def effective_strain(n: Numbers, s: Numbers, c: BondConstants, two_sided: bool) -> Numbers:
    """The strain e of the law from separations n (opening positive) and s, mm."""
    q = n if two_sided else ramp(n, CLOSING_WIDTH_MM)[0]
    return np.sqrt(c.weight_n * q * q + c.weight_s * s * s) / c.thickness


def _density(strain: Numbers, worst: Array, c: BondConstants) -> tuple[Numbers, Numbers, Numbers]:
    """Energy density, traction and slope at `strain` given the worst strain before."""
    if not np.any(np.maximum(strain.real, worst) > c.peak):
        return _rising(strain, c)
    left = 1.0 - damage(worst, c)
    back_energy, back_traction, back_slope = _rising(np.where(strain.real < worst, strain, worst), c)
    on_energy, on_traction, on_slope = envelope(strain, c)
    start = envelope(worst, c)[0]
    further = strain.real >= worst
    return (
        left * back_energy + np.where(further, on_energy - start, 0.0),
        np.where(further, on_traction, left * back_traction),
        np.where(further, on_slope, left * back_slope),
    )


def bond(n: Numbers, s: Numbers, worst: Array, c: BondConstants, two_sided: bool) -> PlaneLaw:
    """Energy per attached area (N/mm) and derivatives for separations n (opening positive) and s, mm.

    `worst` is the largest effective strain the bond has seen. `two_sided`: the bond also resists closing (used where
    both local directions lie in the junction's plane); otherwise closing is left to the compression law.
    """
    if two_sided:
        q, q_n, q_nn = n, np.ones_like(n), np.zeros_like(n)
    else:
        q, q_n, q_nn = ramp(n, CLOSING_WIDTH_MM)
    square = c.weight_n * q * q + c.weight_s * s * s
    stretch = np.sqrt(square + (TINY_STRAIN * c.thickness) ** 2)
    energy, traction, slope = _density(stretch / c.thickness, worst, c)
    over = traction / stretch
    curve = (slope / c.thickness - over) / (stretch * stretch)
    along_n = c.weight_n * q * q_n
    along_s = c.weight_s * s
    return PlaneLaw(
        energy * c.thickness,
        over * along_n,
        over * along_s,
        over * c.weight_n * (q_n * q_n + q * q_nn) + curve * along_n * along_n,
        curve * along_n * along_s,
        over * c.weight_s + curve * along_s * along_s,
    )
