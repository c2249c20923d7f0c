"""Match a case: the foot's values and states that reproduce a case's readings, and which of them the readings fix.

Bounded least squares on the engine: Levenberg-Marquardt steps from several starts at once, every derivative (one-sided
differences) and every trial step of all starts solved in one batch. Controls are scaled by their allowed range. What
the readings cannot fix is read from the singular values of the derivative at the answer, and said.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.claims.distributions import chi_square_tail
from hoofsim.claims.separability import whitener
from hoofsim.errors import BadInput, NoEquilibrium
from hoofsim.foot.parameters import BY_NAME, parameter
from hoofsim.frames import Array
from hoofsim.measures import find
from hoofsim.model import Foot, sweep

USUAL_CONTROLS = (
    "hoof_angle_deg", "palmar_angle_deg", "sole_depth_mm", "wall_to_bone_mm", "tip_to_frog_mm", "healed_rotation_deg",
    "healed_sinking_mm", "healed_sole_follows_percent", "heel_change_mm", "toe_change_mm", "laminae_percent",
)  # fmt: skip
MOST_CONTROLS = 16
STARTS = 6
MOST_STEPS = 25
FIXED_FROM = 2.0
"""A direction is fixed by the readings when moving along it by half its allowed range changes them by more than this
many standard errors."""
STAY = 1.0
"""Departure from the unchanged foot, in a control's whole range, that weighs as much as one standard error."""
_SEED = 3
_SHARES = (1.0, 0.4, 0.1)  # of each step, tried together: a full one may lead to a foot that cannot be
_DIFFERENCE = 0.004  # of a control's range
_DAMPINGS = (1e-3, 1e-1, 1e1)  # times the present damping: all three are tried in the same batch
_SETTLED = 1e-6
_LOST = 1e12  # misfit of a foot without a state of rest
_OTHER_ANSWER = 4.0  # misfit above the best within which another start's answer counts as one too
LEAST_PART = 0.2
"""Controls with less than this share in a direction are not named in it."""
_APART = 0.15  # of a range: answers nearer than this are the same


@dataclass(frozen=True)
class Loose:
    """A direction that the readings do not fix: weights by control (of its range), the largest 1 in size."""

    weights: dict[str, float]
    strength: float
    """Standard errors by which the readings change along half the allowed range: below `FIXED_FROM`."""


@dataclass(frozen=True)
class Match:
    """The best foot. `values`, `errors` (one standard error, infinite when not fixed) and `at_limit` by control.

    `reproduced` and `wanted`: measure -> value. `misfit`: chi-square; `fit`: chance of so large a one, were the model
    able to reproduce the case. `others`: other answers that fit about as well, by control.
    """

    preset: str
    load: str
    values: dict[str, float]
    errors: dict[str, float]
    at_limit: tuple[str, ...]
    wanted: dict[str, float]
    reproduced: dict[str, float]
    reading_errors: dict[str, float]
    misfit: float
    fit: float
    loose: tuple[Loose, ...]
    others: tuple[dict[str, float], ...]

    def fixed(self, control: str) -> bool:
        """True when the readings fix this control: it has no noticeable part in a loose direction."""
        return all(abs(one.weights.get(control, 0.0)) < 0.3 for one in self.loose)


Progress = Callable[[int, int], bool | None]


def match(
    measures: Sequence[str],
    values: Array,
    covariance: Array,
    controls: Sequence[str] = USUAL_CONTROLS,
    foot: Foot | None = None,
    load: str = "standing",
    progress: Progress | None = None,
) -> Match:
    """The foot that reproduces `values` (M,) of `measures`, whose errors have `covariance` (M, M), in the measures' units.

    `controls`: those that may vary within their ranges; all others stay as in `foot` (the sound foot). `BadInput` for
    names that cannot be used, `NoEquilibrium` when no start found a foot at rest.
    """
    start_foot = foot or Foot("sound")
    problem = _Problem(tuple(measures), values, covariance, _checked(controls), start_foot, load)
    random = np.random.default_rng(_SEED)
    at, misfit = _descend(problem, _starts(problem, random), progress)
    best = int(np.argmin(misfit))
    if misfit[best] >= _LOST:
        raise NoEquilibrium(
            "No foot with a state of rest was found near the readings: vary other controls, or fewer."
        )
    return _answer(problem, at, misfit, best)


