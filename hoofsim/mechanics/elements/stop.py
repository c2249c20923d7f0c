"""Ends of a range: a joint stopped by its own ligaments, a loose sole stopped by the wall around it. Modelling choices."""

from dataclasses import dataclass

from hoofsim.mechanics.elements.one_sided import one_sided
from hoofsim.mechanics.types import Array, LineLaw, Numbers


@dataclass(frozen=True)
class StopConstants:
    """Free from `least` to `most` (mm or rad); beyond, `stiffness` (N/mm or N mm/rad) that sets in over `width`."""

    least: Array
    most: Array
    stiffness: float
    width: float


def stop(x: Numbers, c: StopConstants) -> LineLaw:
    """Energy (N mm), force (N or N mm) and stiffness at `x`."""
    over_energy, over, over_slope = one_sided(x - c.most, c.width)
    under_energy, under, under_slope = one_sided(c.least - x, c.width)
    return LineLaw(
        c.stiffness * (over_energy + under_energy),
        c.stiffness * (over - under),
        c.stiffness * (over_slope + under_slope),
    )
