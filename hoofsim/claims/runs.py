"""Several runs with one foot taken together: which accounts they leave, and what they say about them.

Runs are pooled as if one and the same account moved the foot in all of them, each time by its own amount. That is an
assumption, and the sentence states it: a student may well have moved one thing first and another afterwards.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hoofsim.claims.information import Advice
from hoofsim.claims.separability import Separation, to_be_named
from hoofsim.claims.wording import advice_sentence, verdict

NO_RUNS = (
    "Nothing has changed yet. Change the foot, or keep trials: each run becomes a point among the accounts."
)
_LEAST_SHARE = 1e-12  # an account that one run all but rules out cannot come back by rounding


def pooled(runs: Sequence[Separation]) -> Separation:
    """The runs (one at least) as one: shares of the likelihood multiplied, and an account excluded that any excludes.

    Readings and amounts are those of the first run.
    """
    first = runs[0]
    shares = {
        name: float(np.prod([max(run.standings[name].likelihood, _LEAST_SHARE) for run in runs]))
        for name in first.standings
    }
    total = sum(shares.values())
    standings = {
        name: replace(
            standing,
            likelihood=shares[name] / total,
            fit=min(run.standings[name].fit for run in runs),
            misfit=max(run.standings[name].misfit for run in runs),
        )
        for name, standing in first.standings.items()
    }
    return Separation(first.readings, standings, to_be_named(first.readings, standings))


def runs_sentence(runs: Sequence[Separation], advice: Sequence[Advice] | None) -> str:
    """What the runs leave undecided and, once `advice` for the pooled runs is known, what to measure next."""
    if not runs:
        return NO_RUNS
    together = pooled(runs)
    said = verdict(together)
    if len(runs) > 1:
        amount = " (the amount is the first run's)" if together.named else ""
        said = f"All {len(runs)} runs, taken as one and the same movement{amount}. {said}"
    if advice is None or not together.remaining:
        return said
    return f"{said} {advice_sentence(together, advice)}"