def _starts(problem: "_Problem", random: np.random.Generator) -> Array:
    """Places to start from (S, K): the foot's own, and others drawn round it, nearer where no such foot can be."""
    own = np.clip(problem.own, 0.02, 0.98)
    away = 0.25 * random.normal(size=(STARTS - 1, own.size))
    for _ in range(4):
        at = np.clip(own + away, 0.02, 0.98)
        lost = ~np.all(np.isfinite(problem.readings(at)), axis=1)
        away[lost] *= 0.5
    return np.concatenate([own[None, :], np.clip(own + away, 0.02, 0.98)])


def _checked(controls: Sequence[str]) -> tuple[str, ...]:
    names = tuple(dict.fromkeys(controls))
    for name in names:
        parameter(name)
        if name in ("tendon_cut", "stance_percent"):
            raise BadInput(
                f"'{name}' cannot be varied for a match: it is a switch or a moment, set it on the foot"
            )
    if not 1 <= len(names) <= MOST_CONTROLS:
        raise BadInput(f"{len(names)} controls to vary: allowed 1 to {MOST_CONTROLS}")
    return names


@dataclass(frozen=True)
class _Problem:
    """Readings to reproduce and controls to do it with; controls are scaled to 0..1 of their range."""

    measures: tuple[str, ...]
    values: Array
    covariance: Array
    controls: tuple[str, ...]
    foot: Foot
    load: str

    @property
    def own(self) -> Array:
        """The unchanged foot's values, scaled."""
        return np.array(
            [(self.foot.values[name] - low) / (high - low) for name, (low, high) in self.ranges.items()]
        )

    @property
    def ranges(self) -> dict[str, tuple[float, float]]:
        """Allowed range of each control."""
        return {name: (BY_NAME[name].low, BY_NAME[name].high) for name in self.controls}

    def settings(self, at: Array) -> dict[str, Array]:
        """Values of the controls (N,) at scaled places (N, K)."""
        return {
            name: np.clip(low + at[:, index] * (high - low), low, high)
            for index, (name, (low, high)) in enumerate(self.ranges.items())
        }

    def readings(self, at: Array) -> Array:
        """Measures (N, M) of the feet at scaled places (N, K); NaN where there is no state of rest or no such foot."""
        try:
            table = sweep(self.foot, self.settings(at), self.load)
        except BadInput:  # somewhere in the batch is a foot whose values contradict each other: find which
            if len(at) == 1:
                return np.full((1, len(self.measures)), np.nan)
            half = len(at) // 2
            return np.concatenate([self.readings(at[:half]), self.readings(at[half:])])
        found = np.stack([table[name] for name in self.measures], axis=-1)
        found[table.status != "converged"] = np.nan
        return found

    def off(self, at: Array) -> Array:
        """Departures (N, E + K): from the readings, in independent standard errors, and from the unchanged foot.

        The second part is weak; it keeps what the readings do not fix where it was. NaN as in `readings`.
        """
        departures = (self.readings(at) - self.values) @ whitener(self.covariance).T
        return np.concatenate([departures, (at - self.own) / STAY], axis=1)


def _misfit(off: Array) -> Array:
    total = np.sum(off**2, axis=-1)
    return np.where(np.isfinite(total), total, _LOST)


def _slopes(problem: _Problem, at: Array, off: Array) -> Array:
    """Derivative (N, E, K) of the departures by the scaled controls, stepping inward; 0 where no foot is at rest."""
    count, size = at.shape
    step = np.where(at > 0.5, -_DIFFERENCE, _DIFFERENCE)
    moved = at[:, None, :] + step[:, None, :] * np.eye(size)
    there = problem.off(moved.reshape(-1, size)).reshape(count, size, -1)
    slope = (there - off[:, None, :]) / step[:, :, None]
    return np.asarray(np.swapaxes(np.where(np.isfinite(slope), slope, 0.0), 1, 2))


