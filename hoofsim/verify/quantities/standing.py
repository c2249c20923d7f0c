"""The standing foot: what it carries, where, and what tendon and navicular bear."""

from functools import lru_cache

import numpy as np

from hoofsim.errors import NoEquilibrium
from hoofsim.model import Foot, LoadedFoot


@lru_cache(maxsize=4)
def standing(**changes: float) -> LoadedFoot:
    """The sound foot standing, with `changes`."""
    return Foot("sound", **changes).load("standing")


def read(loaded: LoadedFoot, measure: str) -> float:
    """One measure of a loaded foot; `NoEquilibrium` when the foot is not at rest."""
    value = loaded.measures()[measure]
    if value is None:
        raise NoEquilibrium(f"{loaded.foot.preset}, {loaded.case}: no state of rest to read {measure} from")
    return value


def reading(measure: str, **changes: float) -> float:
    """One measure of the sound foot standing, with `changes`."""
    return read(standing(**changes), measure)


def forefoot_load() -> float:
    """Vertical force of the ground, N."""
    return float(standing().forces["ground"].force[1])


def centre_of_pressure() -> float:
    """Behind the projected toe, mm."""
    return reading("centre_of_pressure")


def pressure_ahead_of_joint() -> float:
    """Lever of the ground's force about the coffin joint, mm."""
    return reading("ground_force_lever")


def tendon_tension() -> float:
    """Tension of the deep flexor tendon, N."""
    return reading("tendon_tension")


def navicular_load() -> float:
    """Tendon's force on the navicular bone, N."""
    return reading("navicular_load")


def joint_force(loaded: LoadedFoot) -> float:
    """Bone-to-bone force of the coffin joint, N: what balances ground, tendon at its insertion, and extensor."""
    forces = loaded.forces
    total = forces["ground"].force + forces["tendon"].force + forces["extensor"].force
    return float(np.linalg.norm(total))
