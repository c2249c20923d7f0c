"""The variance estimators against functions whose indices are known.

Ishigami's function sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 on (-pi, pi): first-order 0.314, 0.442, 0; total 0.558, 0.442,
0.244 (Ishigami and Homma 1990, closed form). A sum of independent terms: first and total are each term's share of variance.
"""

import numpy as np
import pytest

from hoofsim.verify.sensitivity import design, indices, latin_hypercube

COUNT = 4096


def ishigami(u):
    x = np.pi * (2 * u - 1)
    return np.sin(x[:, 0]) + 7 * np.sin(x[:, 1]) ** 2 + 0.1 * x[:, 2] ** 4 * np.sin(x[:, 0])


def test_ishigami():
    found = indices(ishigami(design(COUNT, 3, 5)), COUNT)
    np.testing.assert_allclose(found.first, [0.3139, 0.4424, 0.0], atol=0.04)
    np.testing.assert_allclose(found.total, [0.5576, 0.4424, 0.2437], atol=0.04)


def test_a_sum_divides_its_variance_among_its_terms():
    weights = np.array([3.0, 2.0, 1.0, 0.0])
    found = indices(design(COUNT, 4, 5) @ weights, COUNT)
    np.testing.assert_allclose(found.total, weights**2 / (weights**2).sum(), atol=0.03)


def test_seen_red_for_columns_that_were_mixed_up():
    rows = ishigami(design(COUNT, 3, 5))
    mixed = rows.copy()
    mixed[2 * COUNT : 3 * COUNT], mixed[4 * COUNT :] = rows[4 * COUNT :], rows[2 * COUNT : 3 * COUNT]
    with pytest.raises(AssertionError):
        np.testing.assert_allclose(indices(mixed, COUNT).total, [0.5576, 0.4424, 0.2437], atol=0.04)


def test_lost_rows_leave_their_whole_set_out():
    rows = ishigami(design(COUNT, 3, 5))
    rows[7] = np.nan
    rows[COUNT + 9] = np.nan
    assert np.isfinite(indices(rows, COUNT).total).all()


def test_a_constant_has_no_shares():
    assert (indices(np.ones(5 * 8), 8).total == 0).all()


def test_one_point_in_every_slice():
    points = latin_hypercube(50, 3, np.random.default_rng(2))
    for column in points.T:
        assert sorted((column * 50).astype(int)) == list(range(50))


def test_the_design_is_the_same_every_time():
    np.testing.assert_array_equal(design(8, 3, 1), design(8, 3, 1))