def _descend(problem: _Problem, at: Array, progress: Progress | None) -> tuple[Array, Array]:
    """Levenberg-Marquardt from every start (S, K) at once, inside the ranges."""
    off = problem.off(at)
    misfit = _misfit(off)
    damping = np.ones(len(at))
    for count in range(MOST_STEPS):
        slope = _slopes(problem, at, off)
        steps = [_step(at, off, slope, damping * factor) - at for factor in _DAMPINGS]
        trials = np.stack([at + share * step for step in steps for share in _SHARES], axis=1)
        there = problem.off(trials.reshape(-1, at.shape[1])).reshape(*trials.shape[:2], -1)
        found = _misfit(there)
        best = np.argmin(found, axis=1)
        rows = np.arange(len(at))
        better = found[rows, best] < misfit
        gain = np.where(better, misfit - found[rows, best], 0.0)
        at = np.where(better[:, None], trials[rows, best], at)
        off = np.where(better[:, None], there[rows, best], off)
        misfit = np.where(better, found[rows, best], misfit)
        damping = np.clip(
            np.where(better, damping * np.array(_DAMPINGS)[best // len(_SHARES)], damping * 30.0), 1e-8, 1e10
        )
        if progress is not None and progress(count + 1, MOST_STEPS) is False:
            break
        if np.all(gain <= _SETTLED * (1.0 + misfit)) and (not better.any() or count > 3):
            break
    return at, misfit


def _step(at: Array, off: Array, slope: Array, damping: Array) -> Array:
    """Damped steps (S, K); a control at its limit that would leave it is held there."""
    off = np.where(np.isfinite(off), off, 0.0)
    gradient = np.einsum("sek,se->sk", slope, off)
    held = ((at <= 0.0) & (gradient > 0.0)) | ((at >= 1.0) & (gradient < 0.0))
    free = np.where(held, 0.0, 1.0)
    slope = slope * free[:, None, :]
    matrix = np.einsum("sek,sel->skl", slope, slope)
    size = at.shape[1]
    scale = np.einsum("skk->sk", matrix) + 1.0
    matrix = matrix + (damping[:, None] * scale)[:, :, None] * np.eye(size) + 1e-9 * np.eye(size)
    move = np.linalg.solve(matrix, -(gradient * free)[:, :, None])[:, :, 0]
    return np.clip(at + move, 0.0, 1.0)


def _answer(problem: _Problem, at: Array, misfit: Array, best: int) -> Match:
    here = at[best : best + 1]
    readings = problem.readings(here)[0]
    slope = _slopes(problem, here, problem.off(here))[0][: -len(problem.controls)]
    white = whitener(problem.covariance)
    apart = float(np.sum((white @ (readings - problem.values)) ** 2))
    _, strengths, directions = np.linalg.svd(slope, full_matrices=True)
    strengths = np.concatenate([strengths, np.zeros(len(directions) - len(strengths))])
    reach = 0.5 * strengths
    loose = tuple(
        Loose(_weights(problem.controls, direction), float(size))
        for direction, size in zip(directions, reach, strict=True)
        if size < FIXED_FROM
    )
    fixed = reach >= FIXED_FROM
    variance = np.sum((directions[fixed] / strengths[fixed, None]) ** 2, axis=0)
    values = {name: float(value[0]) for name, value in problem.settings(here).items()}
    errors = {}
    for index, (name, (low, high)) in enumerate(problem.ranges.items()):
        part = max((abs(one.weights.get(name, 0.0)) for one in loose), default=0.0)
        errors[name] = float("inf") if part >= 0.3 else float(np.sqrt(variance[index])) * (high - low)
    degrees = max(slope.shape[0] - int(fixed.sum()), 0)
    close = np.flatnonzero(misfit <= misfit[best] + _OTHER_ANSWER)
    return Match(
        preset=problem.foot.preset,
        load=problem.load,
        values=values,
        errors=errors,
        at_limit=tuple(
            name
            for name, place in zip(problem.controls, here[0], strict=True)
            if place <= 0.0 or place >= 1.0
        ),
        wanted=dict(zip(problem.measures, problem.values.tolist(), strict=True)),
        reproduced=dict(zip(problem.measures, readings.tolist(), strict=True)),
        reading_errors=dict(
            zip(problem.measures, np.sqrt(np.diag(problem.covariance)).tolist(), strict=True)
        ),
        misfit=apart,
        fit=chi_square_tail(apart, degrees),
        loose=loose,
        others=_others(problem, at[close], here[0]),
    )


def _weights(controls: Sequence[str], direction: Array) -> dict[str, float]:
    scaled = direction / direction[np.argmax(np.abs(direction))]
    return {name: float(part) for name, part in zip(controls, scaled, strict=True) if abs(part) >= LEAST_PART}


def _others(problem: _Problem, places: Array, best: Array) -> tuple[dict[str, float], ...]:
    """Answers of other starts that lie apart from the best one and from each other."""
    kept = [best]
    for place in places:
        if all(np.max(np.abs(place - one)) > _APART for one in kept):
            kept.append(place)
    return tuple(
        {name: float(value[0]) for name, value in problem.settings(place[None, :]).items()}
        for place in kept[1:]
    )


def checked_measures(measures: Sequence[str]) -> None:
    """BadInput for a measure that does not exist or depends on a baseline, which a match has not."""
    for name in measures:
        if find(name).kind == "change":
            raise BadInput(f"'{name}' is a change from a baseline; a match takes measures as they stand")
