"""The state of rest of a batch of feet: the minimum of potential energy by damped Newton steps.

Every foot ends with a status and a trace, never a silent answer:
  converged       forces balance to 1e-6 of the load and the Hessian is positive definite: a stable state of rest
  slack           forces balance, but some part is loose and could move without resistance
  torn through    no state of rest found, and most of the attached bonds have torn on the way
  no equilibrium  no state of rest found
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hoofsim.mechanics import bodies
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.assembly import Evaluation, evaluate, no_history, separations
from hoofsim.mechanics.elements.bond import damage, effective_strain
from hoofsim.mechanics.linear import solve_symmetric
from hoofsim.mechanics.model import Model, take
from hoofsim.mechanics.types import Array

CONVERGED, SLACK, TORN, NONE = "converged", "slack", "torn through", "no equilibrium"
STATUSES = (CONVERGED, SLACK, TORN, NONE)

TOLERANCE = 1e-6
# Forces under this count as balanced when a foot carries nothing, N.
LEAST_LOAD_N = 50.0
MOST_STEPS = 120
CHUNK = 384
LONGEST_STEP_MM = 4.0
FIRST_DAMPING, HOPELESS_DAMPING = 10.0, 1e12
# Smallest pivot (N/mm, turns scaled by ARM_MM) that counts as resistance.
LEAST_PIVOT = 1e-7
RAMP_STEPS = 12
TORN_DAMAGE, TORN_SHARE = 0.99, 0.5


@dataclass(frozen=True)
class Equilibrium:
    """Result of a batch. freedoms (11, B); status (B,) strings; residual (B,) N; steps (B,) Newton steps taken;
    worst (bonded, B): largest strain of each bond so far; trace: residual / load of the slowest foot after each step."""

    freedoms: Array
    status: np.ndarray
    residual: Array
    steps: np.ndarray
    worst: Array
    trace: tuple[float, ...]


@dataclass
class _Search:
    freedoms: Array
    residual: Array
    pivot: Array
    steps: np.ndarray
    trace: list[float]


# Pose of the sound foot standing, and how each freedom grows with the load: where every search starts.
_STANDING = np.array([0.0, -1.46, 0.004, 0.003, 0.0, -0.134, 0.0, -0.03, -0.72, 0.007, -0.02])[:, None]
_GROWTH = np.array([1.0, 0.4, 0.4, 0.4, 1.0, 0.73, 1.0, 0.4, 0.4, 0.4, 0.6])[:, None]
_STANDING_LOAD_N = 1422.0


def first_guess(model: Model) -> Array:
    """A pose (11, B) a little pressed onto the ground, where every contact already pushes."""
    if model.case.lifted:
        return np.zeros((bodies.COUNT, model.batch))
    size = model.rest.scale**2 * _STANDING_LOAD_N
    guess: Array = _STANDING * np.clip(model.force / size, 0.02, 6.0) ** _GROWTH
    return guess


def largest_force(gradient: Array) -> Array:
    """Largest unbalanced force (B,) in N; moments count as forces at ARM_MM."""
    out: Array = np.abs(gradient * bodies.scales()[:, None]).max(axis=0)
    return out


def _of(state: Evaluation, index: NDArray[np.intp]) -> Evaluation:
    """The evaluation of the feet at `index` only."""
    return Evaluation(state.energy[index], state.gradient[:, index], state.hessian[:, :, index])


def _damped_step(state: Evaluation, damping: Array) -> tuple[Array, Array]:
    """Newton step (11, B), and the damping that made the matrix definite; a radian counts as ARM_MM in both."""
    scale = bodies.scales()[:, None]
    damping = damping.copy()
    found, pivot = _factor(state, damping)
    bad = np.flatnonzero(~((pivot > LEAST_PIVOT) & np.isfinite(found).all(axis=0)))
    found[:, bad] = 0.0
    while bad.size:
        damping[bad] = np.maximum(damping[bad] * 6.0, FIRST_DAMPING)
        bad = bad[damping[bad] < HOPELESS_DAMPING]
        step, pivot = _factor(_of(state, bad), damping[bad])
        good = (pivot > LEAST_PIVOT) & np.isfinite(step).all(axis=0)
        found[:, bad[good]] = step[:, good]
        bad = bad[~good]
    longest = np.abs(found / scale).max(axis=0)
    found *= np.minimum(1.0, LONGEST_STEP_MM / np.maximum(longest, 1e-30))
    return found, damping


def _factor(state: Evaluation, damping: Array) -> tuple[Array, Array]:
    """Newton step (11, B) with the diagonal raised by `damping` (B,) N/mm, and the smallest pivot in N/mm."""
    scale = bodies.scales()
    matrix = state.hessian
    if damping.any():
        matrix = matrix.copy()
        diagonal = np.arange(bodies.COUNT)
        matrix[diagonal, diagonal] += damping / (scale * scale)[:, None]
    step, pivots = solve_symmetric(matrix, -state.gradient)
    return step, (pivots * (scale * scale)[:, None]).min(axis=0)


def _search(model: Model, start: Array, worst: Array) -> _Search:
    """Minimise the energy of every foot of one chunk from `start`."""
    batch = model.batch
    out = _Search(
        start.copy(), np.full(batch, np.inf), np.full(batch, -np.inf), np.zeros(batch, dtype=int), []
    )
    active, current, history = np.arange(batch), model, worst
    freedoms, damping = start.copy(), np.zeros(batch)
    state = evaluate(current, freedoms, history)
    for count in range(MOST_STEPS + 1):
        residual = largest_force(state.gradient)
        limit = TOLERANCE * np.maximum(current.force, LEAST_LOAD_N)
        out.trace.append(float((residual / limit).max() * TOLERANCE))
        done = (
            (residual < limit) | ~np.isfinite(residual) | (count == MOST_STEPS) | (damping > HOPELESS_DAMPING)
        )
        out.steps[active[~done]] += 1
        # Ended feet ride along unmoved until they are half of the batch, because cutting arrays costs more than they do.
        if done.all() or 2 * np.count_nonzero(done) > done.size:
            ended = active[done]
            out.freedoms[:, ended] = freedoms[:, done]
            out.residual[ended] = residual[done]
            out.pivot[ended] = _factor(_of(state, np.flatnonzero(done)), np.zeros(ended.size))[1]
            keep = np.flatnonzero(~done)
            if keep.size == 0:
                break
            active, current, history = active[keep], take(current, keep), history[:, keep]
            freedoms, damping = freedoms[:, keep], damping[keep]
            state = _of(state, keep)
            residual, done = residual[keep], done[keep]
        step, damping = _damped_step(state, damping)
        step[:, done] = 0.0
        trial = freedoms + step
        tried = evaluate(current, trial, history)
        lower = tried.energy <= state.energy + 1e-13 * np.abs(state.energy)
        better = lower | (largest_force(tried.gradient) < 0.5 * residual) & (np.abs(step).max(axis=0) < 1e-4)
        better &= np.isfinite(tried.energy)
        freedoms = np.where(better, trial, freedoms)
        if better.all():
            state = tried
        else:
            state = Evaluation(
                np.where(better, tried.energy, state.energy),
                np.where(better, tried.gradient, state.gradient),
                np.where(better, tried.hessian, state.hessian),
            )
        damping = np.where(
            better,
            np.where(damping < FIRST_DAMPING, 0.0, damping * 0.2),
            np.maximum(damping * 8.0, FIRST_DAMPING),
        )
    return out


def strains(model: Model, freedoms: Array) -> Array:
    """Effective strain (bonded, B) of every bond at freedoms (11, B)."""
    sep = separations(model, bodies.poses(freedoms, model.hinge_x, model.hinge_y))
    two, one = places.TWO_SIDED, places.ONE_SIDED
    return np.concatenate([
        effective_strain(sep.n[two], sep.s[two], model.two_sided, True),
        effective_strain(sep.n[one], sep.s[one], model.one_sided, False),
    ])  # fmt: skip


def bond_damage(model: Model, worst: Array) -> Array:
    """Damage (bonded, B), 0 to 1, of every bond after its largest strain so far."""
    split = places.TWO_SIDED.stop
    return np.concatenate([damage(worst[:split], model.two_sided), damage(worst[split:], model.one_sided)])


def _statuses(model: Model, found: _Search, worst: Array) -> np.ndarray:
    balanced = found.residual < TOLERANCE * np.maximum(model.force, LEAST_LOAD_N)
    stable = found.pivot > LEAST_PIVOT
    attached = model.stations.attached[places.BONDED] * model.stations.area[places.BONDED]
    torn_area = (attached * (bond_damage(model, worst) > TORN_DAMAGE)).sum(axis=0)
    torn = torn_area > TORN_SHARE * np.maximum(attached.sum(axis=0), 1e-12)
    return np.where(balanced, np.where(stable, CONVERGED, SLACK), np.where(torn, TORN, NONE))


def _solve_chunk(model: Model, worst: Array, start: Array | None) -> Equilibrium:
    found = _search(model, first_guess(model) if start is None else start, worst)
    after = np.maximum(worst, strains(model, found.freedoms))
    status = _statuses(model, found, after)
    failed = np.flatnonzero((status == NONE) | (status == TORN))
    if failed.size:
        again = take(model, failed)
        ramped, history = _ramp(again, worst[:, failed])
        found.freedoms[:, failed], found.residual[failed] = ramped.freedoms, ramped.residual
        found.pivot[failed] = ramped.pivot
        found.steps[failed] += ramped.steps
        after[:, failed] = history
        status[failed] = _statuses(again, ramped, history)
    return Equilibrium(found.freedoms, status, found.residual, found.steps, after, tuple(found.trace))


def _ramp(model: Model, worst: Array) -> tuple[_Search, Array]:
    """Raise the load little by little, keeping the damage done on the way: for feet that one leap does not settle."""
    full = model.force
    history, start, steps = worst, first_guess(model), np.zeros(model.batch, dtype=int)
    for share in np.linspace(1.0 / RAMP_STEPS, 1.0, RAMP_STEPS):
        partial = take(model, slice(None))
        object.__setattr__(partial, "force", full * share)
        found = _search(partial, start, history)
        steps += found.steps
        start = np.where(np.isfinite(found.freedoms), found.freedoms, start)
        history = np.maximum(history, strains(partial, start))
    found.steps = steps
    return found, history


def solve(model: Model, worst: Array | None = None, start: Array | None = None) -> Equilibrium:
    """Equilibrium of every foot of `model`, from bond history `worst` (bonded, B) and, if given, from pose `start` (11, B).

    Feet are worked through in chunks that fit the processor's cache; a foot's answer does not depend on its neighbours.
    """
    history = no_history(model) if worst is None else worst
    if model.batch <= CHUNK:
        return _solve_chunk(model, history, start)
    parts = []
    for first in range(0, model.batch, CHUNK):
        index = slice(first, min(first + CHUNK, model.batch))
        guess = None if start is None else start[:, index]
        parts.append(_solve_chunk(take(model, index), history[:, index], guess))
    length = max(len(part.trace) for part in parts)
    trace = tuple(max(part.trace[i] for part in parts if i < len(part.trace)) for i in range(length))
    return Equilibrium(
        np.concatenate([part.freedoms for part in parts], axis=1), np.concatenate([part.status for part in parts]),
        np.concatenate([part.residual for part in parts]), np.concatenate([part.steps for part in parts]),
        np.concatenate([part.worst for part in parts], axis=1), trace,
    )  # fmt: skip
