"""The smooth one-sided ramp from which every tension-only or contact law is made."""

from typing import Any

import numpy as np

from hoofsim.mechanics.types import Numbers


def one_sided(x: Numbers, width: Any) -> tuple[Numbers, Numbers, Numbers]:
    """Energy, force and stiffness of a unit spring that acts only for x > 0.

    The stiffness rises from 0 to 1 by a cubic over `width` (same unit as x), so the force has two continuous
    derivatives; beyond it the force is x - width / 2.
    """
    share = np.clip(x.real, 0.0, width) / width if not np.iscomplexobj(x) else _clipped(x, width) / width
    square = share * share
    cube = square * share
    stiffness = 3.0 * square - 2.0 * cube
    inner_force = width * (cube - 0.5 * square * square)
    inner_energy = width * width * (0.25 * square * square - 0.1 * cube * square)
    beyond = np.maximum(x - width, 0.0) if not np.iscomplexobj(x) else np.where(x.real > width, x - width, 0.0)
    force = inner_force + beyond
    energy = inner_energy + beyond * (0.5 * width) + 0.5 * beyond * beyond
    return energy, force, stiffness


def _clipped(x: Numbers, width: Any) -> Numbers:
    """`np.clip(x, 0, width)` that keeps the imaginary part inside the range, for complex-step tests."""
    return np.where(x.real <= 0.0, 0.0, np.where(x.real >= width, width, x))
