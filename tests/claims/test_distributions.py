"""The own distributions against SciPy's."""

import pytest
from scipy import stats

from hoofsim.claims.distributions import chi_square_tail, student_t_quantile


@pytest.mark.parametrize("degrees", [1, 2, 3, 7, 12, 40])
@pytest.mark.parametrize("value", [0.001, 0.5, 1.0, 3.84, 9.0, 30.0, 120.0])
def test_chi_square_tail_agrees(value, degrees):
    assert chi_square_tail(value, degrees) == pytest.approx(
        stats.chi2.sf(value, degrees), rel=1e-9, abs=1e-14
    )


def test_chi_square_with_nothing_left_over_rejects_nothing():
    assert chi_square_tail(5.0, 0) == 1.0


@pytest.mark.parametrize("degrees", [1, 2, 3, 4, 5, 8, 9, 38, 98, 999])
@pytest.mark.parametrize("probability", [0.5, 0.8, 0.95, 0.975, 0.995])
def test_student_t_quantile_agrees(probability, degrees):
    assert student_t_quantile(probability, degrees) == pytest.approx(
        stats.t.ppf(probability, degrees), abs=1e-7
    )
