"""How far an account would have moved the foot to show what is seen: for laying the two over one another."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from hoofsim.claims.accounts import Account
from hoofsim.measures import MEASURES, Points

# The first of these that an account changes at all, and that the foot has readably changed, gives the amount.
LOOKED_AT = ("capsular_rotation", "palmar_angle", "founder_distance")
DEFAULT_AMOUNT = 10.0  # degrees or mm
_AMOUNTS = 251
_ALIKE = 1.0  # degrees or mm: an account that moves a measure by less over its whole range does not change it


@dataclass(frozen=True)
class Likened:
    """An amount of an account in its unit, and the measure it was matched to; None for the amount taken by default."""

    amount: float
    measure: str | None


def likened(account: Account, baseline: Points, changes: Mapping[str, float]) -> Likened:
    """The amount by which the account shows the same change as the foot; `changes` are by measure, from `baseline`.

    The amount stays in the account's range. A foot that has not readably changed, or that changed the other way, has
    none to give, and the default is taken.
    """
    amounts = np.linspace(account.low, account.high, _AMOUNTS)
    told = account.predict_change(baseline, amounts)
    for name in LOOKED_AT:
        curve, seen = np.broadcast_to(told[name], amounts.shape), changes.get(name)
        if seen is None or np.ptp(curve) < _ALIKE or abs(seen) < (MEASURES[name].smallest_readable or _ALIKE):
            continue
        amount = float(amounts[np.argmin(np.abs(curve - seen))])
        if amount != 0.0:
            return Likened(amount, name)
    return Likened(min(DEFAULT_AMOUNT, account.high), None)
