"""From one foot or load to the next within a moment, so that a changed control moves the foot and does not strike it.

A control set at once would put the old pose into a new shape: bonds would tear and hooves slip from a blow that nobody
gave. All intermediate feet are built in one batch, because that costs hardly more than building one.
"""

from collections.abc import Mapping

import numpy as np

from hoofsim.errors import BadInput
from hoofsim.mechanics.loads import LoadCase, Moment
from hoofsim.mechanics.model import Model, build, take

# Windows of the clock over which a change comes on (choice).
RAMP_WINDOWS = 16


def eased(share: float) -> float:
    """0 to 1 with level ends, for a share of 0 to 1."""
    t = min(max(share, 0.0), 1.0)
    return t * t * t * (10.0 - 15.0 * t + 6.0 * t * t)


SHARES = tuple(eased((step + 1) / RAMP_WINDOWS) for step in range(RAMP_WINDOWS))


def feet_between(
    first: Mapping[str, float], last: Mapping[str, float], case: LoadCase
) -> list[tuple[dict[str, float], Model]]:
    """Values and models of `RAMP_WINDOWS` feet on the way from `first` to `last` controls, the last of them `last`.

    `BadInput` if `last` contradicts itself. A contradiction on the way leaves it out: the list is then `last` alone.
    """
    if first == last:
        return [(dict(last), _one(last, case))]
    shares = np.array(SHARES)
    values = {name: (1.0 - shares) * first[name] + shares * value for name, value in last.items()}
    try:
        models = build(values, case)
    except BadInput:
        return [(dict(last), _one(last, case))]
    return [
        ({name: float(value[i]) for name, value in values.items()}, take(models, np.array([i])))
        for i in range(RAMP_WINDOWS)
    ]


def _one(values: Mapping[str, float], case: LoadCase) -> Model:
    return build({name: np.array([value]) for name, value in values.items()}, case)


def between(first: Moment, last: Moment, share: float) -> Moment:
    """The load and posture at a share of the way from one moment to another."""
    return Moment(*((1.0 - share) * a + share * b for a, b in zip(first, last, strict=True)))
