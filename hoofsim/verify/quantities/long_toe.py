"""A longer hoof: lever of the ground's force, and the moment at the coffin joint while it breaks over."""

import math

from hoofsim.foot.parameters import DEFAULTS
from hoofsim.model import Foot
from hoofsim.timeline.calendar import weeks
from hoofsim.verify.quantities.stance import PERCENT, coffin_moment
from hoofsim.verify.quantities.standing import reading

LEVER_GROWTH = 0.227
# F6 and F3: breakover takes the last 15.8 % of the walk's stance and starts at 86 % of the trot's.
BREAKOVER_STARTS = {"walk": 84.2, "trot": 86.0}
EIGHT_WEEKS_DAYS = 56.0


def longer_toe_mm() -> float:
    """Horn along the wall that makes the lever from the coffin joint to the breakover point 22.7 % longer."""
    lever = reading("toe_to_cor") - DEFAULTS["breakover_setback_mm"]
    return LEVER_GROWTH * lever / math.cos(math.radians(DEFAULTS["hoof_angle_deg"]))


def _moment_change(case: str) -> float:
    """Change of the peak moment from the published start of breakover on, %."""
    over = BREAKOVER_STARTS[case] <= PERCENT
    longer = coffin_moment(case, toe_change_mm=longer_toe_mm())[over].max()
    return float(100.0 * (longer / coffin_moment(case)[over].max() - 1.0))


def walk_moment_change() -> float:
    """Change of the peak moment at breakover of the walk, %."""
    return _moment_change("walk")


def trot_moment_change() -> float:
    """Change of the peak moment at breakover of the trot, %."""
    return _moment_change("trot")


def standing_moment_after_eight_weeks() -> float:
    """Change of the standing moment of the ground's force about the coffin joint over eight weeks under a shoe, %."""
    lever = weeks(Foot("sound"), [0.0, EIGHT_WEEKS_DAYS], "shod").load()["ground_force_lever"]
    return float(100.0 * (lever[1] / lever[0] - 1.0))
