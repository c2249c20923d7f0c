"""A foot as a lesson names it: preset, values and load, solved once and remembered."""

from dataclasses import dataclass
from functools import lru_cache

from hoofsim.foot.parameters import BY_NAME
from hoofsim.measures import MEASURES
from hoofsim.model import Foot, LoadedFoot
from hoofsim.units import show, shown_unit

FEET_KEPT, NUMBERS_KEPT = 32, 256  # a drawn foot is 0.15 MB, its numbers a hundredth of that


@dataclass(frozen=True)
class FootState:
    """One foot under one load, by its values alone, so that equal states share one solution.

    `settings` are the controls that differ from the preset, sorted by name; `stance_percent`, for walk and trot.
    """

    preset: str
    settings: tuple[tuple[str, float], ...] = ()
    case: str = "standing"
    stance_percent: float | None = None

    def change(self, **values: float) -> "FootState":
        """The same foot and load with some controls set to other values."""
        changed = {**dict(self.settings), **values}
        return FootState(self.preset, tuple(sorted(changed.items())), self.case, self.stance_percent)

    @property
    def foot(self) -> Foot:
        """The unloaded foot; BadInput for values that make none."""
        return Foot(self.preset, **dict(self.settings))

    @property
    def loaded(self) -> LoadedFoot:
        """The foot at rest under its load; BadInput for values that each are allowed and together make no foot."""
        return _loaded(self)

    def measure(self, name: str) -> float | None:
        """One measure in its unit; None where it is not defined or the foot finds no rest."""
        return _measures(self)[name]

    def value(self, control: str) -> float:
        """What a control stands at."""
        return float(self.foot.values[control])

    def shown(self, name: str, length_unit: str = "mm") -> str:
        """One measure with its unit, for reading."""
        return show(self.measure(name), MEASURES[name].unit, length_unit)


def setting_in_words(control: str, value: float) -> str:
    """What a control stands at, such as "8 mm", to the hundredth."""
    return f"{round(value, 2):g} {shown_unit(BY_NAME[control].unit)}".strip()


def change_between(before: FootState, after: FootState, name: str) -> float | None:
    """How much a measure differs, in its unit; None where either foot does not give it."""
    first, second = before.measure(name), after.measure(name)
    return None if first is None or second is None else second - first


@lru_cache(maxsize=FEET_KEPT)
def _loaded(state: FootState) -> LoadedFoot:
    return state.foot.load(state.case, state.stance_percent)


@lru_cache(maxsize=NUMBERS_KEPT)
def _measures(state: FootState) -> dict[str, float | None]:
    return _loaded(state).measures()
