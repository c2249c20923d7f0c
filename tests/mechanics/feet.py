"""Batches of feet for the tests: from a preset, or spread over the whole control space by a Latin hypercube."""

import numpy as np
from scipy.stats import qmc

from hoofsim.foot.parameters import DEFAULTS, PARAMETERS
from hoofsim.foot.presets import preset
from hoofsim.mechanics.loads import load_case
from hoofsim.mechanics.model import Model, build

CONTROLS = tuple(p for p in PARAMETERS if p.group in ("trim", "bonds", "tendon", "load"))


def values(count: int = 1, foot: str = "sound", **changes: object) -> dict[str, np.ndarray]:
    """Values (count,) of every control: a preset with some controls changed."""
    own = {name: np.full(count, value) for name, value in preset(foot).values.items()}
    return own | {
        name: np.broadcast_to(np.asarray(value, dtype=float), (count,)) for name, value in changes.items()
    }


def model(case: str = "standing", count: int = 1, foot: str = "sound", **changes: object) -> Model:
    return build(values(count, foot, **changes), load_case(case))


def hypercube(count: int, seed: int) -> dict[str, np.ndarray]:
    """Sound feet with every trim, bond, tendon and load control spread over its whole range."""
    shares = qmc.LatinHypercube(len(CONTROLS), seed=seed).random(count)
    spread = {name: np.full(count, value) for name, value in DEFAULTS.items()}
    for column, control in enumerate(CONTROLS):
        spread[control.name] = control.low + (control.high - control.low) * shares[:, column]
    spread["tendon_cut"] = np.round(spread["tendon_cut"])
    return spread
