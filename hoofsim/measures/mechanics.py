"""Measures that need the loaded foot's mechanics: read from its outputs, none of them visible on a
radiograph.
"""

from collections.abc import Callable
from typing import Final

import numpy as np

from hoofsim.frames import Array
from hoofsim.measures.describe import describe
from hoofsim.measures.measure import Measure, Mechanics, Unit


def output(name: str) -> Callable[[Mechanics], Array]:
    """A measure that is one mechanical output as it stands."""

    def read(mechanics: Mechanics) -> Array:
        return np.asarray(mechanics[name])

    read.__doc__ = f"The mechanical output `{name}`."
    return read


def laminar_stress_peak(mechanics: Mechanics) -> Array:
    """Largest laminar stress over the stations of the dorsal wall, MPa."""
    return np.asarray(np.max(mechanics["laminar_stress"], axis=-1))


def laminar_stress_peak_at(mechanics: Mechanics) -> Array:
    """Where that peak is, from 0 at the top of the attached wall to 1 at the tip's level."""
    where = np.argmax(mechanics["laminar_stress"], axis=-1)
    return np.asarray(np.asarray(mechanics["laminar_stress_at"])[where])


def _mechanical(name: str, label: str, definition: str, sign: str, unit: Unit, source: str) -> Measure:
    return describe(name, label, definition, sign, unit, source, (name,), output(name), "mechanics")


MECHANICS: Final = (
    _mechanical(
        "ground_force_lever",
        "ground-force lever",
        "Distance from the centre of rotation of the coffin joint to the line of the ground's force.",
        "positive when the force passes in front of the joint",
        "mm",
        "F3",
    ),
    _mechanical(
        "tendon_tension",
        "deep flexor tendon (DDFT) tension",
        "Pull of the deep digital flexor tendon, passive and muscular together.",
        "never negative",
        "N",
        "F4",
    ),
    _mechanical(
        "tendon_lever",
        "tendon lever",
        "Distance from the centre of rotation of the coffin joint at which the tendon's pull acts.",
        "positive when the pull flexes the joint",
        "mm",
        "F4",
    ),
    _mechanical(
        "tendon_turn",
        "tendon's turn at the navicular",
        "Angle by which the tendon changes direction as it passes the navicular bone.",
        "never negative",
        "deg",
        "F4",
    ),
    _mechanical(
        "tendon_insertion_angle",
        "tendon's angle at the insertion",
        "Angle between the tendon where it meets the distal phalanx and the line tip to palmar process.",
        "larger pulls more squarely to the bone's underside",
        "deg",
        "F4",
    ),
    _mechanical(
        "navicular_load",
        "navicular load",
        "Force with which the tendon presses on the navicular bone: twice the tension times the sine of "
        "half the turn.",
        "never negative",
        "N",
        "F4",
    ),
    describe(
        "laminar_stress_peak",
        "laminar stress, peak",
        "Largest stress along the laminae of the dorsal wall.",
        "never negative",
        "MPa",
        "F11",
        ("laminar_stress",),
        laminar_stress_peak,
        "mechanics",
    ),
    describe(
        "laminar_stress_peak_at",
        "laminar stress, where it peaks",
        "Place of the largest laminar stress, as a share of the way down the attached wall.",
        "0 at the top, 1 level with the tip",
        "1",
        "F11",
        ("laminar_stress", "laminar_stress_at"),
        laminar_stress_peak_at,
        "mechanics",
    ),
    _mechanical(
        "bonds_torn",
        "bonds torn by this load",
        "Share of the attached laminae, quarters, sole-to-bone and sole-to-wall bonds, by area, that this load has torn.",
        "0 none, 1 all; past about a half the bone has left its bed, and the other measures say little",
        "1",
        "F11",
    ),
    _mechanical(
        "sole_pressure_tip",
        "sole pressure under the tip",
        "Pressure in the solar dermis under the tip of the distal phalanx.",
        "positive when pressed",
        "MPa",
        "F13",
    ),
    _mechanical(
        "centre_of_pressure",
        "centre of pressure",
        "Distance along the ground from the projected toe back to where the ground's force acts.",
        "larger is nearer the heel",
        "mm",
        "F2",
    ),
)
