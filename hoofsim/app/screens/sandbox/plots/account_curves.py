"""The rival accounts as curves over the change of capsular rotation, cut to the part of the plane that is shown."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.app.screens.sandbox.plots.claim_runs import ACROSS, UP
from hoofsim.app.widgets.line_key import KeyEntry
from hoofsim.app.widgets.plot import XY
from hoofsim.app.widgets.tagged_plot import Tag
from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.measures import Points

AMOUNTS = 101
LEAST_REACH = 8.0  # degrees and mm shown at least
AIR = 1.2
NEAR = 0.07  # of the axes: ends of curves nearer than this share one tag
COLOURS = ("tendon", "bonds", "trim", "shape", "load", "tissue")

Curve = tuple[XY, ...]


@dataclass(frozen=True)
class Window:
    """The part of the plane that is shown, in degrees and mm."""

    x: XY
    y: XY


def entries() -> list[KeyEntry]:
    """Number, label and look of every account, in the registry's order."""
    return [
        KeyEntry(str(i + 1), account.label, COLOURS[i % len(COLOURS)], bool(i % 2))
        for i, account in enumerate(ACCOUNTS.values())
    ]


def account_curves(points: Points) -> dict[str, dict[str, Curve]]:
    """Measure -> account -> curve of its change over that of capsular rotation, from a baseline's landmarks."""
    found: dict[str, dict[str, Curve]] = {name: {} for name in UP}
    for account in ACCOUNTS.values():
        change = account.predict_change(points, np.linspace(account.low, account.high, AMOUNTS))
        across = np.broadcast_to(change[ACROSS], (AMOUNTS,))
        for name in UP:
            up = np.broadcast_to(change[name], (AMOUNTS,))
            found[name][account.name] = tuple((float(x), float(y)) for x, y in zip(across, up, strict=True))
    return found


def window_round(points: Sequence[XY]) -> Window:
    """Room for the points and for the start of every account; a degree across has at least a millimetre up and down."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    right = max([LEAST_REACH, *(AIR * x for x in xs)])
    reach = max([right, *(AIR * abs(y) for y in ys)])
    return Window((min([-1.0, *(AIR * x for x in xs)]), right), (-reach, reach))


def seen(curve: Curve, window: Window) -> Curve:
    """The curve from its start to where it leaves the window."""
    kept = []
    for x, y in curve:
        if not (window.x[0] <= x <= window.x[1] and window.y[0] <= y <= window.y[1]):
            break
        kept.append((x, y))
    return tuple(kept)


def tags_at_ends(curves: Mapping[str, Curve], window: Window) -> tuple[Tag, ...]:
    """Numbers of the accounts at the ends of their curves; those that end together share one.

    No curves, no tags.
    """
    groups: list[tuple[XY, list[KeyEntry]]] = []
    wide, high = window.x[1] - window.x[0], window.y[1] - window.y[0]
    for entry, curve in zip(entries(), curves.values(), strict=False):
        if not curve:
            continue
        x, y = curve[-1]
        for (at_x, at_y), members in groups:
            if abs(x - at_x) < NEAR * wide and abs(y - at_y) < NEAR * high:
                members.append(entry)
                break
        else:
            groups.append(((x, y), [entry]))
    return tuple(
        Tag(at, ", ".join(one.sign for one in members), members[0].colour if len(members) == 1 else "ink")
        for at, members in groups
    )
