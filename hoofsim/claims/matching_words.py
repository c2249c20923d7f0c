"""A match told in plain sentences: how well it fits, and outright what the readings do not fix."""

import math

from hoofsim.claims.matching import Loose, Match
from hoofsim.claims.separability import EXCLUDED_BELOW
from hoofsim.claims.wording import joined
from hoofsim.foot.parameters import BY_NAME
from hoofsim.units import show_number, shown_unit

MODEL_ONLY = (
    "A match is one foot of this model that would read so. It is not the horse's foot, and how it came to be so is "
    "not in the readings."
)


def fit_sentence(match: Match) -> str:
    """Whether the model reproduces the readings within their errors."""
    if match.fit < EXCLUDED_BELOW:
        return (
            f"No foot of these controls reproduces the readings within their errors (chi-square {match.misfit:.1f}; "
            f"chance {100 * match.fit:.1g} %): vary other controls, or doubt a reading. The nearest foot is shown."
        )
    return f"The foot shown reproduces the readings within their errors (chi-square {match.misfit:.1f})."


def loose_sentences(match: Match) -> list[str]:
    """One sentence for each direction that the readings do not fix, and for other answers."""
    found = [_loose(one) for one in match.loose]
    if not found:
        found = ["The readings fix every control that was varied, within the errors shown."]
    if match.others:
        count = len(match.others)
        found.append(
            f"{count} other {'answer lies' if count == 1 else 'answers lie'} apart from this one and "
            f"{'fits' if count == 1 else 'fit'} about as well: do not take the values shown as the only ones."
        )
    if match.at_limit:
        names = joined([f"'{name}'" for name in match.at_limit])
        found.append(
            f"{names} {'stands' if len(match.at_limit) == 1 else 'stand'} at the end of the allowed range."
        )
    return found


def _loose(one: Loose) -> str:
    names = sorted(one.weights, key=lambda name: -abs(one.weights[name]))
    if len(names) == 1:
        return f"Not fixed by the readings: '{names[0]}'. Any value would read nearly the same."
    first, rest = names[0], names[1:]
    parts = [
        f"'{name}' {'with' if one.weights[name] * one.weights[first] > 0 else 'against'} it" for name in rest
    ]
    return f"Not fixed by the readings: a common change of '{first}', {joined(parts)}; together they read nearly the same."


def control_rows(match: Match) -> list[tuple[str, str, str, str]]:
    """Name, value, error ("not fixed" where there is none) and unit of every control varied."""
    rows = []
    for name, value in match.values.items():
        unit, error = BY_NAME[name].unit, match.errors[name]
        shown = "not fixed" if math.isinf(error) else f"± {show_number(error, unit or '1')}"
        rows.append((name, show_number(value, unit or "1"), shown, shown_unit(unit or "1")))
    return rows
