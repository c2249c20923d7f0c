"""Whole stances of walk and trot, solved once and shared: what peaks, and when the heels leave the ground."""

from functools import lru_cache

import numpy as np

from hoofsim.errors import NoEquilibrium
from hoofsim.foot.parameters import DEFAULTS
from hoofsim.frames import Array
from hoofsim.mechanics.equilibrium import CONVERGED, solve
from hoofsim.mechanics.loads import CASES
from hoofsim.mechanics.model import build
from hoofsim.mechanics.outputs import Outputs, observe

MASS_KG = DEFAULTS["body_mass_kg"]
PERCENT = np.linspace(0.0, 100.0, 201)
SECOND_HALF = PERCENT >= 50.0
# Share of the ground's force under which a part counts as lifted.
LIFTED = 0.01


@lru_cache(maxsize=16)
def stance(case: str, **changes: float) -> Outputs:
    """The sound foot, with `changes`, at 201 moments of a stance; `NoEquilibrium` unless every moment is at rest."""
    values = {name: np.full(PERCENT.size, float(value)) for name, value in {**DEFAULTS, **changes}.items()}
    model = build({**values, "stance_percent": PERCENT}, CASES[case])
    found = solve(model)
    lost = PERCENT[found.status != CONVERGED]
    if lost.size:
        raise NoEquilibrium(f"{case}: no state of rest at {lost[0]:g} % of the stance")
    return observe(model, found.freedoms, found.worst)


def over_stance(case: str, output: str, **changes: float) -> Array:
    """One mechanical output at those moments."""
    return stance(case, **changes).mechanics[output]


def peak(case: str, output: str, **changes: float) -> float:
    """Largest value of it over the stance."""
    return float(over_stance(case, output, **changes).max())


def coffin_moment(case: str, **changes: float) -> Array:
    """Moment of the ground's force about the coffin joint at those moments, N mm per kg of body mass."""
    force = CASES[case].at(PERCENT).force_per_kg
    moment: Array = over_stance(case, "ground_force_lever", **changes) * force
    return moment


def breakover_starts(case: str) -> float:
    """Share of the stance, %, at which the part of the foot behind the coffin joint no longer presses on the ground."""
    seen = stance(case)
    ground = seen.stations["ground"]
    behind = ground.bone_end[..., 0] < seen.points["cor"][None, :, 0]
    palmar = (ground.normal * behind).sum(axis=0)
    return float(PERCENT[SECOND_HALF & (palmar < LIFTED * ground.normal.sum(axis=0))][0])
