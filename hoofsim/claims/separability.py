"""Which accounts the readings leave standing, and how likely each is.

Errors are taken as Gaussian with the readings' covariance. An account's amount is unknown: it is marginalised, with
every amount in the account's range held equally likely beforehand, and so are the accounts. An account is *excluded*
when even at its best amount the readings lie so far off that errors would do it in fewer than 1 of 100 cases. One
account is *named* only when it fits, its share of the likelihood is at least 95 %, at least two different things
were observed, and the foot brought its own baseline. One observation is always fitted by choosing the amount, and
leaves nothing to check an account with; without a baseline, what one foot differs by from another passes for movement.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from hoofsim.claims.accounts import ACCOUNTS, Account
from hoofsim.claims.distributions import chi_square_tail
from hoofsim.claims.readings import Readings
from hoofsim.errors import BadInput
from hoofsim.frames import Array

EXCLUDED_BELOW = 0.01
NAMED_FROM = 0.95
FEWEST_OBSERVATIONS = 2
STEPS = 251
# Feet predicted in one go: enough to hide the cost of each call, few enough for the processor's cache.
TOGETHER = 50
_REDUNDANT = 1e-9
_RESPONDS = 2.0  # standard errors that the largest amount must move the readings by


@dataclass(frozen=True)
class Standing:
    """How one account stands: `likelihood` is its share of all accounts', 0..1; amounts are in the account's unit."""

    account: str
    likelihood: float
    amount: float
    amount_error: float
    misfit: float
    """Chi-square at the best amount."""
    fit: float
    """Chance of so large a misfit, were the account true: `EXCLUDED_BELOW` decides."""
    amounts: Array = field(repr=False)
    weights: Array = field(repr=False)
    """Share of the account's own likelihood at each of `amounts`, summing to 1."""

    @property
    def excluded(self) -> bool:
        """True when the account cannot be made to fit."""
        return self.fit < EXCLUDED_BELOW


@dataclass(frozen=True)
class Separation:
    """Every account's standing on one foot's readings, and the one account named, if the readings carry it."""

    readings: Readings
    standings: Mapping[str, Standing]
    named: str | None

    @property
    def remaining(self) -> tuple[str, ...]:
        """Accounts that are not excluded, likeliest first."""
        kept = [standing for standing in self.standings.values() if not standing.excluded]
        return tuple(standing.account for standing in sorted(kept, key=lambda one: -one.likelihood))


def whitener(covariance: Array) -> Array:
    """Matrix (K, M) that turns errors with this covariance into K independent ones of unit size.

    Directions in which the measures repeat one another exactly carry no error and no news: they are left out.
    """
    if covariance.size == 0:
        return np.zeros((0, 0))
    scale = np.sqrt(np.diag(covariance))
    values, vectors = np.linalg.eigh(covariance / np.outer(scale, scale))
    kept = values > _REDUNDANT * values[-1]
    return np.asarray((vectors[:, kept] / np.sqrt(values[kept])).T / scale)


def _blocks(feet: Sequence[Readings]) -> Iterator[list[int]]:
    """The feet's indices in blocks of feet alike in landmarks, `TOGETHER` of them at most."""
    alike: dict[tuple[str, ...], list[int]] = {}
    for index, readings in enumerate(feet):
        alike.setdefault(tuple(sorted(readings.baseline)), []).append(index)
    for indices in alike.values():
        for first in range(0, len(indices), TOGETHER):
            yield indices[first : first + TOGETHER]


def predictions(account: Account, feet: Sequence[Readings], amounts: Array) -> list[Array]:
    """What the account says the readings of each foot would be, (amounts, M) a foot; the feet are alike in landmarks."""
    points = {name: np.stack([one.baseline[name] for one in feet])[:, None, :] for name in feet[0].baseline}
    change = account.predict_change(points, amounts)
    return [_columns(change, one.measures, row, len(amounts)) for row, one in enumerate(feet)]


def _columns(change: Mapping[str, Array], measures: tuple[str, ...], row: int, count: int) -> Array:
    missing = [name for name in measures if name not in change]
    if missing:
        raise BadInput(f"The baseline lacks the landmarks for {', '.join(missing)}.")
    out = np.empty((count, len(measures)))
    for column, name in enumerate(measures):
        out[:, column] = change[name][row]
    return out


def separate(readings: Readings, accounts: Mapping[str, Account] = ACCOUNTS) -> Separation:
    """The standing of every account on one foot's readings."""
    return separate_all([readings], accounts)[0]


def separate_all(feet: Sequence[Readings], accounts: Mapping[str, Account] = ACCOUNTS) -> list[Separation]:
    """The standing of every account on each foot's readings, foot by foot."""
    amounts = {name: np.linspace(account.low, account.high, STEPS) for name, account in accounts.items()}
    out: dict[int, Separation] = {}
    # What one block is told is let go of before the next: of a thousand feet at once it would be 250 MB.
    for block in _blocks(feet):
        told = {
            name: predictions(account, [feet[index] for index in block], amounts[name])
            for name, account in accounts.items()
        }
        for row, index in enumerate(block):
            curves = {name: curve[row] for name, curve in told.items()}
            out[index] = _separation(feet[index], amounts, curves)
    return [out[index] for index in range(len(feet))]


def _separation(readings: Readings, amounts: Mapping[str, Array], told: Mapping[str, Array]) -> Separation:
    white = whitener(readings.covariance)
    seen = white @ readings.values
    evidence: dict[str, float] = {}
    rough: dict[str, tuple[Array, Array, float, int]] = {}
    for name, predicted in told.items():
        curve = predicted @ white.T
        misfit = np.sum((curve - seen) ** 2, axis=-1)
        best = float(misfit.min())
        relative = np.exp(-0.5 * (misfit - best))
        evidence[name] = -0.5 * best + float(np.log(relative.mean()))
        rough[name] = (amounts[name], relative / relative.sum(), best, _degrees(curve, misfit))
    shares = np.array(list(evidence.values()))
    shares = np.exp(shares - shares.max())
    shares = shares / shares.sum()
    standings = {}
    for (name, (swept, weights, best, degrees)), share in zip(rough.items(), shares, strict=True):
        mean = float(weights @ swept)
        spread = float(np.sqrt(np.sum(weights * (swept - mean) ** 2)))
        fit = chi_square_tail(best, degrees)
        standings[name] = Standing(name, float(share), mean, spread, best, fit, swept, weights)
    return Separation(readings, standings, to_be_named(readings, standings))


def _degrees(curve: Array, misfit: Array) -> int:
    """Degrees of freedom left at the best amount: one fewer than the readings, unless the amount had no say.

    It has none when the account hardly moves these readings whatever the amount, or fits best at no movement at all.
    """
    reach = float(np.max(np.linalg.norm(curve - curve[0], axis=-1)))
    spent = reach > _RESPONDS and int(np.argmin(misfit)) > 0
    return int(curve.shape[-1]) - int(spent)


def to_be_named(readings: Readings, standings: Mapping[str, Standing]) -> str | None:
    """The account that the standings on these readings name, by the rule above; None where they carry none."""
    best = max(standings.values(), key=lambda standing: standing.likelihood)
    enough = readings.own_baseline and readings.observations >= FEWEST_OBSERVATIONS
    return best.account if enough and not best.excluded and best.likelihood >= NAMED_FROM else None
