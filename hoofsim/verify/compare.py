"""Place what the model computes in or out of the published spread."""

from collections.abc import Callable
from dataclasses import dataclass

from hoofsim.verify.published import Published, published
from hoofsim.verify.quantities.registry import QUANTITIES


@dataclass(frozen=True)
class Row:
    """A published value and the model's own. `model` in the published value's unit."""

    published: Published
    model: float

    @property
    def inside(self) -> bool:
        """True when the model's value lies in the published spread."""
        return self.published.low <= self.model <= self.published.high

    @property
    def distance(self) -> float:
        """Model minus world in half-widths of the spread: the picture's common axis; 1 is the spread's edge."""
        centre = 0.5 * (self.published.low + self.published.high)
        return (self.model - centre) / (0.5 * (self.published.high - self.published.low))

    @property
    def verdict(self) -> str:
        """`inside` or `outside`."""
        return "inside" if self.inside else "outside"


def compute(one: Published) -> Row:
    """One row."""
    return Row(one, QUANTITIES[one.id]())


def compare(progress: Callable[[int, int], object] | None = None) -> tuple[Row, ...]:
    """Every row of the carried table, computed now; `progress(done, total)` is called after each."""
    table = published()
    rows = []
    for done, one in enumerate(table, start=1):
        rows.append(compute(one))
        if progress is not None:
            progress(done, len(table))
    return tuple(rows)
