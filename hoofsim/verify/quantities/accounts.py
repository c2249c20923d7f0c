"""The five rival accounts at ten degrees (sinking: ten millimetres) against plane geometry done another way.

The other way is complex numbers: a turn is a product, a distance along a line the real part of a quotient.
"""

import cmath
import math
from collections.abc import Callable, Mapping

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.model import Foot

AMOUNT = 10.0
TURN = cmath.exp(-1j * math.radians(AMOUNT))
BONE = ("tip", "extensor_process", "palmar_process")
Plane = Mapping[str, complex]


def _turned(z: Plane, names: tuple[str, ...], about: str) -> dict[str, complex]:
    return {**z, **{name: z[about] + (z[name] - z[about]) * TURN for name in names}}


def _flared(z: Plane) -> dict[str, complex]:
    """The old toe, the hairline and the new toe are a triangle on the ground: the sine rule gives its side."""
    wall = z["toe"] - z["toe_hairline"]
    hoof = math.atan2(-wall.imag, wall.real)
    grown = abs(wall) * math.sin(math.radians(AMOUNT)) / math.sin(hoof - math.radians(AMOUNT))
    return {**z, "toe": z["toe"] + grown}


MOVES: Mapping[str, Callable[[Plane], dict[str, complex]]] = {
    "slide_through": lambda z: _turned(z, BONE, "cor"),
    "carried_sole": lambda z: _turned(
        z, (*BONE, "frog_point", "sole_under_tip", "sole_under_palmar_process"), "cor"
    ),
    "flared_wall": _flared,
    "sinking": lambda z: {**z, **{name: z[name] - 1j * AMOUNT for name in (*BONE, "cor")}},
    "tipped_foot": lambda z: _turned(z, tuple(name for name in z if not name.startswith("p2")), "toe"),
}


def _lean(toe_end: complex, other_end: complex) -> float:
    run = other_end - toe_end
    return math.degrees(math.atan2(run.imag, -run.real))


def _along(z: complex, start: complex, end: complex) -> float:
    base = end - start
    return ((z - start) / base).real * abs(base)


def _read(z: Plane) -> tuple[dict[str, float], dict[str, float]]:
    """Millimetres and degrees of a few measures."""
    lengths = {
        "tip_to_frog": _along(z["frog_point"], z["tip"], z["palmar_process"]),
        "frog_to_toe": _along(z["frog_point"], z["toe"], z["heel_ground"]),
        "ground_depth_tip": z["tip"].imag,
    }
    angles = {
        "hoof_angle": _lean(z["toe"], z["toe_hairline"]),
        "p3_dorsal_angle": _lean(z["tip"], z["extensor_process"]),
        "palmar_angle": _lean(z["tip"], z["palmar_process"]),
    }
    return lengths, angles


def _worst(which: int) -> float:
    points = Foot("sound").load("standing").rest_points
    z = {name: complex(*xy) for name, xy in points.items()}
    worst = 0.0
    for name, move in MOVES.items():
        told = ACCOUNTS[name].predict(points, AMOUNT)
        for measure, value in _read(move(z))[which].items():
            worst = max(worst, abs(float(told[measure]) - value))
    return worst


def worst_length() -> float:
    """Largest difference of a length over the five accounts, mm."""
    return _worst(0)


def worst_angle() -> float:
    """Largest difference of an angle over the five accounts, deg."""
    return _worst(1)
