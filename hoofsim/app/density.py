"""How much larger than usual everything has to be drawn on a dense display: readings of the system, and a factor from them.

Where the system itself enlarges the window (macOS, Wayland), the window is measured in the system's own units and the factor
is 1. On Windows and under X the program is given the display's own pixels, and has to enlarge what it draws.
"""

import ctypes
import math
import os
import re
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

import pygame

LEAST, MOST, STEP = 1.0, 3.0, 0.25
USUAL_DOTS_PER_INCH = 96.0
FACTOR_VARIABLES = ("GDK_SCALE", "QT_SCALE_FACTOR")
# A desktop under X of at least this size that says nothing of its density: half the way to twice (choice).
LARGE_DESKTOP, FACTOR_IF_LARGE = (3840, 2160), 1.5

Read = TypeVar("Read")


@dataclass(frozen=True)
class DisplayReadings:
    """What the system says of its display; None where it says nothing.

    `platform` as `sys.platform`, `driver` as SDL names it, `desktop` in pixels, `dots_per_inch` as set by the person,
    `variables` those of `FACTOR_VARIABLES` in the environment.
    """

    platform: str = "linux"
    driver: str = ""
    desktop: tuple[int, int] | None = None
    dots_per_inch: float | None = None
    variables: Mapping[str, str] = field(default_factory=dict)


def scale_factor(found: DisplayReadings) -> float:
    """How many times larger than usual to draw: 1 to 3 in quarters. Where more than one thing is said, the largest holds."""
    if found.platform == "win32":
        said = [_per_inch(found.dots_per_inch)]
    elif found.driver == "x11":
        said = [_number(found.variables.get(name)) for name in FACTOR_VARIABLES]
        said.append(_per_inch(found.dots_per_inch))
    else:
        return LEAST
    known = [factor for factor in said if factor is not None]
    if known:
        return held(max(known))
    large = found.desktop is not None and all(
        side >= least for side, least in zip(sorted(found.desktop), sorted(LARGE_DESKTOP), strict=True)
    )
    return FACTOR_IF_LARGE if large and found.driver == "x11" else LEAST


def held(factor: float) -> float:
    """The nearest factor in quarters from 1 to 3."""
    return min(max(round(factor / STEP) * STEP, LEAST), MOST)


def _per_inch(dots: float | None) -> float | None:
    return None if dots is None else _number(dots / USUAL_DOTS_PER_INCH)


def _number(said: str | float | None) -> float | None:
    """A factor above 0 and not beyond reason, or None for anything else."""
    try:
        factor = float(said if said is not None else "nan")
    except ValueError:
        return None
    return factor if math.isfinite(factor) and 0.0 < factor < 100.0 else None


def dots_per_inch_of(resources: str) -> float | None:
    """The `Xft.dpi` of an X server's resources (lines of `name: value`); None where they have none."""
    found = re.search(r"^\s*Xft\.dpi\s*:\s*([0-9]+(?:\.[0-9]*)?)\s*$", resources, re.MULTILINE)
    return float(found.group(1)) if found else None


# -- the readings: whatever goes wrong with one of them, it has said nothing ---------------------------------------------


def read_display() -> DisplayReadings:
    """What the system says; pygame's display has to be started before."""
    driver = _tried(pygame.display.get_driver) or ""
    desktops = _tried(pygame.display.get_desktop_sizes)
    dots = None
    if sys.platform == "win32":
        dots = _tried(_windows_dots_per_inch)
    elif driver == "x11":
        dots = dots_per_inch_of(_tried(_x_resources) or "")
    return DisplayReadings(
        sys.platform,
        driver,
        desktops[0] if desktops else None,
        dots,
        {name: os.environ[name] for name in FACTOR_VARIABLES if name in os.environ},
    )


def _tried(read: Callable[[], Read]) -> Read | None:
    try:
        return read()
    except (
        OSError,
        AttributeError,
        ValueError,
        TypeError,
        pygame.error,
    ):  # no such library, no such function
        return None


def _windows_dots_per_inch() -> float:
    """As set for the main display when the person signed in; 96 for a program that the system enlarges itself."""
    library: Any = getattr(ctypes, "windll")  # noqa: B009 - only where there is Windows
    return float(library.user32.GetDpiForSystem())


def _x_resources() -> str:
    """The text of the X server's resources, where desktops leave the density set by the person."""
    library = ctypes.CDLL("libX11.so.6")
    library.XOpenDisplay.restype = ctypes.c_void_p
    library.XResourceManagerString.argtypes = [ctypes.c_void_p]
    library.XResourceManagerString.restype = ctypes.c_char_p
    library.XCloseDisplay.argtypes = [ctypes.c_void_p]
    display = library.XOpenDisplay(None)
    if not display:
        return ""
    try:
        return (library.XResourceManagerString(display) or b"").decode("utf-8", "replace")
    finally:
        library.XCloseDisplay(display)
