"""Whether choices that are each allowed also make a foot together: geometry refuses what contradicts itself."""

from collections.abc import Sequence

import numpy as np

from hoofsim.errors import BadInput
from hoofsim.foot.geometry import refuse_contradictions
from hoofsim.foot.presets import preset
from hoofsim.session.state import FootChoice


def why_impossible(feet: Sequence[FootChoice]) -> str:
    """The sentence of the first contradiction in a batch of feet; "" when every one of them can be built."""
    if not feet:
        return ""
    chosen = [preset(foot.preset).values | dict(foot.changes) for foot in feet]
    try:
        refuse_contradictions({name: np.array([values[name] for values in chosen]) for name in chosen[0]})
    except BadInput as problem:
        return str(problem)
    return ""


def first_impossible(feet: Sequence[FootChoice]) -> int:
    """Index of the first foot that cannot be built; their number when all can. Halves, so a long history stays quick."""
    if not why_impossible(feet):
        return len(feet)
    good, bad = 0, len(feet)  # the first `good` feet can all be built, among the first `bad` one cannot
    while bad - good > 1:
        middle = (good + bad) // 2
        if why_impossible(feet[good:middle]):
            bad = middle
        else:
            good = middle
    return good
