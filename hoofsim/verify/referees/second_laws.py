"""The tissues' force laws written a second time, for the referee only: from their description, not from the elements.

Every one-sided law starts from a polynomial object (the smooth step 3 t^2 - 2 t^3, integrated by `numpy.polynomial`), and
every force is the derivative of an energy taken here by hand. Units: mm, N, MPa, radians.
"""

from collections.abc import Mapping

import numpy as np
from numpy.polynomial import Polynomial

from hoofsim.frames import Array

Constants = Mapping[str, Array]

STEP = Polynomial([0.0, 0.0, 3.0, -2.0])
RISE = STEP.integ()


def stiffening(x: Array | float, width: Array | float) -> Array:
    """Force of a unit spring whose stiffness is the smooth step from 0 to 1 over `width`."""
    t = np.clip(x / width, 0.0, 1.0)
    return np.asarray(width * RISE(t) + np.where(x > width, np.asarray(x) - width, 0.0))


def turned_on(x: Array | float, width: Array | float) -> Array:
    """Stiffness of that unit spring."""
    return np.asarray(STEP(np.clip(x / width, 0.0, 1.0)))


def bond_tension(strain: Array, c: Constants) -> Array:
    """Traction of an undamaged bond: soft, stiff past the knee, then a cubic fall from the peak to rupture."""
    rising = c["small"] * strain + (c["large"] - c["small"]) * stiffening(strain - c["knee"] / 2, c["knee"])
    fall = np.clip((strain - c["peak"]) / (c["rupture"] - c["peak"]), 0.0, 1.0)
    return np.asarray(np.where(strain > c["peak"], c["strength"] * (1.0 - STEP(fall)), rising))


def bond_pull(n: Array, s: Array, c: Constants, two_sided: bool) -> tuple[Array, Array]:
    """Forces per attached area that oppose opening n and sliding s of a bond: (MPa, MPa)."""
    gap, open_share = (n, np.ones_like(n)) if two_sided else (stiffening(n, 0.1), turned_on(n, 0.1))
    stretch = np.sqrt(c["weight_n"] * gap**2 + c["weight_s"] * s**2) + 1e-12
    per_stretch = bond_tension(stretch / c["thickness"], c) / stretch
    return per_stretch * c["weight_n"] * gap * open_share, per_stretch * c["weight_s"] * s


def squeeze(n: Array, c: Constants) -> Array:
    """Pressure (MPa, positive when pressed) of soft tissue whose faces have come nearer by -n."""
    e = -n / c["thickness"]
    pressure: Array = (
        c["small"] * stiffening(e, 0.02)
        + (c["large"] - c["small"]) * stiffening(e - c["knee"] / 2, c["knee"])
        + c["locking"] * stiffening(e - c["lock"], 0.1)
    )
    return pressure


def ground_push(gap: Array, slide: Array, stiffness: Array, friction: float) -> tuple[Array, Array]:
    """Ground on one station: (push N along the normal, grip N against the slide), from E = k F + mu k f g(slide)."""
    depth = -gap
    root = np.sqrt(slide**2 + 0.3**2)
    push = stiffness * stiffening(depth, 0.05)
    push = push + friction * stiffness * turned_on(depth, 0.05) * (root - 0.3)
    return push, friction * stiffness * stiffening(depth, 0.05) * slide / root
