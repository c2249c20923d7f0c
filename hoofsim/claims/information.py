"""What to look at next: how much a further reading, or a whole experiment, is expected to separate the accounts.

Expected information is the mutual information between "which account" and the new readings, in bits, given what has
been read already: 0 says that it would teach nothing, log2 of the number of accounts left that it would settle the
matter. It is estimated by drawing accounts and amounts as they now stand, drawing the readings that they would give
with their errors, and asking how far the accounts would then be apart.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.readings import observation
from hoofsim.claims.separability import Separation
from hoofsim.files.experiment import Experiment
from hoofsim.frames import Array
from hoofsim.measures import MEASURES

ERROR_DEG_OR_MM = 1.0
"""Assumed standard error of a further reading, degrees or mm; for a ratio, a hundredth."""
_DRAWS = 3000
_SEED = 7
_EVERY = 5  # amounts kept: a fifth of the grid of `separability` is fine enough for an expectation


@dataclass(frozen=True)
class Advice:
    """A further observation and what it is worth: `bits` of information about which account holds."""

    name: str
    measures: tuple[str, ...]
    bits: float


def next_measures(separation: Separation, errors: Mapping[str, float] | None = None) -> list[Advice]:
    """Every further measure that a radiograph shows and this foot's landmarks allow, the most telling first.

    Measures that look at what has been observed already are left out, and of several that look at the same thing
    only the most telling is kept.
    """
    return each_once(next_observations(separation, unread(separation), errors))


def unread(separation: Separation) -> dict[str, tuple[str, ...]]:
    """Every measure that a radiograph shows and that looks at nothing observed already, as candidates."""
    seen = {observation(name) for name in separation.readings.measures}
    return {
        name: (name,)
        for name, measure in MEASURES.items()
        if measure.readable and measure.kind == "points" and observation(name) not in seen
    }


def each_once(advice: Sequence[Advice]) -> list[Advice]:
    """Of several that look at the same thing, only the first."""
    told: set[str] = set()
    kept = []
    for one in advice:
        if observation(one.name) not in told:
            told.add(observation(one.name))
            kept.append(one)
    return kept


def next_observations(
    separation: Separation,
    candidates: Mapping[str, Sequence[str]],
    errors: Mapping[str, float] | None = None,
) -> list[Advice]:
    """Candidates (name -> the measures it would read together) by expected information, the most telling first.

    A candidate whose measures this foot's landmarks do not allow is left out.
    """
    standings = [standing for standing in separation.standings.values() if not standing.excluded]
    chances = np.array([standing.likelihood for standing in standings])
    if len(standings) < 2 or chances.sum() <= 0.0:
        return []
    chances = chances / chances.sum()
    amounts = [standing.amounts[::_EVERY] for standing in standings]
    weights = [_thinned(standing.weights) for standing in standings]
    baseline = separation.readings.baseline
    changes = [
        ACCOUNTS[standing.account].predict_change(baseline, each)
        for standing, each in zip(standings, amounts, strict=True)
    ]
    advice = []
    for name, measures in candidates.items():
        if all(measure in changes[0] for measure in measures):
            scale = np.array([_error(measure, errors) for measure in measures])
            curves = [np.stack([change[m] for m in measures], axis=-1) / scale for change in changes]
            advice.append(Advice(name, tuple(measures), _information(chances, weights, curves)))
    return ranked(advice)


def ranked(advice: Iterable[Advice]) -> list[Advice]:
    """The most telling first, and by name among equals."""
    return sorted(advice, key=lambda one: (-round(one.bits, 3), one.name))


def next_experiments(separation: Separation, experiments: Mapping[str, Experiment]) -> list[Advice]:
    """Experiments (by name) by what reading their measures together would be expected to tell, the most telling first.

    Only measures that a radiograph shows and that have not been observed count.
    """
    seen = {observation(name) for name in separation.readings.measures}
    candidates = {}
    for name, experiment in experiments.items():
        fresh = [
            measure
            for measure in experiment.measures
            if MEASURES[measure].readable
            and MEASURES[measure].kind == "points"
            and observation(measure) not in seen
        ]
        if fresh:
            candidates[name] = fresh
    return next_observations(separation, candidates)


def _error(measure: str, errors: Mapping[str, float] | None) -> float:
    if errors and measure in errors:
        return float(errors[measure])
    return 0.01 if MEASURES[measure].unit == "1" else ERROR_DEG_OR_MM


def _thinned(weights: Array) -> Array:
    kept = np.add.reduceat(weights, np.arange(0, len(weights), _EVERY))
    return np.asarray(kept / kept.sum())


def _information(chances: Array, weights: Sequence[Array], curves: Sequence[Array]) -> float:
    """Mutual information in bits between the account and readings of unit error; `curves` are (amounts, M)."""
    random = np.random.default_rng(_SEED)
    size = curves[0].shape[-1]
    which = random.choice(len(chances), _DRAWS, p=chances)
    noise = random.normal(size=(_DRAWS, size))
    drawn = np.empty((_DRAWS, size))
    for index, (weight, curve) in enumerate(zip(weights, curves, strict=True)):
        mine = np.flatnonzero(which == index)
        drawn[mine] = curve[random.choice(len(weight), len(mine), p=weight)] + noise[mine]
    density = np.empty((len(chances), _DRAWS))
    for index, (weight, curve) in enumerate(zip(weights, curves, strict=True)):
        off = np.sum((drawn[:, None, :] - curve[None, :, :]) ** 2, axis=-1)
        density[index] = np.exp(-0.5 * off) @ weight
    density = np.maximum(density, 1e-300)
    mixture = chances @ density
    bits = np.log2(density[which, np.arange(_DRAWS)] / mixture)
    return max(float(bits.mean()), 0.0)
