"""What a whole table carries, in a plain paragraph: what its cases exclude, and what they cannot decide."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.evidence.cases import Case
from hoofsim.claims.evidence.claim import AGAINST, ENOUGH_POWER, ROTATION, Trend, trend
from hoofsim.claims.evidence.weighing import Weighed, weigh
from hoofsim.claims.wording import MOVEMENT_NOT_CAUSE, joined, labels
from hoofsim.measures import MEASURES
from hoofsim.units import show_number

NOTHING_DECIDED = "So these cases decide nothing between the accounts."


@dataclass(frozen=True)
class Evidence:
    """A table weighed as a whole: its cases, the trends against rotation, and the traps that concern all of it."""

    name: str
    weighed: tuple[Weighed, ...]
    trends: tuple[Trend, ...]
    traps: tuple[str, ...]

    @property
    def named(self) -> Counter[str]:
        """How many cases each account is named for."""
        return Counter(one.separation.named for one in self.weighed if one.separation.named)

    @property
    def mixed(self) -> bool:
        """True when single cases are named for different accounts: one line through them describes none of them."""
        return len(self.named) > 1


def weigh_table(cases: Sequence[Case], name: str, measures: Sequence[str] | None = None) -> Evidence:
    """Everything that the command and the report tell of a table. With `measures`, only those are weighed."""
    weighed = tuple(weigh(cases, measures))
    shown = [measure for measure in AGAINST if measures is None or {measure, ROTATION} <= set(measures)]
    return Evidence(name, weighed, tuple(trend(weighed, measure) for measure in shown), tuple(_traps(cases)))


def _traps(cases: Sequence[Case]) -> list[str]:
    traps = []
    markers = {
        film.founder_marker
        for case in cases
        for film in (case.film, case.baseline)
        if film and film.founder_marker
    }
    if len(markers) > 1:
        traps.append(
            "The table mixes founder markers (firm horn and hairline, 7 to 10 mm apart): their distances are kept as two "
            "measures and never pooled."
        )
    bare = sum(case.baseline is None for case in cases)
    if bare:
        traps.append(
            f"{_count(bare, 'case')} of {len(cases)} {_have(bare)} no baseline of the same foot: no account is named "
            f"for {'it' if bare == 1 else 'them'}, and {'it is' if bare == 1 else 'they are'} left out of the trends."
        )
    lost = sum(bool(case.film.tip_lost) for case in cases)
    if lost:
        traps.append(
            f"{_count(lost, 'film')} {'shows' if lost == 1 else 'show'} a lost or lipped tip: measures from the tip "
            f"are taken from its true place where a baseline gives it, and otherwise left out."
        )
    unsaid = sum(case.film.tip_lost is None for case in cases)
    if unsaid:
        traps.append(
            f"For {_count(unsaid, 'film')} the table does not say whether the tip is whole. Bone lost there shortens "
            "tip-to-frog although nothing has moved, so a fall in it may be that."
        )
    return traps


def _count(number: int, word: str) -> str:
    return f"{number} {word}" + ("" if number == 1 else "s")


def _have(number: int) -> str:
    return "has" if number == 1 else "have"


def paragraph(evidence: Evidence) -> str:
    """The plain paragraph: cases, what the trends exclude, what they cannot tell, and the limits."""
    return " ".join([in_short(evidence), *_trends(evidence), *evidence.traps, _end(evidence)])


def in_short(evidence: Evidence) -> str:
    """What the cases say one at a time."""
    return " ".join(_cases(evidence))


def taken_together(evidence: Evidence) -> str:
    """What the cases say together, and what nobody may read into it; the traps are not in it."""
    return " ".join([*_trends(evidence), _end(evidence)])


def _trends(evidence: Evidence) -> list[str]:
    return [*(_trend(one, evidence.mixed) for one in evidence.trends), *_together(evidence)]


def _end(evidence: Evidence) -> str:
    return MOVEMENT_NOT_CAUSE if _says_something(evidence) else NOTHING_DECIDED


def _says_something(evidence: Evidence) -> bool:
    """True when a case is named or a trend excludes an account."""
    excluded = any(one.excluded(name) for one in evidence.trends for name in ACCOUNTS)
    return bool(evidence.named) or (excluded and not evidence.mixed)


def _cases(evidence: Evidence) -> list[str]:
    total = len(evidence.weighed)
    named = evidence.named
    if not named:
        return [
            f"Of {_count(total, 'case')}, none is told apart: for no foot do its readings carry the name of one "
            f"account."
        ]
    told = [
        f"{named[name]} {'fits' if named[name] == 1 else 'fit'} {ACCOUNTS[name].label}"
        for name in ACCOUNTS
        if named[name]
    ]
    left = total - sum(named.values())
    words = [
        f"Of {_count(total, 'case')}, taken one at a time, {joined(told)}, each better than any other account."
    ]
    if left:
        words.append(f"For {left} the readings cannot tell.")
    return words


def _trend(one: Trend, mixed: bool) -> str:
    label = MEASURES[one.measure].label.split(",")[0]
    if one.line is None:
        why = (
            f"only {_count(len(one.x), 'case')} {_have(len(one.x))} it with a baseline"
            if len(one.x) < 4
            else "capsular rotation differs among these cases no more than its reading error"
        )
        return f"No trend of {label} against rotation can be had: {why}."
    slope, low, high = (
        show_number(value, "mm/deg", signed=True) for value in (one.line.slope, *one.line.slope_band)
    )
    words = (
        f"Per degree of capsular rotation, {label} changes by {slope} mm (95 % interval {low} to {high}, "
        f"{one.line.count} cases)."
    )
    if mixed:
        return words + " That is an average over cases of more than one kind, and excludes no account."
    out = [name for name in ACCOUNTS if one.excluded(name)]
    fit = [name for name in ACCOUNTS if one.excluded(name) is False]
    words += (
        f" That excludes {labels(out)} as what most of these cases share"
        if out
        else " That excludes no account"
    )
    words += f", and is in keeping with {labels(fit)}." if fit else ", and no single account foretells it."
    return words + _power(one, fit)


def _power(one: Trend, fit: list[str]) -> str:
    """Said where two accounts were both left standing and the table was too weak to part them."""
    for index, first in enumerate(fit):
        for other in fit[index + 1 :]:
            power, needed = one.power(first, other), one.cases_needed(first, other)
            pair = labels([first, other])
            if power is not None and needed is None:
                return f" No number of cases parts {pair} by this trend: they foretell the same."
            if power is not None and power < ENOUGH_POWER:
                return (
                    f" The table had a chance of only {100 * power:.0f} % to part {pair} by this trend; about "
                    f"{needed} such cases would be needed."
                )
    return ""


def _together(evidence: Evidence) -> list[str]:
    """Accounts about which trends against rotation say nothing."""
    silent = [
        name
        for name in ACCOUNTS
        if evidence.trends and all(one.slopes[name] is None for one in evidence.trends)
    ]
    if evidence.mixed or not silent or not any(one.line for one in evidence.trends):
        return []
    return [
        f"The trends say nothing for or against {labels(silent, 'or')}, which turn no bone within the capsule."
    ]
