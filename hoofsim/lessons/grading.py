"""Marks with reasons: how an answer stands against what the solver, the rival accounts or the author say.

A mark is a share of 1 and always comes with a reason; what is off is met with what to look at, never with "wrong" alone.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.readings import readings_of
from hoofsim.claims.separability import separate
from hoofsim.lessons.answers import (
    Answer,
    ChoiceAnswer,
    DirectionAnswer,
    NumberAnswer,
    PickAnswer,
    PositionAnswer,
    WordsAnswer,
)
from hoofsim.lessons.checks import moved
from hoofsim.lessons.state import FootState, change_between
from hoofsim.measures import MEASURES
from hoofsim.units import show

FULL = 1.0
NEARLY = 0.5
RIGHT_WAY = 0.25
NOTHING = 0.0
ALMOST_FULL = 0.999


@dataclass(frozen=True)
class Mark:
    """`marks` from 0 to 1 (None: not marked), why, and where to look when it is less than full."""

    marks: float | None
    reason: str
    look_at: str = ""

    @property
    def full(self) -> bool:
        """True when nothing is missing."""
        return self.marks is None or self.marks >= ALMOST_FULL


def judge(answer: Answer, given: str, before: FootState, after: FootState, length_unit: str = "mm") -> Mark:
    """The mark of a canonical answer, for the feet before and after."""
    if isinstance(answer, NumberAnswer):
        return _number(answer, float(given), before, after, length_unit)
    if isinstance(answer, DirectionAnswer):
        return _direction(answer, given, before, after, length_unit)
    if isinstance(answer, ChoiceAnswer):
        option = next(one for one in answer.options if one.id == given)
        return Mark(option.marks, option.because)
    if isinstance(answer, PositionAnswer):
        return _position(answer, given, after, length_unit)
    if isinstance(answer, PickAnswer):
        return _pick(answer, tuple(given.split()), before)
    return Mark(None, "Kept for your instructor.")


def outcome_in_words(answer: Answer, before: FootState, after: FootState, length_unit: str = "mm") -> str:
    """What came out, for setting beside an answer: from the solver, or the author's fullest option."""
    if isinstance(answer, NumberAnswer):
        measure = MEASURES[answer.measure]
        value = _truth(answer, before, after)
        return f"{measure.label}: {show(value, measure.unit, length_unit, signed=answer.of == 'change')}"
    if isinstance(answer, DirectionAnswer):
        measure = MEASURES[answer.measure]
        change = change_between(before, after, answer.measure)
        return f"{measure.label} {moved(change, measure.unit, length_unit)}"
    if isinstance(answer, ChoiceAnswer):
        return max(answer.options, key=lambda option: option.marks).text
    if isinstance(answer, PositionAnswer):
        x, y = (show(float(part), "mm", length_unit) for part in after.loaded.points[answer.landmark])
        return f"{answer.landmark.replace('_', ' ')} at x {x}, y {y}"
    if isinstance(answer, WordsAnswer):
        return answer.model
    return f"{len(answer.accounts)} accounts to tell apart"


def _truth(answer: NumberAnswer, before: FootState, after: FootState) -> float | None:
    if answer.of == "change":
        return change_between(before, after, answer.measure)
    return after.measure(answer.measure)


def _number(
    answer: NumberAnswer, given: float, before: FootState, after: FootState, length_unit: str
) -> Mark:
    measure = MEASURES[answer.measure]
    truth = _truth(answer, before, after)
    if truth is None:
        return Mark(None, f"{measure.label} cannot be measured on this foot, so it is not marked.")
    off = abs(given - truth)
    away = show(off, measure.unit, length_unit)
    if off <= answer.full:
        return Mark(FULL, f"Close: {away} off.")
    if off <= answer.half:
        return Mark(NEARLY, f"Near: {away} off.", answer.if_wrong)
    if answer.of == "change" and given * truth > 0:
        size = "more" if abs(given) > abs(truth) else "less"
        return Mark(RIGHT_WAY, f"The right way, and {away} {size} than came out.", answer.if_wrong)
    return Mark(NOTHING, f"What came out is {away} away from it.", answer.if_wrong)


def way(change: float, same_within: float) -> str:
    """The direction's word of a change."""
    return "stays" if abs(change) < same_within else ("rises" if change > 0 else "falls")


def _direction(
    answer: DirectionAnswer, given: str, before: FootState, after: FootState, length_unit: str
) -> Mark:
    measure = MEASURES[answer.measure]
    change = change_between(before, after, answer.measure)
    if change is None:
        return Mark(None, f"{measure.label} cannot be measured on this foot, so it is not marked.")
    truth = way(change, answer.same_within)
    if given == truth:
        return Mark(FULL, "Just so.")
    if truth == "stays" and given == ("rises" if change > 0 else "falls"):
        limit = show(answer.same_within, measure.unit, length_unit)
        reason = f"It moves that way, yet by less than the {limit} that counts here."
        return Mark(NEARLY, reason, answer.if_wrong)
    return Mark(NOTHING, "The foot does something else.", answer.if_wrong)


def _position(answer: PositionAnswer, given: str, after: FootState, length_unit: str) -> Mark:
    x, y = (float(part) for part in given.split())
    truth = after.loaded.points[answer.landmark]
    off = math.hypot(x - float(truth[0]), y - float(truth[1]))
    away = show(off, "mm", length_unit)
    if off <= answer.full:
        return Mark(FULL, f"Close: {away} off.")
    if off <= answer.half:
        return Mark(NEARLY, f"Near: {away} off.", answer.if_wrong)
    return Mark(NOTHING, f"It comes to lie {away} away from there.", answer.if_wrong)


def _pick(answer: PickAnswer, picked: tuple[str, ...], before: FootState) -> Mark:
    left = {
        name: remaining_accounts(name, tuple(answer.accounts), picked, answer.amount, answer.error, before)
        for name in answer.accounts
    }
    alone = [name for name, remaining in left.items() if remaining == (name,)]
    marks = len(alone) / len(left)
    if marks >= ALMOST_FULL:
        return Mark(FULL, "These readings would leave one account standing, whichever of them is true.")
    confused = next(name for name in left if name not in alone)
    others = [ACCOUNTS[name].label for name in left[confused] if name != confused]
    together = " or ".join(others) or "any of them"
    reason = (
        f"They single out {len(alone)} of the {len(left)} accounts. Were it '{ACCOUNTS[confused].label}', "
        f"these readings could as well be '{together}'."
    )
    return Mark(marks, reason, answer.if_wrong)


@lru_cache(maxsize=512)
def remaining_accounts(
    true: str,
    accounts: tuple[str, ...],
    picked: tuple[str, ...],
    amount: float,
    error: float,
    before: FootState,
) -> tuple[str, ...]:
    """The accounts that readings of `picked` would leave standing, if the `true` one moved the foot by `amount`."""
    points = before.loaded.points
    change = ACCOUNTS[true].predict_change(points, amount)
    values = {name: float(change[name]) for name in picked}
    separation = separate(readings_of(values, error, points), {name: ACCOUNTS[name] for name in accounts})
    return tuple(name for name in accounts if name in separation.remaining)
