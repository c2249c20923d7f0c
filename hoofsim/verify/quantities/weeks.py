"""Growth and one trim."""

from functools import lru_cache

from hoofsim.model import Foot, Table
from hoofsim.timeline.calendar import weeks
from hoofsim.timeline.renewal import renewal_months
from hoofsim.timeline.trim import Trim

# The trimmed horses were small; the pony preset stands for them. Wall and sole cuts are the published ones, heels left.
SMALL_HORSE = "pony"
WALL_CUT_MM, SOLE_CUT_MM = 3.0, 2.9
SEVEN_WEEKS_DAYS = 49.0


@lru_cache(maxsize=1)
def _one_trim() -> Table:
    trim = Trim(1.0, wall_mm=WALL_CUT_MM, sole_mm=SOLE_CUT_MM, heel_mm=0.0)
    return weeks(Foot(SMALL_HORSE), [0.0, 1.0], "unworn", [trim], growth_mm_per_month=0.0).load()


def _change(measure: str) -> float:
    before, after = _one_trim()[measure]
    return float(after - before)


def trim_hoof_angle() -> float:
    """Change of the hoof angle by the trim, deg."""
    return _change("hoof_angle")


def trim_bone_angle() -> float:
    """Change of the coffin bone's dorsal angle by the trim, deg."""
    return _change("p3_dorsal_angle")


def trim_ground_length() -> float:
    """Change of the ground length from heel to toe by the trim, mm."""
    return _change("frog_to_toe") + _change("frog_to_heel")


def _over_seven_weeks(kept: str) -> float:
    first, last = weeks(Foot("sound"), [0.0, SEVEN_WEEKS_DAYS], kept).load()["hoof_angle"]
    return float(last - first)


def shod_hoof_angle() -> float:
    """Change of the hoof angle over seven weeks under a shoe, deg."""
    return _over_seven_weeks("shod")


def barefoot_hoof_angle() -> float:
    """Change of the hoof angle over seven weeks barefoot, deg."""
    return _over_seven_weeks("barefoot")


def renewal() -> float:
    """Months until the dorsal wall of the sound foot is new."""
    return renewal_months(Foot("sound"))
