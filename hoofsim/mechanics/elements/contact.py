"""Horn on ground: one-sided normal push with Coulomb-like friction that sticks first and creeps at the limit.

E(n, s) = k F(-n) + mu k f(-n) (sqrt(s^2 + creep^2) - creep), with F, f the one-sided energy and force. The friction force
tends to mu times the normal force as the slide s grows past `creep`. A modelling choice, and no true Coulomb law: an
energy cannot hold one. Its price is a push that grows with the slide, as if the ground rose by mu (sqrt(s^2 + creep^2) -
creep): 0.2 mm at the 0.5 mm by which the ready feet creep at most, far more where a torn foot slides by centimetres.
"""

from dataclasses import dataclass

import numpy as np

from hoofsim.mechanics.elements.one_sided import one_sided, ramp
from hoofsim.mechanics.types import Array, Numbers, PlaneLaw

TOUCH_WIDTH_MM = 0.05
CREEP_MM = 0.3


@dataclass(frozen=True)
class ContactConstants:
    """stiffness in N/mm of a station; friction coefficient; arrays that broadcast against the gaps."""

    stiffness: Array
    friction: Array


def contact(n: Numbers, s: Numbers, c: ContactConstants) -> PlaneLaw:
    """Energy (N mm) and derivatives for gap n (mm, open positive) and slide s (mm) of stations on the ground."""
    press_energy, press, press_slope = one_sided(-n, TOUCH_WIDTH_MM)
    press_curve = ramp(-n, TOUCH_WIDTH_MM)[2]
    root = np.sqrt(s * s + CREEP_MM * CREEP_MM)
    slide, slide_s, slide_ss = root - CREEP_MM, s / root, CREEP_MM * CREEP_MM / root**3
    k = c.stiffness
    grip = c.friction * k
    return PlaneLaw(
        k * press_energy + grip * press * slide,
        -k * press - grip * press_slope * slide,
        grip * press * slide_s,
        k * press_slope + grip * press_curve * slide,
        -grip * press_slope * slide_s,
        grip * press * slide_ss,
    )
