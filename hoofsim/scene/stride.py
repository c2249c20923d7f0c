"""A stride played: the stance as the load case has it, then a swing that takes the foot off the ground and back.

The scene travels with the limb: in the swing it is the ground that sinks away under the foot and comes back, so that
neither drag nor the scaled inertia can pull at the horn. `MovingFoot` shows the same the other way about.
"""

from dataclasses import dataclass, replace

import numpy as np

from hoofsim.mechanics import bodies
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.assembly import separations
from hoofsim.mechanics.loads import LoadCase, Moment
from hoofsim.mechanics.model import LIMB_HOLD_LIFTED, Model, under
from hoofsim.mechanics.types import Array

# Time in the air and height of the coffin joint's flight (choices; a leisurely walk and trot on the straight).
SWING_S = {"walk": 0.45, "trot": 0.42}
LIFT_MM = {"walk": 45.0, "trot": 70.0}
# No two strides are quite alike: spread of the height, as a share (choice).
LIFT_SPREAD = 0.04
# The extensor's pull that carries the toe forward in the air, N per kg of the horse (choice: it lands level or a little
# heel first), and the share of the swing in which it comes on.
SWING_EXTENSOR_N_PER_KG, EXTENSOR_ON = 0.4, 0.25
# Share of the swing over which the limb's hold takes over from the load, and hands back (choice).
HAND_OVER = 0.12


def _smooth(share: float) -> float:
    """0 to 1 with level ends, for a share of 0 to 1."""
    t = min(max(share, 0.0), 1.0)
    return t * t * t * (10.0 - 15.0 * t + 6.0 * t * t)


@dataclass(frozen=True)
class Stride:
    """One gait's clock. `elapsed` counts seconds of the horse's own time since the foot first landed."""

    case: LoadCase
    height: float = 1.0

    @property
    def stance_s(self) -> float:
        """Time on the ground, s."""
        assert self.case.stance_s is not None
        return self.case.stance_s

    @property
    def duration_s(self) -> float:
        """Time from landing to landing, s."""
        return self.stance_s + SWING_S[self.case.name]

    def stance_percent(self, elapsed: float) -> float | None:
        """Share of the stance, or None in the swing."""
        here = elapsed % self.duration_s
        return 100.0 * here / self.stance_s if here <= self.stance_s else None

    def swing_share(self, elapsed: float) -> float:
        """Share of the swing, 0 to 1; 0 in the stance."""
        here = elapsed % self.duration_s - self.stance_s
        return max(0.0, here / SWING_S[self.case.name])

    def lift_mm(self, elapsed: float) -> float:
        """Height of the foot above where it stood."""
        share = self.swing_share(elapsed)
        return LIFT_MM[self.case.name] * self.height * 16.0 * (share * (1.0 - share)) ** 2

    def model(self, model: Model, elapsed: float, grip: Array) -> Model:
        """The foot's model at this moment of the stride, its ground stations gripping at `grip` (stations, 1) mm."""
        percent = self.stance_percent(elapsed)
        if percent is not None:
            moved = under(model, self.case.at(np.array([percent])))
            return replace(moved, stations=replace(model.stations, grip=grip))
        share = self.swing_share(elapsed)
        first, last = self.case.at(np.array([100.0])), self.case.at(np.array([0.0]))
        on = _smooth(share)
        # The hold takes over from the leaving load, and hands back to the coming one.
        leaving, coming = 1.0 - _smooth(share / HAND_OVER), 1.0 - _smooth((1.0 - share) / HAND_OVER)
        hold = LIMB_HOLD_LIFTED * (1.0 - max(leaving, coming))
        moved = under(model, Moment(
            leaving * first.force_per_kg + coming * last.force_per_kg,
            (1.0 - on) * first.pastern_turn + on * last.pastern_turn,
            (1.0 - on) * first.fetlock_extension + on * last.fetlock_extension,
        ))  # fmt: skip
        tone = SWING_EXTENSOR_N_PER_KG * _smooth(share / EXTENSOR_ON) * (1.0 - coming)
        gap = model.stations.gap.copy()
        gap[places.GROUND] += self.lift_mm(elapsed)
        return replace(
            moved,
            stations=replace(model.stations, gap=gap, grip=grip),
            extensor=replace(moved.extensor, tone=moved.extensor.tone + tone * model.values["body_mass_kg"]),
            limb_hold=model.limb_hold + hold,
            limb_lift_hold=model.limb_lift_hold + hold,
        )


def footing(model: Model, freedoms: Array) -> tuple[Array, bool]:
    """Where the ground stations grip (stations, 1), mm, and whether any touches: one in the air takes its place along."""
    sep = separations(model, bodies.poses(freedoms[:, None], model.hinge_x, model.hinge_y))
    clear = sep.n[places.GROUND] > 0.0
    grip = model.stations.grip.copy()
    grip[places.GROUND] += np.where(clear, sep.s[places.GROUND], 0.0)
    return grip, not clear.all()
