"""What the moving foot shows at one moment, with the same attributes as a foot at rest."""

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from hoofsim.mechanics.equilibrium import CONVERGED, SLACK, Equilibrium, solve
from hoofsim.mechanics.loads import Moment, load_case
from hoofsim.mechanics.model import Model, build, take, under
from hoofsim.mechanics.types import Array
from hoofsim.model import Foot, LoadedFoot
from hoofsim.scene.ramp import between

MOVING = "moving"
# A stride is compared with the untouched foot at every so many percent of the stance.
BASELINE_EVERY = 5.0
# Rows of the freedoms that rise when the whole foot does.
_RISING = (1, 5, 8)


class Instant(NamedTuple):
    """Where a scene is at one time: freedoms (11,), the limb's load and posture, height of the foot's flight in mm."""

    freedoms: Array
    moment: Moment
    lift_mm: float

    def towards(self, other: "Instant", share: float) -> "Instant":
        """The instant at a share of the way to another."""
        return Instant(
            self.freedoms + share * (other.freedoms - self.freedoms),
            between(self.moment, other.moment, share),
            self.lift_mm + share * (other.lift_mm - self.lift_mm),
        )


class Unchanged(LoadedFoot):
    """A preset as it is: compared with nothing but itself, so that its own baseline need not be solved again."""

    @property
    def baseline(self) -> LoadedFoot:
        """The foot itself."""
        return self


@lru_cache(maxsize=4)
def baselines(preset: str, case: str) -> tuple[LoadedFoot, ...]:
    """The preset unchanged through the stance of a gait, every `BASELINE_EVERY` percent, solved in one batch."""
    foot = Foot(preset)
    percents = np.arange(0.0, 100.0 + 0.5 * BASELINE_EVERY, BASELINE_EVERY)
    values = {name: np.full(percents.size, value) for name, value in foot.values.items()}
    model = build({**values, "stance_percent": percents}, load_case(case))
    found = solve(model)
    feet = []
    for i, percent in enumerate(percents):
        one = slice(i, i + 1)
        alone = Equilibrium(
            found.freedoms[:, one], found.status[one], found.residual[one], found.steps[one],
            found.worst[:, one], (),
        )  # fmt: skip
        feet.append(Unchanged(foot, case, float(percent), take(model, np.array([i])), alone))
    return tuple(feet)


@dataclass(frozen=True)
class MovingFoot(LoadedFoot):
    """A foot in motion: `status` is `moving` until it has settled, and everything shown belongs to the very moment.

    In the swing of a stride `stance_percent` is 100 and `lift_mm` says how high the foot hangs.
    """

    lift_mm: float = 0.0

    @classmethod
    def of(
        cls, foot: Foot, case: str, stance_percent: float, model: Model, instant: Instant, worst: Array,
        residual_n: float, status: str,
    ) -> "MovingFoot":  # fmt: skip
        """The foot of a scene that travels with the limb, shown above a ground that stays.

        `model`: laws with the ground where a standing foot has it.
        """
        freedoms = instant.freedoms[:, None].copy()
        freedoms[list(_RISING)] += instant.lift_mm
        state = Equilibrium(
            freedoms, np.array([status]), np.array([residual_n]), np.zeros(1, dtype=int), worst, ()
        )
        return cls(foot, case, stance_percent, under(model, instant.moment), state, instant.lift_mm)

    @property
    def at_rest(self) -> bool:
        """Whether it may be shown: a moving state always may, it is no search that failed."""
        return self.status in (MOVING, CONVERGED, SLACK)

    @property
    def baseline(self) -> LoadedFoot:
        """The same preset unchanged under the same load, in a stride at the nearest moment kept."""
        if not load_case(self.case).moves:
            return super().baseline
        return baselines(self.foot.preset, self.case)[round(self.stance_percent / BASELINE_EVERY)]
