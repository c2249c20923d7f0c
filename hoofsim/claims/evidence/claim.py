"""The claim over a whole table: tip-to-frog and frog-to-toe against capsular rotation, beside each account's slope."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.claims.accounts import ACCOUNTS, Account
from hoofsim.claims.distributions import NORMAL
from hoofsim.claims.evidence.regression import CONFIDENCE, FittedLine, fit_line
from hoofsim.claims.evidence.weighing import Weighed
from hoofsim.frames import Array
from hoofsim.measures import Points

ROTATION = "capsular_rotation"
AGAINST = ("tip_to_frog", "frog_to_toe")
ENOUGH_POWER = 0.9
SAME_SLOPE = 0.01
"""mm per degree: slopes nearer than this are the same for every purpose."""
_NO_ROTATION = 0.05  # degrees of capsular rotation per unit of amount below which an account has no slope
_FOOT_POINTS = 31


@dataclass(frozen=True)
class Trend:
    """One measure's change against rotation's, over the cases that have both from their own baseline.

    `x`, `y`, their standard errors (N,); `names` of the cases; `line` is None where no slope can be had. `slopes`:
    account -> the slope that it foretells for these feet, None where it foretells no rotation in the capsule.
    """

    measure: str
    names: tuple[str, ...]
    x: Array
    y: Array
    x_error: Array
    y_error: Array
    line: FittedLine | None
    slopes: dict[str, float | None]

    def excluded(self, account: str) -> bool | None:
        """True when the account's slope lies outside the 95 % interval; None where nothing can be said."""
        foretold = self.slopes[account]
        if self.line is None or foretold is None:
            return None
        low, high = self.line.slope_band
        return not low <= foretold <= high

    def power(self, one: str, other: str) -> float | None:
        """Chance that a table of this size and spread would exclude `other`'s slope, if `one`'s were true."""
        first, second = self.slopes[one], self.slopes[other]
        if self.line is None or first is None or second is None or self.line.slope_error == 0.0:
            return None
        apart = abs(first - second) / self.line.slope_error
        return NORMAL.cdf(apart - self.line.factor) + NORMAL.cdf(-apart - self.line.factor)

    def cases_needed(self, one: str, other: str) -> int | None:
        """About how many such cases would give a power of 90 %; None where no number of cases would."""
        first, second = self.slopes[one], self.slopes[other]
        if self.line is None or first is None or second is None or abs(first - second) < SAME_SLOPE:
            return None
        wanted = NORMAL.inv_cdf(0.5 + 0.5 * CONFIDENCE) + NORMAL.inv_cdf(ENOUGH_POWER)
        per_case = self.line.slope_error * np.sqrt(self.line.count)
        return max(int(np.ceil((wanted * per_case / (first - second)) ** 2)), 4)


def trend(weighed: Sequence[Weighed], measure: str) -> Trend:
    """The trend of one measure over every case that has its change and the rotation's."""
    rows = []
    feet: list[Points] = []
    for one in weighed:
        change = one.measured.change
        if change is not None and one.case.baseline and ROTATION in change[0] and measure in change[0]:
            i, j = change[0].index(ROTATION), change[0].index(measure)
            rows.append(
                (one.case.name, change[1][i], change[1][j], change[2][i, i], change[2][j, j], change[2][i, j])
            )
            feet.append(one.case.baseline.points)
    names = tuple(row[0] for row in rows)
    x, y, x_variance, y_variance, covariance = (np.array([row[k] for row in rows]) for k in range(1, 6))
    line = fit_line(x, y, x_variance, covariance)
    slopes = {name: account_slope(account, measure, feet, x) for name, account in ACCOUNTS.items()}
    return Trend(measure, names, x, y, np.sqrt(x_variance), np.sqrt(y_variance), line, slopes)


def account_slope(account: Account, measure: str, feet: Sequence[Points], rotations: Array) -> float | None:
    """Slope of the measure's change on rotation that the account foretells for these feet at these rotations.

    An account's curve is not quite straight, so its slope is that of the straight line through its own predictions at
    the rotations of the table. None when the account makes no rotation in the capsule.
    """
    if not feet:
        return None
    shared = [name for name in feet[0] if all(name in foot for foot in feet)]
    mean: dict[str, Array] = {name: np.mean([foot[name] for foot in feet], axis=0) for name in shared}
    amounts = np.linspace(account.low, account.high, _FOOT_POINTS)
    change = account.predict_change(mean, amounts)
    if ROTATION not in change or measure not in change:
        return None
    if np.ptp(change[ROTATION]) < _NO_ROTATION * (account.high - account.low):
        return None
    wanted = np.clip(rotations, change[ROTATION].min(), change[ROTATION].max())
    predicted = np.interp(wanted, change[ROTATION], change[measure])
    if np.ptp(wanted) == 0.0:
        return None
    return float(np.polyfit(wanted, predicted, 1)[0])
