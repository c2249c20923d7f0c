"""How a measure changes with rotation over a table of cases: a line with confidence bands, honest about reading errors.

Both axes are read with errors, and a tip read too low moves both. An ordinary fit would flatten the line. Here the
known error variances and covariances are taken out of the moments (errors in variables), so that the slope is that of
the true values; its standard error, and that of the line, are those of leaving out one case at a time (jackknife),
which holds whatever else scatters the cases.
"""

from dataclasses import dataclass

import numpy as np

from hoofsim.claims.distributions import student_t_quantile
from hoofsim.frames import Array

FEWEST_CASES = 4
LEAST_SPREAD = 2.0
"""The true rotations must spread by at least this many times the standard error of their spread."""
CONFIDENCE = 0.95


@dataclass(frozen=True)
class FittedLine:
    """y = intercept + slope * x over `count` cases; `covariance` (2, 2) of intercept and slope."""

    intercept: float
    slope: float
    covariance: Array
    count: int

    @property
    def slope_error(self) -> float:
        """Standard error of the slope."""
        return float(np.sqrt(self.covariance[1, 1]))

    @property
    def factor(self) -> float:
        """Half the width of a 95 % interval in standard errors (Student's t)."""
        return student_t_quantile(0.5 + 0.5 * CONFIDENCE, self.count - 2)

    @property
    def slope_band(self) -> tuple[float, float]:
        """95 % interval of the slope."""
        half = self.factor * self.slope_error
        return self.slope - half, self.slope + half

    def band(self, x: Array) -> tuple[Array, Array]:
        """95 % band of the line at each x: lower and upper y."""
        middle = self.intercept + self.slope * x
        variance = self.covariance[0, 0] + 2.0 * x * self.covariance[0, 1] + x**2 * self.covariance[1, 1]
        half = self.factor * np.sqrt(np.maximum(variance, 0.0))
        return middle - half, middle + half


def fit_line(x: Array, y: Array, x_variance: Array, covariance: Array) -> FittedLine | None:
    """The line through cases (N,) whose errors have variance `x_variance` in x and `covariance` of x with y, each (N,).

    None when there are fewer than four cases, or the rotations hardly differ beyond their errors: then there is no
    slope.
    """
    count = len(x)
    if count < FEWEST_CASES:
        return None
    spread = float(np.var(x, ddof=1) - np.mean(x_variance))
    # Standard error of a variance of N values, were there nothing but reading error.
    chance = float(np.mean(x_variance) * np.sqrt(2.0 / (count - 1)))
    if spread <= LEAST_SPREAD * chance or spread <= 0.0:
        return None
    parts = np.stack([np.ones(count), x, y, x**2, x * y, x_variance, covariance])
    totals = parts.sum(axis=1, keepdims=True)
    intercept, slope = (float(one[0]) for one in _line(totals))
    each_intercept, each_slope = _line(totals - parts)  # the sums with each case left out in turn
    off = np.stack([each_intercept - each_intercept.mean(), each_slope - each_slope.mean()])
    return FittedLine(intercept, slope, (count - 1) / count * off @ off.T, count)


def _line(sums: Array) -> tuple[Array, Array]:
    """Intercepts and slopes (K,), the errors taken out, from sums (7, K) of 1, x, y, x², xy, x's variance, covariance."""
    size, x, y, xx, xy, x_variance, covariance = sums
    spread_x = (xx - x * x / size) / (size - 1) - x_variance / size
    spread_xy = (xy - x * y / size) / (size - 1) - covariance / size
    slope = spread_xy / spread_x
    return (y - slope * x) / size, slope
