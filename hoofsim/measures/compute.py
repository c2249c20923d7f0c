"""Compute every measure that the given points, baseline and mechanics allow."""

from hoofsim.errors import BadInput, nearest
from hoofsim.frames import Array
from hoofsim.measures.measure import Measure, Mechanics, Points
from hoofsim.measures.table import MEASURES


def find(name: str) -> Measure:
    """The measure called `name`; `BadInput` with the nearest valid name when there is none."""
    if name not in MEASURES:
        raise BadInput(f"There is no measure '{name}': {nearest(name, MEASURES)}")
    return MEASURES[name]


def _compute(
    measure: Measure, points: Points, baseline: Points | None, mechanics: Mechanics | None
) -> Array | None:
    given = mechanics if measure.kind == "mechanics" else points
    if given is None or any(need not in given for need in measure.needs):
        return None
    if measure.kind != "change":
        return measure.function(given)
    if baseline is None or any(need not in baseline for need in measure.needs):
        return None
    return measure.function(given, baseline)


def measure_all(
    points: Points, baseline_points: Points | None = None, mechanics: Mechanics | None = None
) -> dict[str, Array | None]:
    """Every measure of `MEASURES`, as (...) arrays in its unit; None where something it needs was not given.

    `points`: landmark name -> (..., 2) mm, from a model or a radiograph, any batch shape. `tip` is the true
    tip of the distal phalanx; `tip_seen`, the tip that a radiograph shows, is taken to be `tip` when not
    given (no bone lost). `baseline_points`: the same foot's baseline, for the measures that are changes.
    `mechanics`: mechanical outputs.
    """
    seen = dict(points)
    if "tip" in seen:
        seen.setdefault("tip_seen", seen["tip"])
    return {name: _compute(measure, seen, baseline_points, mechanics) for name, measure in MEASURES.items()}


def change_is_readable(name: str, change: float) -> bool:
    """True when a radiograph could show this change of the measure (R9); never for a measure it cannot show."""
    smallest = find(name).smallest_readable
    return smallest is not None and abs(change) >= smallest
