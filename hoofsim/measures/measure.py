"""What a measure is: its words, its unit and sign, its source, what it needs, and the function that computes
it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from hoofsim.frames import Array

Points = Mapping[str, Array]
"""Landmark name -> (..., 2) mm in the frame of `hoofsim.frames`; any batch shape, one radiograph or many
feet.
"""

Mechanics = Mapping[str, Array]
"""Mechanical output name -> (...) array, except `laminar_stress` (..., S) MPa and `laminar_stress_at` (S,)
0..1.
"""

Unit = Literal["deg", "mm", "N", "MPa", "1"]
Status = Literal["abstract", "second-hand", "memory", "practice", "choice"]
MeasureKind = Literal["points", "change", "mechanics"]


@dataclass(frozen=True)
class Reference:
    """A range that a sound foot is expected in, and how well its source is known."""

    low: float
    high: float
    source: str
    status: Status
    words: str
    """The range as its source gives it, in words (mean and spread, number of feet, when it applies)."""

    def holds(self, value: float) -> bool:
        """True when `value` is inside the range, ends included."""
        return self.low <= value <= self.high


@dataclass(frozen=True)
class Measure:
    """One measure of the foot. `function` is chosen by `kind`:

    `points`: function(points); `change`: function(points, baseline_points); `mechanics`: function(mechanics).
    """

    name: str
    label: str
    definition: str
    sign: str
    unit: Unit
    source: str
    kind: MeasureKind
    needs: tuple[str, ...]
    """Landmarks (kinds `points` and `change`) or mechanical outputs (kind `mechanics`) without which it is
    None.
    """
    function: Callable[..., Array]
    readable: bool
    """True when a lateral radiograph shows it."""
    smallest_readable: float | None
    """Smallest change worth reading on a radiograph, in `unit`; None when the measure is not readable."""
    reference: Reference | None = None
