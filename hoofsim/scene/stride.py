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
from hoofsim.mechanics.model import EXTENSOR, LIMB_HOLD_LIFTED, Model
from hoofsim.mechanics.types import Array
from hoofsim.scene.ramp import between, eased

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
# Slide past which a loaded station's grip follows it, mm (choice).
SLIP_MM = 1.0
# How far a standing foot goes back towards its place in one window of the clock, mm (choice: 25 mm a second).
BACK_MM = 0.25


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

    def moment(self, elapsed: float) -> Moment:
        """The limb's load and posture at this moment of the stride."""
        percent = self.stance_percent(elapsed)
        if percent is not None:
            return self.case.at(np.array([percent]))
        share = self.swing_share(elapsed)
        first, last = self.case.at(np.array([100.0])), self.case.at(np.array([0.0]))
        moved = between(first, last, eased(share))
        leaving, coming = _hand_over(share)
        return moved._replace(force_per_kg=leaving * first.force_per_kg + coming * last.force_per_kg)

    def carried(self, model: Model, elapsed: float) -> Model:
        """The same foot as the limb carries it in the swing: ground away, held at the joint, toe brought forward."""
        share = self.swing_share(elapsed)
        if share == 0.0:
            return model
        leaving, coming = _hand_over(share)
        on = SWING_EXTENSOR_N_PER_KG * eased(share / EXTENSOR_ON) * (1.0 - coming)
        tone = model.lines.tone.copy()
        tone[EXTENSOR] += on * model.values["body_mass_kg"]
        held = hung(model, self.lift_mm(elapsed), 1.0 - max(leaving, coming))
        return replace(held, lines=replace(model.lines, tone=tone))


def hung(model: Model, away_mm: float, share: float) -> Model:
    """The same foot with its ground `away_mm` lower and a share, 0 to 1, of the hold that carries a lifted limb."""
    gap = model.stations.gap.copy()
    gap[places.GROUND] += away_mm
    hold = share * LIMB_HOLD_LIFTED
    return replace(
        model,
        stations=replace(model.stations, gap=gap),
        limb_hold=model.limb_hold + hold,
        limb_lift_hold=model.limb_lift_hold + hold,
    )


def _hand_over(share: float) -> tuple[float, float]:
    """How much of the leaving and of the coming load acts at a share of the swing, 0 to 1."""
    return 1.0 - eased(share / HAND_OVER), 1.0 - eased((1.0 - share) / HAND_OVER)


def footing(model: Model, freedoms: Array, walking: bool, held: bool) -> tuple[Array, bool]:
    """Where the ground stations grip (stations, 1), mm, and whether any touches.

    A foot in the air takes its grip along and so stands where it lands; while it walks, so does each station not yet or
    no longer loaded. While it walks or is held, a loaded station that has slid further than `SLIP_MM` drags its grip
    behind: the friction law holds a foot near its place and was not made for long slides. A foot that stands is brought
    back to the place of its rest, as a horse shifts a foot put down awry: so it finds the equilibrium by whatever way.
    """
    sep = separations(model, bodies.poses(freedoms[:, None], model.hinge_x, model.hinge_y))
    slide, clear = sep.s[places.GROUND], sep.n[places.GROUND] > 0.0
    touching = not clear.all()
    grip = model.stations.grip.copy()
    here = grip[places.GROUND]
    if not touching:
        here += slide
    elif walking or held:
        here += np.where(clear & walking, slide, slide - np.clip(slide, -SLIP_MM, SLIP_MM))
    else:
        here -= np.clip(here, -BACK_MM, BACK_MM)
    return grip, touching
