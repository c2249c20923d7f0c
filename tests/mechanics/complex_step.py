"""Derivatives by complex step: f(x + i h).imag / h is exact to rounding, so a wrong derivative cannot hide."""

from collections.abc import Callable
from typing import Any

import numpy as np

STEP = 1e-25


def derivative(function: Callable[[Any], Any], at: np.ndarray) -> np.ndarray:
    """d function / d at, element by element, for functions that act element by element."""
    return np.asarray(function(at + 1j * STEP)).imag / STEP


def largest_error(claimed: np.ndarray, true: np.ndarray) -> float:
    """Largest difference, relative to the largest true value."""
    return float(np.abs(claimed - true).max() / max(np.abs(true).max(), 1e-30))
