"""How a result's spread divides among uncertain inputs: a Saltelli design and its estimators, on numpy alone.

Design: two independent Latin hypercubes A and B of (N, D), and D matrices that are A with one column from B; N (D + 2) rows
in all. First-order and total indices by the estimators of Saltelli 2010 and Jansen 1999. A library was not taken in for
these thirty lines, because the screens and an installed wheel need them; a test holds them to functions with known indices.
"""

from typing import NamedTuple

import numpy as np

from hoofsim.frames import Array


class Indices(NamedTuple):
    """Shares of variance (D,): `first` alone, `total` with every interaction."""

    first: Array
    total: Array


def latin_hypercube(count: int, dimensions: int, random: np.random.Generator) -> Array:
    """Points (count, dimensions) in the unit cube, one in each of `count` slices along every axis."""
    slices = np.argsort(random.random((count, dimensions)), axis=0)
    points: Array = (slices + random.random((count, dimensions))) / count
    return points


def design(count: int, dimensions: int, seed: int) -> Array:
    """All rows of the design, (count * (dimensions + 2), dimensions): A, then B, then A with each column from B."""
    random = np.random.default_rng(seed)
    a, b = latin_hypercube(count, dimensions, random), latin_hypercube(count, dimensions, random)
    blocks = [a, b]
    for column in range(dimensions):
        mixed = a.copy()
        mixed[:, column] = b[:, column]
        blocks.append(mixed)
    return np.concatenate(blocks)


def indices(results: Array, count: int) -> Indices:
    """Indices from the results of every row of a design of `count`; sets with a lost (NaN) member are left out."""
    blocks = results.reshape(-1, count)
    whole = np.isfinite(blocks).all(axis=0)
    a, b, mixed = blocks[0, whole], blocks[1, whole], blocks[2:, whole]
    variance = float(np.concatenate([a, b]).var())
    if variance <= 0.0:
        nothing = np.zeros(len(mixed))
        return Indices(nothing, nothing)
    first = (b * (mixed - a)).mean(axis=1) / variance
    total = ((a - mixed) ** 2).mean(axis=1) / (2.0 * variance)
    return Indices(first, total)
