"""Verdicts in plain sentences that say what the readings carry and no more.

An account says which movement a foot shows, never what caused it, and never how the horse will do.
"""

from collections.abc import Mapping, Sequence

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.information import Advice
from hoofsim.claims.readings import observation
from hoofsim.claims.separability import FEWEST_OBSERVATIONS, Separation, Standing
from hoofsim.measures import MEASURES
from hoofsim.units import show

MOVEMENT_NOT_CAUSE = (
    "This says which movement fits, not what caused it: tendon tension and the ground's force at the toe are two ends "
    "of one balance, and a film shows neither."
)
TIP_LOSS = "bone lost at the tip shortens tip-to-frog in the same way although nothing has moved"
CANNOT_TELL = "cannot tell"
WORTH_READING = 0.05
"""Bits below which a further reading is not worth advising."""
CHECKED_FIRST = ("tip_to_frog", "frog_to_toe", "sole_depth_tip", "phalangeal_rotation", "capsular_rotation")


def joined(words: Sequence[str], last: str = "and") -> str:
    """Words as a list in a sentence: "a, b and c"."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last} {words[-1]}"


def labels(names: Sequence[str], last: str = "and") -> str:
    """Accounts' labels as a list in a sentence."""
    return joined([ACCOUNTS[name].label for name in names], last)


def verdict_word(separation: Separation) -> str:
    """The account named, or that the readings cannot tell."""
    return ACCOUNTS[separation.named].label if separation.named else CANNOT_TELL


def verdict(separation: Separation) -> str:
    """What the readings of one foot say about the accounts, in one or two sentences."""
    if separation.named:
        return _named(separation, separation.named)
    remaining = separation.remaining
    if not remaining and not separation.readings.own_baseline:
        return (
            f"Cannot tell: {_why(separation)} Measured against a sound foot, none of the {len(separation.standings)} "
            "accounts alone fits."
        )
    if not remaining:
        return (
            f"Cannot tell: none of the {len(separation.standings)} accounts alone fits these readings. Movements may "
            f"be mixed, a reading may be wrong, or its error may be larger than stated."
        )
    excluded = [name for name in separation.standings if name not in remaining]
    rest = f" They do not fit {labels(excluded, 'or')}." if excluded else ""
    fitting = f"They still fit {labels(remaining)}."
    return f"Cannot tell: {_why(separation)} {fitting}{rest}{_tip_caution(separation)}"


def _named(separation: Separation, name: str) -> str:
    standing, account = separation.standings[name], ACCOUNTS[name]
    others = [other for other in separation.standings if other != name]
    unfit = [other for other in others if separation.standings[other].excluded]
    less = [other for other in others if other not in unfit]
    parts = [
        f"The readings fit {account.label} ({standing.amount:.1f} ± {standing.amount_error:.1f} {account.unit}; "
        f"{100.0 * min(standing.likelihood, 0.999):.1f} % of the likelihood)"
    ]
    if unfit:
        parts.append(f"they do not fit {labels(unfit, 'or')}")
    if less:
        parts.append(f"{labels(less)} would fit, but far less well")
    return "; ".join(parts) + "."


def _why(separation: Separation) -> str:
    readings = separation.readings
    if readings.observations == 0:
        return "nothing was read that could be compared."
    if readings.observations < FEWEST_OBSERVATIONS:
        return (
            "only one thing was observed, and an account's amount can be chosen to fit one observation, so nothing is "
            "left to check it with."
        )
    if not readings.own_baseline:
        return "there is no baseline of the same foot, so what feet differ by may pass for movement."
    if len(separation.remaining) == 1:
        return "the readings fit the one account left little better than those ruled out."
    if all(standing.amount < 3.0 * max(standing.amount_error, 0.5) for standing in _remaining(separation)):
        return "the change is small against the reading error."
    return "the readings fit more than one account about as well."


def _remaining(separation: Separation) -> list[Standing]:
    return [separation.standings[name] for name in separation.remaining]


def _tip_caution(separation: Separation) -> str:
    """Said when all that points to slide-through is tip-to-frog."""
    only_tip = {observation(name) for name in separation.readings.measures} == {"tip_to_frog"}
    return f" Remember that {TIP_LOSS}." if only_tip else ""


def advice_sentence(separation: Separation, advice: Sequence[Advice], most: int = 3) -> str:
    """What to measure next, or that nothing more would help."""
    telling = [one for one in advice[:most] if one.bits >= WORTH_READING]
    if telling:
        shown = [f"{MEASURES[one.name].label} ({one.bits:.2f} bits)" for one in telling]
        return f"What would separate them best is to read next: {joined(shown, 'or')}."
    if len(separation.remaining) == 1 and separation.named is None:
        return _check(separation, separation.remaining[0])
    if len(separation.remaining) > 1:
        return "No further measure would separate them much; reading the same points again would lower the reading error."
    return "No further measure is needed to separate the accounts."


def _check(separation: Separation, name: str, most: int = 3) -> str:
    """How the one account left could fail: what it says of things not yet observed."""
    standing = separation.standings[name]
    change = ACCOUNTS[name].predict_change(separation.readings.baseline, standing.amount)
    seen = {observation(measure) for measure in separation.readings.measures}
    foretold = [m for m in CHECKED_FIRST if m in change and observation(m) not in seen][:most]
    if not foretold:
        return "More landmarks are needed to check it."
    shown = [f"{MEASURES[m].label} {show(float(change[m]), MEASURES[m].unit, signed=True)}" for m in foretold]
    return f"To check it, read something else; {ACCOUNTS[name].label} foretells: {joined(shown)}."


def experiment_sentence(separation: Separation, advice: Sequence[Advice], titles: Mapping[str, str]) -> str:
    """Which ready experiment reads what would separate the accounts that remain; "" when none would."""
    if not advice or advice[0].bits < WORTH_READING or len(separation.remaining) < 2:
        return ""
    best = advice[0]
    read = joined([MEASURES[name].label for name in best.measures])
    return f"A ready experiment that reads it: {titles[best.name]} ({read}; {best.bits:.2f} bits)."
