"""How long horn takes from the hairline to the ground."""

from hoofsim.errors import BadInput
from hoofsim.model import Foot
from hoofsim.timeline.rates import WALL_GROWTH


def renewal_months(foot: Foot, growth_mm_per_month: float = WALL_GROWTH.value) -> float:
    """Months until the whole dorsal wall is new: its length over its growth."""
    if growth_mm_per_month <= 0:
        raise BadInput(f"growth of {growth_mm_per_month:g} mm a month never renews a wall: give more than 0")
    return (foot.values["dorsal_wall_length_mm"] + foot.values["toe_change_mm"]) / growth_mm_per_month
