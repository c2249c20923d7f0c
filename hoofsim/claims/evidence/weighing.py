"""Where each case of a table falls among the accounts."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.claims.evidence.cases import Case
from hoofsim.claims.evidence.propagation import COPIES, Measured, kept, measured
from hoofsim.claims.readings import Readings, against_sound_foot
from hoofsim.claims.separability import Separation, separate_all
from hoofsim.frames import Array


@dataclass(frozen=True)
class Weighed:
    """One case with its measures and every account's standing on them."""

    case: Case
    measured: Measured
    separation: Separation


def weigh(cases: Sequence[Case], measures: Sequence[str] | None = None) -> list[Weighed]:
    """Every case against every account; with `measures`, only those are used, as if no others had been read."""
    found = measured(cases)
    read = [readings(case, one, measures) for case, one in zip(cases, found, strict=True)]
    return [Weighed(*parts) for parts in zip(cases, found, separate_all(read), strict=True)]


def readings(case: Case, found: Measured, measures: Sequence[str] | None = None) -> Readings:
    """The case's readings for the accounts: changes from its own baseline, or from the sound foot for want of one."""
    source = found.change or found.standing
    wanted = [name for name in source[0] if name not in COPIES and (measures is None or name in measures)]
    names, values, covariance = kept(source, wanted)
    if case.baseline is None:
        return Readings(*against_sound_foot(names, values, covariance), False)
    points: dict[str, Array] = {name: np.asarray(xy) for name, xy in case.baseline.points.items()}
    return Readings(names, values, covariance, points, True)
