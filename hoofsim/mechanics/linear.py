"""Symmetric systems of many feet at once, by elimination with the batch on the last axis.

The pivots come out on the way, and a symmetric matrix is positive definite exactly when all of them are positive, so the
stability of an equilibrium costs nothing extra. Pinned against `numpy.linalg` in the tests.
"""

import numpy as np

from hoofsim.mechanics.types import Array


def solve_symmetric(matrix: Array, right: Array) -> tuple[Array, Array]:
    """Solution (N, B) of matrix (N, N, B) x = right (N, B), and its pivots (N, B); no reordering.

    Where a pivot is not positive the solution of that foot means nothing: check the pivots first.
    """
    n = right.shape[0]
    a, x = matrix.copy(), right.copy()
    pivots = np.empty_like(right)
    with np.errstate(all="ignore"):
        for j in range(n):
            pivots[j] = a[j, j]
            if j + 1 == n:
                break
            factor = a[j + 1 :, j] / pivots[j]
            x[j + 1 :] -= factor * x[j]
            for i in range(j + 1, n):
                a[i, j + 1 : i + 1] -= factor[i - j - 1] * a[j + 1 : i + 1, j]
        x /= pivots
        for j in range(n - 1, 0, -1):
            x[:j] -= a[j, :j] / pivots[:j] * x[j]
    return x, pivots
