"""What every account must satisfy, checked on a given foot: for the author of a new account, and for the tests."""

import numpy as np

from hoofsim.claims.accounts.account import Account
from hoofsim.errors import HoofsimError
from hoofsim.foot.landmarks import BODY_OF
from hoofsim.frames import Array
from hoofsim.measures import Points

_SAME = 1e-9


def check_account(account: Account, points: Points) -> list[str]:
    """Complaints, one sentence each, about an account moved on a foot (landmark name -> (2,) mm); empty when it
    conforms.
    """
    complaints = [
        f"'{field}' is empty"
        for field in ("name", "label", "what_moves", "tells_apart")
        if not getattr(account, field)
    ]
    if not account.low <= 0.0 < account.high:
        complaints.append(f"the range {account.low:g}..{account.high:g} must hold 0 and some amount above it")
        return complaints
    amounts = np.linspace(account.low, account.high, 41)
    try:
        nothing, moved = account.displaced(points, 0.0), account.displaced(points, amounts)
    except (HoofsimError, KeyError, ValueError, TypeError) as error:
        return [*complaints, f"it cannot move this foot: {error}"]
    lost = [name for name in points if name not in moved]
    if lost:
        return [*complaints, f"it loses the landmark {', '.join(lost)}"]
    for name, xy in points.items():
        complaints += _landmark(name, xy, nothing[name], moved[name], len(amounts))
    if not complaints:
        complaints += _rigid(account, points, moved) + _does_something(points, moved)
    return complaints


def _landmark(name: str, given: Array, nothing: Array, moved: Array, count: int) -> list[str]:
    if np.shape(nothing) != (2,) or not np.allclose(nothing, given, atol=_SAME):
        return [f"an amount of 0 moves '{name}'"]
    if np.shape(moved) != (count, 2):
        return [f"'{name}' has shape {np.shape(moved)} for {count} amounts, expected {(count, 2)}"]
    if not np.all(np.isfinite(moved)):
        return [f"'{name}' goes to a place that is not a number"]
    steps = np.linalg.norm(np.diff(moved, axis=0), axis=1)
    if steps.max() > 10.0 * max(float(np.median(steps)), 0.1):
        return [f"'{name}' jumps as the amount grows"]
    return []


def _rigid(account: Account, points: Points, moved: dict[str, Array]) -> list[str]:
    """Two landmarks of one body must keep their distance, except those that the account says it finds again."""
    complaints = []
    bodies: dict[str, list[str]] = {}
    for name in points:
        if name in BODY_OF and name not in account.reprojected:
            bodies.setdefault(BODY_OF[name], []).append(name)
    for body, names in bodies.items():
        first = names[0]
        for other in names[1:]:
            before = np.linalg.norm(np.asarray(points[first]) - points[other])
            after = np.linalg.norm(moved[first] - moved[other], axis=-1)
            if np.max(np.abs(after - before)) > 1e-6:
                complaints.append(
                    f"the body '{body}' is not moved as one piece: '{first}' to '{other}' changes"
                )
    return complaints


def _does_something(points: Points, moved: dict[str, Array]) -> list[str]:
    largest = max(float(np.max(np.abs(moved[name][-1] - points[name]))) for name in points)
    return [] if largest > 0.5 else ["its largest amount moves nothing by 0.5 mm"]
