"""A moment of a scene, kept as what was asked of it and when: going back is building anew and replaying.

Copies of a physics space lose its caches and its force functions, so a copy would not go on as the original does.
"""

from dataclasses import dataclass
from typing import Any

from hoofsim.model import Foot


@dataclass(frozen=True)
class Act:
    """A call of the scene's method `name` with `values` before window `window`."""

    window: int
    name: str
    values: tuple[tuple[str, Any], ...]


@dataclass(frozen=True)
class Snapshot:
    """Where a scene started, what was asked of it, and how many windows of its clock had passed."""

    foot: Foot
    case: str
    stance_percent: float | None
    seed: int
    acts: tuple[Act, ...]
    windows: int
