"""Linear springs: the wall's bending at the toe and the limb's horizontal hold."""

from hoofsim.mechanics.types import Array, LineLaw, Numbers


def spring(x: Numbers, stiffness: Array) -> LineLaw:
    """Energy, force and stiffness of a linear spring of `stiffness` (N/mm or N mm/rad) at `x` (mm or rad)."""
    return LineLaw(0.5 * stiffness * x * x, stiffness * x, stiffness + 0.0 * x)


def curved_strip(width: Array, thickness: Array, rise: Array) -> Array:
    """Second moment of area (mm4) of a strip bent to a shallow parabola of `rise` across its width; all mm.

    w t^3 / 12 of the flat strip plus w t times the mean square height 4 rise^2 / 45 of the parabola about its own mean.
    """
    return width * thickness**3 / 12.0 + width * thickness * 4.0 * rise**2 / 45.0


def cantilever_stiffness(modulus: Array, second_moment: Array, length: Array) -> Array:
    """Hinge stiffness (N mm/rad) that gives horn the end deflection of a cantilever, 3 E I / L.

    modulus MPa; second moment mm4; length mm. A hinge of this stiffness and arm L deflects P L^3 / (3 E I) under P.
    """
    return 3.0 * modulus * second_moment / length
