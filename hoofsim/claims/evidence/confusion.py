"""Testing the test: how often invented tables under each account are put down to that account, another, or none."""

from collections import Counter
from collections.abc import Sequence

import numpy as np

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.generate import invented_films
from hoofsim.claims.evidence.weighing import weigh
from hoofsim.claims.wording import CANNOT_TELL


def confusion(
    cases: int, seed: int, error: float, baselines: bool = True, measures: Sequence[str] | None = None
) -> dict[str, Counter[str]]:
    """True account -> how many of its `cases` were named which account, or `CANNOT_TELL`.

    `error`: standard error of a marked point along each axis, mm; `measures`: weigh only these.
    """
    found = {}
    for index, (name, account) in enumerate(ACCOUNTS.items()):
        random = np.random.default_rng((seed, index))
        films = invented_films(account, cases, random, error, baselines=baselines)
        weighed = weigh(paired(films, name), measures)
        found[name] = Counter(one.separation.named or CANNOT_TELL for one in weighed)
    return found
