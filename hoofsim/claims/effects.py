"""What each factor does to a measure, and whether what one does depends on another.

Effects are means over all runs at a level that came to rest, so in an experiment where some runs did not, levels are
compared over what was left: `Effect.counts` says over how many. One at a time there are no combinations, and no
interaction can be read.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from hoofsim.claims.experiment import Results
from hoofsim.frames import Array


@dataclass(frozen=True)
class Effect:
    """Change of one measure along one factor's levels, from the untouched foot: mean, lowest and highest run.

    All (levels,) in the measure's unit, NaN where no run at that level came to rest; `counts` (levels,) runs at rest.
    """

    factor: str
    levels: tuple[str, ...]
    means: Array
    lowest: Array
    highest: Array
    counts: Array

    @property
    def size(self) -> float:
        """Largest difference between two levels' means; NaN when fewer than two levels have any."""
        known = self.means[np.isfinite(self.means)]
        return float(np.ptp(known)) if known.size > 1 else float("nan")


@dataclass(frozen=True)
class Interaction:
    """How far two factors together depart from the sum of their own effects at most, in the measure's unit."""

    first: str
    second: str
    size: float


def effects(results: Results, measure: str) -> list[Effect]:
    """The effect of every factor on a measure, in the experiment's order."""
    change = results.change(measure)
    untouched = np.array([factor.usual_index() for factor in results.experiment.factors])
    found = []
    for at, factor in enumerate(results.experiment.factors):
        mine = np.ones(results.count, dtype=bool)
        if results.experiment.design == "one at a time":
            others = np.delete(results.levels, at, axis=1) == np.delete(untouched, at)
            mine = np.all(others, axis=1)
        options = factor.options()
        runs = [change[mine & (results.levels[:, at] == index)] for index in range(len(options))]
        rest = [one[np.isfinite(one)] for one in runs]
        found.append(
            Effect(
                factor.title,
                tuple(level.name for level in options),
                _each(rest, np.mean),
                _each(rest, np.min),
                _each(rest, np.max),
                np.array([float(len(one)) for one in rest]),
            )
        )
    return found


def _each(runs: list[Array], summary: Callable[[Array], np.float64]) -> Array:
    return np.array([float(summary(one)) if one.size else np.nan for one in runs])


def cell_means(results: Results, measure: str, first: int, second: int) -> Array:
    """Mean change (levels of first, levels of second) over the runs at rest in each combination; NaN where none."""
    change = results.change(measure)
    known = np.isfinite(change)
    factors = results.experiment.factors
    shape = (len(factors[first].options()), len(factors[second].options()))
    at = np.ravel_multi_index((results.levels[known, first], results.levels[known, second]), shape)
    count = np.bincount(at, minlength=shape[0] * shape[1])
    total = np.bincount(at, weights=change[known], minlength=shape[0] * shape[1])
    return np.where(count > 0, total / np.maximum(count, 1), np.nan).reshape(shape)


def interactions(results: Results, measure: str) -> list[Interaction]:
    """Every pair of factors by how much they depend on each other for this measure, the largest first.

    A pair with a combination in which no run came to rest is left out: nothing can be said of it.
    """
    if results.experiment.design == "one at a time":
        return []
    found = []
    factors = results.experiment.factors
    for first, second in combinations(range(len(factors)), 2):
        cells = cell_means(results, measure, first, second)
        if np.all(np.isfinite(cells)):
            apart = (
                cells - cells.mean(axis=1, keepdims=True) - cells.mean(axis=0, keepdims=True) + cells.mean()
            )
            size = float(np.max(np.abs(apart)))
            found.append(Interaction(factors[first].title, factors[second].title, size))
    return sorted(found, key=lambda one: -one.size)
