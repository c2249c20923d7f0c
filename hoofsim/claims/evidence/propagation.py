"""Measures of cases with their errors: the errors of the marked points carried through, with all correlations.

Two measures from one point share its error, so a case's errors are one covariance matrix. It is the marked points'
error variances taken through the derivative of every measure by every coordinate (central differences).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.claims.evidence.cases import Case
from hoofsim.frames import Array, rotate
from hoofsim.measures import MEASURES, measure_all

_STEP_MM = 0.02
# Cases computed in one go: every one stands there as often as it has coordinates, and a step to each side of them.
TOGETHER = 25
FROM_THE_GROUND = ("ground_depth_tip", "ground_depth_palmar")
COPIES = ("tip_to_frog_seen", "palmar_angle_seen", "sole_depth_tip_seen", "palmar_angle_change")
"""Measures that repeat another one where the tip is whole: printed, not weighed a second time."""


@dataclass(frozen=True)
class Measured:
    """Measures of one case. `standing`: as they are on the film; `change`: from its own baseline, None without one.

    Each is (names, values (M,), covariance (M, M)); `standing` and `change` need not hold the same measures.
    """

    standing: tuple[tuple[str, ...], Array, Array]
    change: tuple[tuple[str, ...], Array, Array] | None


Group = tuple[tuple[str, ...], tuple[str, ...], bool, bool, bool]


def measured(cases: Sequence[Case]) -> list[Measured]:
    """Every case's measures, computed in blocks of cases that mark the same points."""
    groups: dict[Group, list[int]] = {}
    for index, case in enumerate(cases):
        groups.setdefault(_group(case), []).append(index)
    found: dict[int, Measured] = {}
    for members in groups.values():
        for first in range(0, len(members), TOGETHER):
            block = members[first : first + TOGETHER]
            found.update(zip(block, _together([cases[i] for i in block]), strict=True))
    return [found[index] for index in range(len(cases))]


def _group(case: Case) -> Group:
    before = tuple(sorted(case.baseline.points)) if case.baseline else ()
    ground = case.film.has_ground and (case.baseline is None or case.baseline.has_ground)
    return tuple(sorted(case.film.points)), before, case.rebuilt_tip, case.true_tip_known, ground


def _together(cases: Sequence[Case]) -> list[Measured]:
    films = [case.film for case in cases]
    bases = [case.baseline for case in cases if case.baseline is not None]
    names, base_names = list(films[0].points), list(bases[0].points) if bases else []
    points = np.stack([np.stack([film.points[n] for n in names]) for film in films])
    errors = np.array([film.error for film in films])
    size = 2 * len(names)
    flat, spread = points.reshape(len(cases), size), np.repeat(errors[:, None], size, axis=1)
    if bases:
        before = np.stack([np.stack([film.points[n] for n in base_names]) for film in bases])
        flat = np.concatenate([flat, before.reshape(len(cases), -1)], axis=1)
        more = np.array([film.error for film in bases])
        spread = np.concatenate([spread, np.repeat(more[:, None], 2 * len(base_names), axis=1)], axis=1)
    case = cases[0]
    ground = _group(case)[-1]

    def read(coordinates: Array) -> tuple[dict[str, Array], dict[str, Array] | None]:
        film = _points(coordinates[..., :size], names)
        base = _points(coordinates[..., size:], base_names) if base_names else None
        return _measures(film, base, case.true_tip_known, case.rebuilt_tip, ground)

    sides = np.eye(flat.shape[1]) * _STEP_MM
    batch = np.concatenate([flat[:, None, :], flat[:, None, :] + sides, flat[:, None, :] - sides], axis=1)
    standing, change = read(batch)
    whole = _with_errors(standing, spread)
    moved = _with_errors(change, spread) if change is not None else [None] * len(cases)
    return [Measured(a, b) for a, b in zip(whole, moved, strict=True)]


def _points(coordinates: Array, names: Sequence[str]) -> dict[str, Array]:
    return {name: coordinates[..., 2 * at : 2 * at + 2] for at, name in enumerate(names)}


def _measures(
    film: Mapping[str, Array], base: Mapping[str, Array] | None, known: bool, rebuilt: bool, ground: bool
) -> tuple[dict[str, Array], dict[str, Array] | None]:
    """Measures of the film, and their changes from the base; whatever needs a tip that is not known is left out."""
    points = dict(film)
    if not known or rebuilt:
        points["tip_seen"] = points.pop("tip")
    if rebuilt and base is not None:
        points["tip"] = _put_back(points, base)
    found = {
        name: v
        for name, v in measure_all(points).items()
        if v is not None and (ground or name not in FROM_THE_GROUND)
    }
    if base is None:
        return found, None
    before = {name: v for name, v in measure_all(base).items() if v is not None}
    change = {name: np.asarray(v - before[name]) for name, v in found.items() if name in before}
    return found, change


def _put_back(points: Mapping[str, Array], base: Mapping[str, Array]) -> Array:
    """The true tip: the baseline's, moved with the bone as extensor process and palmar process have moved."""
    here = points["extensor_process"] - points["palmar_process"]
    there = base["extensor_process"] - base["palmar_process"]
    turn = np.arctan2(there[..., 1], there[..., 0]) - np.arctan2(here[..., 1], here[..., 0])
    middle = 0.5 * (points["extensor_process"] + points["palmar_process"])
    before = 0.5 * (base["extensor_process"] + base["palmar_process"])
    return np.asarray(rotate(base["tip"] - before, turn) + middle)


def _with_errors(found: dict[str, Array], spread: Array) -> list[tuple[tuple[str, ...], Array, Array]]:
    """Value and covariance of every case, from measures (cases, 1 + 2 coordinates) there and a step to both sides."""
    names = tuple(name for name in MEASURES if name in found)
    values = np.stack([found[name] for name in names], axis=-1)
    count = spread.shape[1]
    slope = (values[:, 1 : count + 1] - values[:, count + 1 :]) / (2.0 * _STEP_MM)
    scaled = slope * spread[:, :, None]
    covariance = np.einsum("cpm,cpn->cmn", scaled, scaled)
    there = values[:, 0].copy()  # a view would keep all the steps
    return [(names, there[case], covariance[case]) for case in range(len(values))]


def kept(
    measures: tuple[tuple[str, ...], Array, Array], names: Sequence[str]
) -> tuple[tuple[str, ...], Array, Array]:
    """The measures among `names`, in their order of the table."""
    at = [index for index, name in enumerate(measures[0]) if name in set(names)]
    return tuple(measures[0][i] for i in at), measures[1][at], measures[2][np.ix_(at, at)]
