"""Place what the model computes in or out of the published spread."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from hoofsim.verify.bands import band
from hoofsim.verify.published import Published, published
from hoofsim.verify.quantities.registry import QUANTITIES

# Rows that are a measure of the sound foot standing as it is, so that the carried 90 % band is the model's own.
STANDING_MEASURES: Mapping[str, str] = {
    "centre_of_pressure": "centre_of_pressure",
    "pressure_ahead_of_joint": "ground_force_lever",
    "standing_tendon_tension": "tendon_tension",
    "standing_navicular_load": "navicular_load",
    "palmar_angle": "palmar_angle",
    "capsular_rotation": "capsular_rotation",
    "phalangeal_rotation": "phalangeal_rotation",
    "founder_distance": "founder_distance",
    "wall_to_bone_distal": "wall_to_bone_distal",
}


@dataclass(frozen=True)
class Comparison:
    """A published value and the model's own. `model` in the published value's unit."""

    published: Published
    model: float

    @property
    def band(self) -> tuple[float, float] | None:
        """The model's own 90 % band, where the row is a plain standing measure; else None."""
        measure = STANDING_MEASURES.get(self.published.id)
        return None if measure is None else band("standing", measure)

    @property
    def inside(self) -> bool:
        """True when the model's value lies in the published spread."""
        return self.published.low <= self.model <= self.published.high

    @property
    def distance(self) -> float:
        """Model minus world in half-widths of the spread: the picture's common axis; 1 is the spread's edge."""
        return self.half_widths(self.model)

    def half_widths(self, value: float) -> float:
        """Any value of the row on that axis."""
        centre = 0.5 * (self.published.low + self.published.high)
        return (value - centre) / (0.5 * (self.published.high - self.published.low))

    @property
    def verdict(self) -> str:
        """`inside` or `outside`."""
        return "inside" if self.inside else "outside"


def compute(one: Published) -> Comparison:
    """One row."""
    return Comparison(one, QUANTITIES[one.id]())


def compare(progress: Callable[[int, int], object] | None = None) -> tuple[Comparison, ...]:
    """Every row of the carried table, computed now; `progress(done, total)` is called after each."""
    table = published()
    rows = []
    for done, one in enumerate(table, start=1):
        rows.append(compute(one))
        if progress is not None:
            progress(done, len(table))
    return tuple(rows)
