"""The smooth one-sided ramp from which every tension-only or contact law is made.

The stiffness of a unit spring rises from 0 to 1 by the cubic 3 t^2 - 2 t^3 over `width`, so that the force has two
continuous derivatives; beyond the width the force is x - width / 2.
"""

from typing import Any

import numpy as np

from hoofsim.mechanics.types import Numbers


def _share(x: Numbers, width: Any) -> tuple[Numbers, Numbers]:
    """How far through the width x lies, 0 to 1, and how far beyond it; the imaginary part survives only where it acts."""
    if np.iscomplexobj(x):
        inside = np.where(x.real <= 0.0, 0.0, np.where(x.real > width, width, x))
        return inside / width, np.where(x.real > width, x - width, 0.0)
    return np.minimum(np.maximum(x, 0.0), width) / width, np.maximum(x - width, 0.0)


def one_sided(x: Numbers, width: Any) -> tuple[Numbers, Numbers, Numbers]:
    """Energy, force and stiffness of a unit spring that acts only for x > 0 (x and width in one unit)."""
    share, beyond = _share(x, width)
    square = share * share
    force = width * square * share * (1.0 - 0.5 * share) + beyond
    energy = width * width * square * square * (0.25 - 0.1 * share) + 0.5 * beyond * (beyond + width)
    return energy, force, square * (3.0 - 2.0 * share)


def ramp(x: Numbers, width: Any) -> tuple[Numbers, Numbers, Numbers]:
    """Force, stiffness and the stiffness' derivative of the same unit spring."""
    share, beyond = _share(x, width)
    square = share * share
    force = width * square * share * (1.0 - 0.5 * share) + beyond
    return force, square * (3.0 - 2.0 * share), 6.0 / width * share * (1.0 - share)
