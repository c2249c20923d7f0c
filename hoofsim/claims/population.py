"""How much sound feet differ from one another: needed wherever a case has no baseline of its own, and to invent feet.

Feet are drawn with the spreads that the table of controls gives for shape; a draw that contradicts itself is drawn
again. Controls without a spread (bone length, toe and heel length) stay as in the sound foot, so the real variety of
feet is larger than this: a limit that the reports repeat.
"""

from functools import lru_cache

import numpy as np

from hoofsim.errors import BadInput
from hoofsim.foot.geometry import rest_foot
from hoofsim.foot.parameters import DEFAULTS, PARAMETERS
from hoofsim.frames import Array
from hoofsim.measures import measure_all

VARIED = tuple(parameter for parameter in PARAMETERS if parameter.group == "shape" and parameter.spread)
FURTHEST_DRAW = 2.0
"""Draws further than this many spreads from the default are drawn again."""
_FEET = 400
_SEED = 20_000


@lru_cache(maxsize=1)
def _sound() -> dict[str, Array]:
    points = {name: xy[0] for name, xy in rest_foot(_as_arrays(dict(DEFAULTS))).points.items()}
    for xy in points.values():
        xy.flags.writeable = False
    return points


def sound_points() -> dict[str, Array]:
    """Landmark name -> (2,) mm of the sound foot at rest, the baseline of a case that brings none."""
    return dict(_sound())


def _as_arrays(values: dict[str, float]) -> dict[str, Array]:
    return {name: np.array([value]) for name, value in values.items()}


def draw_feet(random: np.random.Generator, count: int) -> dict[str, Array]:
    """Landmarks (count, 2) mm of sound feet at rest, drawn with the spreads of the table of controls."""
    values = {name: np.full(count, value) for name, value in DEFAULTS.items()}
    for parameter in VARIED:
        steps = random.normal(size=count)
        while np.any(far := np.abs(steps) > FURTHEST_DRAW):
            steps[far] = random.normal(size=int(far.sum()))
        drawn = parameter.default + steps * (parameter.spread or 0.0)
        values[parameter.name] = np.clip(drawn, parameter.low, parameter.high)
    return _placed(values, slice(0, count), random)


def _placed(values: dict[str, Array], part: slice, random: np.random.Generator) -> dict[str, Array]:
    """Landmarks of the feet in `part`, each contradictory one replaced by a fresh draw."""
    mine = {name: value[part] for name, value in values.items()}
    count = part.stop - part.start
    try:
        return rest_foot(mine).points
    except BadInput:
        if count == 1:
            return draw_feet(random, 1)
        halves = [
            _placed(mine, slice(0, count // 2), random),
            _placed(mine, slice(count // 2, count), random),
        ]
        return {name: np.concatenate([half[name] for half in halves]) for name in halves[0]}


@lru_cache(maxsize=1)
def _population() -> dict[str, Array]:
    random = np.random.default_rng(_SEED)
    stacked = draw_feet(random, _FEET)
    return {name: value for name, value in measure_all(stacked).items() if value is not None}


def between_feet(measures: tuple[str, ...]) -> Array:
    """Covariance (M, M) of the named point measures between sound feet, in the measures' units."""
    found = _population()
    return np.atleast_2d(np.cov(np.stack([found[name] for name in measures])))
