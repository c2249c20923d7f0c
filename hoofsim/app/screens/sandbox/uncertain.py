"""Bands of uncertainty for the foot shown: only where it is one of the standard cases that carry them."""

from collections.abc import Mapping
from functools import lru_cache

from hoofsim.session.state import FootChoice, State
from hoofsim.units import show, show_number
from hoofsim.verify.bands import carried
from hoofsim.verify.uncertainty import CASES, StandardCase

SAME_MOMENT = 0.5  # percent of the stance
Bands = Mapping[str, tuple[float, float]]


def standard_case(state: State) -> str | None:
    """The standard case that the sitting's foot and load are; None for any other."""
    return next((name for name, case in CASES.items() if _is(case, state)), None)


def _is(case: StandardCase, state: State) -> bool:
    foot = FootChoice(case.foot.preset, tuple(sorted(case.foot.changes.items())))
    if foot != state.foot or case.load != state.load.case:
        return False
    if case.stance_percent is None or state.load.stance_percent is None:
        return case.stance_percent is state.load.stance_percent
    return abs(case.stance_percent - state.load.stance_percent) <= SAME_MOMENT


def bands_for(state: State) -> Bands:
    """Measure -> low and high end of its 90 % band; empty for a foot that is no standard case."""
    name = standard_case(state)
    return _of_case(name) if name is not None else {}


@lru_cache(maxsize=len(CASES))
def _of_case(name: str) -> Bands:
    return {measure: (band.low, band.high) for measure, band in carried()[name].items()}


def band_words(band: tuple[float, float], unit: str, length_unit: str) -> str:
    """Both ends in few signs, such as "510 to 840"."""
    low, high = (show_number(end, unit, length_unit) for end in band)
    return f"{low} to {high}"


def band_sentence(band: tuple[float, float], unit: str, length_unit: str) -> str:
    """What the band is, for the tooltip."""
    low = show_number(band[0], unit, length_unit)
    high = show(band[1], unit, length_unit)
    return (
        f"90 % band from uncertain constants of foot and tissues: {low} to {high}. "
        "What the model leaves out is not in it."
    )
