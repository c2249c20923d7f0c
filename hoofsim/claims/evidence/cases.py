"""Pair each film with the baseline of the same foot, and catch what would mislead before anything is computed."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hoofsim.claims.evidence.film import Film
from hoofsim.errors import BadInput

# The bone does not change its length between two films: more than this is another scale, or another foot.
LENGTH_REFUSED = 0.12
LENGTH_NOTED = 0.04


@dataclass(frozen=True)
class Case:
    """One foot: the film in question, its baseline if there is one, and the traps noticed (plain sentences)."""

    name: str
    film: Film
    baseline: Film | None
    traps: tuple[str, ...]

    @property
    def rebuilt_tip(self) -> bool:
        """True when the tip is lost on the film but can be put back from the baseline, where it is whole."""
        return bool(self.film.tip_lost and self.baseline is not None and not self.baseline.tip_lost)

    @property
    def true_tip_known(self) -> bool:
        """True when measures from the true tip can be given."""
        if self.baseline is not None and self.baseline.tip_lost:
            return False
        return not self.film.tip_lost or self.rebuilt_tip


def paired(films: Sequence[Film], table: str) -> list[Case]:
    """Cases in the table's order; BadInput for a film given twice, or a baseline without its case."""
    seen: dict[tuple[str, str], Film] = {}
    for film in films:
        first = seen.setdefault((film.case, film.film), film)
        if first is not film:
            raise BadInput(
                f"{table}: row {film.row}, column case: '{film.case}' has a second '{film.film}' film (first in row "
                f"{first.row})"
            )
    for (name, which), film in seen.items():
        if which == "baseline" and (name, "case") not in seen:
            raise BadInput(
                f"{table}: row {film.row}, column case: '{name}' has a baseline but no row with film 'case'"
            )
    return [_case(film, seen.get((film.case, "baseline")), table) for film in films if film.film == "case"]


def _case(film: Film, baseline: Film | None, table: str) -> Case:
    traps = []
    if baseline is None:
        traps.append("no baseline of this foot: what feet differ by may pass for movement")
    else:
        traps += _length(film, baseline, table)
        traps += _markers(film, baseline)
        if film.has_ground != baseline.has_ground:
            traps.append("the ground is marked on one film only: heights above the ground are left out")
    case = Case(film.case, film, baseline, ())
    traps += _tip(case)
    return Case(film.case, film, baseline, tuple(traps))


def _length(film: Film, baseline: Film, table: str) -> list[str]:
    lengths = [
        float(np.linalg.norm(one.points["extensor_process"] - one.points["palmar_process"]))
        for one in (film, baseline)
    ]
    change = lengths[0] / lengths[1] - 1.0
    chance = 3.0 * float(np.hypot(film.error, baseline.error)) * np.sqrt(2.0) / lengths[1]
    if abs(change) > max(LENGTH_REFUSED, 2.0 * chance):
        raise BadInput(
            f"{table}: row {film.row}, column mm_per_unit: the bone is {100 * change:+.0f} % longer than on its "
            f"baseline (row {baseline.row}): check the scale, or whether it is the same foot"
        )
    if abs(change) > max(LENGTH_NOTED, chance):
        return [f"the bone measures {100 * change:+.0f} % against its baseline: the two scales may differ"]
    return []


def _markers(film: Film, baseline: Film) -> list[str]:
    if film.founder_marker != baseline.founder_marker and film.founder_marker and baseline.founder_marker:
        return [
            "the founder markers of the two films differ (firm horn, hairline; 7 to 10 mm apart): the firm-horn founder "
            "distance is left out"
        ]
    return []


def _tip(case: Case) -> list[str]:
    if case.baseline is not None and case.baseline.tip_lost:
        return ["tip lost on the baseline already: every measure from the tip is left out"]
    if case.film.tip_lost is None:
        return ["not said whether the tip is whole: bone lost there shortens tip-to-frog with no movement"]
    if case.rebuilt_tip:
        return ["tip lost: its true place is put back from the baseline film"]
    if case.film.tip_lost:
        return ["tip lost and no baseline with a whole tip: every measure from the tip is left out"]
    return []
