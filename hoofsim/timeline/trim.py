"""One trim: what is taken from toe, heels and sole on one day."""

import math
from dataclasses import dataclass

from hoofsim.errors import BadInput

MOST_CUT_MM = 40.0


@dataclass(frozen=True)
class Trim:
    """A trim on `day`. `wall_mm`: taken from the dorsal wall, along it. `sole_mm`: pared from the sole.

    Heels: either `heel_mm`, height taken, or `plane_deg`, the new bearing plane against the old (positive: more taken from
    the toe, so that the foot stands steeper), from which the heels' cut follows. Neither: the plane stays as it was.
    """

    day: float
    wall_mm: float = 0.0
    sole_mm: float = 0.0
    heel_mm: float | None = None
    plane_deg: float | None = None

    def __post_init__(self) -> None:
        if not (math.isfinite(self.day) and self.day >= 0):
            raise BadInput(f"a trim needs a day of 0 or later, not {self.day:g}")
        for name in ("wall_mm", "sole_mm", "heel_mm"):
            cut = getattr(self, name)
            if cut is not None and not 0.0 <= cut <= MOST_CUT_MM:
                raise BadInput(
                    f"the trim on day {self.day:g} takes {name} = {cut:g} mm: allowed 0 to {MOST_CUT_MM:g} mm"
                )
        if self.heel_mm is not None and self.plane_deg is not None:
            raise BadInput(
                f"the trim on day {self.day:g} gives both heel_mm and plane_deg: either one decides the heels"
            )
        if self.plane_deg is not None and not -10.0 <= self.plane_deg <= 10.0:
            raise BadInput(
                f"the trim on day {self.day:g} turns the plane by {self.plane_deg:g} deg: allowed -10 to 10 deg"
            )

    def heel_cut(self, bearing_length_mm: float, hoof_angle_deg: float) -> float:
        """Height in mm that this trim takes from the heels of a foot of that bearing length."""
        if self.heel_mm is not None:
            return self.heel_mm
        drop = self.wall_mm * math.sin(math.radians(hoof_angle_deg))
        return drop - bearing_length_mm * math.tan(math.radians(self.plane_deg or 0.0))


def parse_trim(text: str) -> Trim:
    """A trim from text such as "42:wall=6,heel=4,sole=2" or "42:wall=6,plane=1.5"; `BadInput` says what is wrong."""
    day, colon, rest = text.partition(":")
    names = {"wall": "wall_mm", "heel": "heel_mm", "sole": "sole_mm", "plane": "plane_deg"}
    shape = "expected DAY:wall=MM,heel=MM,sole=MM (or plane=DEG instead of heel)"
    if not colon:
        raise BadInput(f"trim '{text}': {shape}")
    values: dict[str, float] = {}
    for part in rest.split(","):
        name, equals, number = part.strip().partition("=")
        if name not in names or not equals:
            raise BadInput(f"trim '{text}': '{part}' is not one of {', '.join(names)} with a number; {shape}")
        values[names[name]] = _number(number, text)
    return Trim(day=_number(day, text), **values)


def _number(text: str, where: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise BadInput(f"trim '{where}': '{text.strip()}' is not a number") from None
