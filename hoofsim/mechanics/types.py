"""Array types of the mechanics. Real in use; complex only while a test takes a complex step through a law."""

from typing import Any, NamedTuple

from numpy.typing import NDArray

from hoofsim.frames import Array as Array

Numbers = NDArray[Any]


class PlaneLaw(NamedTuple):
    """A law of two local separations (normal n, shear s): energy and its first and second derivatives."""

    energy: Numbers
    d_n: Numbers
    d_s: Numbers
    d_nn: Numbers
    d_ns: Numbers
    d_ss: Numbers


class LineLaw(NamedTuple):
    """A law of one length or angle: energy, force (dE/dx) and stiffness (d2E/dx2)."""

    energy: Numbers
    force: Numbers
    stiffness: Numbers
