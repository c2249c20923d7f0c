"""From the program's units (mm, N, N·mm, MPa, radians) to the ones a person reads, and back.

Every number shown to a person passes through `show`, so that decimals, signs and inches are decided once.
"""

import math

MILLIMETRES_PER_INCH = 25.4
LENGTH_UNITS = ("mm", "in")

# Decimals that a reader can use: finer than a radiograph shows, coarser than the solver's noise.
DECIMALS = {
    "mm": 1,
    "in": 2,
    "deg": 1,
    "N": 0,
    "N/mm": 1,
    "N·mm": 0,
    "N·mm/rad": 0,
    "MPa": 3,
    "kg": 0,
    "%": 0,
    "1": 2,
}

MINUS = "\N{MINUS SIGN}"


def inches(millimetres: float) -> float:
    """Length in inches."""
    return millimetres / MILLIMETRES_PER_INCH


def millimetres(length_inches: float) -> float:
    """Length in millimetres."""
    return length_inches * MILLIMETRES_PER_INCH


def degrees(radians: float) -> float:
    """Angle in degrees."""
    return math.degrees(radians)


def radians(angle_degrees: float) -> float:
    """Angle in radians."""
    return math.radians(angle_degrees)


def shown_unit(unit: str, length_unit: str = "mm") -> str:
    """The unit printed for a quantity held in `unit`: inches replace mm on request, a bare number ("1") has none."""
    if unit == "mm":
        return length_unit
    return "" if unit == "1" else unit


def show_number(value: float, unit: str, length_unit: str = "mm", signed: bool = False) -> str:
    """The number alone, rounded for reading; `signed` prints + as well as − (for a change)."""
    if unit == "mm" and length_unit == "in":
        value, unit = inches(value), "in"
    decimals = DECIMALS.get(unit, 2)
    rounded = round(value, decimals)
    sign = MINUS if rounded < 0 else ("+" if signed and rounded > 0 else "")
    return f"{sign}{abs(rounded):.{decimals}f}"


def show(value: float | None, unit: str, length_unit: str = "mm", signed: bool = False) -> str:
    """Number and unit, such as "12.5 mm", "0.49 in" or "+2.0 deg"; an undefined value (None) reads "none"."""
    if value is None:
        return "none"
    name = shown_unit(unit, length_unit)
    text = show_number(value, unit, length_unit, signed)
    return f"{text} {name}" if name else text
