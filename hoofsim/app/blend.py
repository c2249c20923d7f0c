"""A foot part of the way between two loaded feet, so that a change is seen as a movement."""

from dataclasses import fields, is_dataclass, replace
from typing import Any

import numpy as np

BLEND_SECONDS = 0.22


def mixed(first: Any, second: Any, share: float) -> Any:
    """`first` and `second` mixed: numbers and arrays in proportion, mappings and frozen records field by field.

    Anything else, and whatever the two do not share, is taken from `second`.
    """
    if isinstance(second, np.ndarray) and isinstance(first, np.ndarray):
        if first.shape != second.shape or second.dtype.kind != "f":
            return second
        return first + (second - first) * share
    if isinstance(second, bool) or isinstance(first, bool):
        return second
    if isinstance(second, int | float) and isinstance(first, int | float):
        return first + (second - first) * share
    if isinstance(second, dict) and isinstance(first, dict):
        return {
            key: mixed(first[key], value, share) if key in first else value for key, value in second.items()
        }
    if isinstance(second, tuple) and hasattr(second, "_fields") and type(first) is type(second):
        return type(second)(*(mixed(a, b, share) for a, b in zip(first, second, strict=True)))
    if is_dataclass(second) and type(first) is type(second):
        changed = {
            f.name: mixed(getattr(first, f.name), getattr(second, f.name), share) for f in fields(second)
        }
        return replace(second, **changed)  # type: ignore[type-var]
    return second


class Blend:
    """Stands in for a loaded foot while it moves from `first` to `second`; every number told is `second`'s."""

    MIXED = ("points", "rest_points", "poses", "stations", "forces")

    def __init__(self, first: Any, second: Any, share: float) -> None:
        self._second = second
        for name in self.MIXED:
            setattr(self, name, mixed(getattr(first, name), getattr(second, name), share))

    def __getattr__(self, name: str) -> Any:
        """Whatever is not mixed comes from the foot that is moved to."""
        return getattr(self._second, name)
