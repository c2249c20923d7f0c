"""What two feet have in common and the one thing they differ in, with a history to go back and forth in."""

from dataclasses import dataclass, replace
from typing import Literal

from hoofsim.app.screens.sandbox.controls import step_for
from hoofsim.app.widgets.slider import rounded
from hoofsim.foot.parameters import BY_NAME, PARAMETERS
from hoofsim.foot.presets import PRESETS
from hoofsim.session.commands import LOAD_CASES, MOVING_CASES
from hoofsim.session.possible import why_impossible
from hoofsim.session.state import DEFAULT_STANCE_PERCENT, FootChoice
from hoofsim.units import show

Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")
COMPARED = tuple(p.name for p in PARAMETERS if p.name != "stance_percent")  # the moment is common to both
START_CONTROL, START_VALUE = "heel_change_mm", 12.0
FAR = (
    0.4,
    0.2,
    0.1,
)  # shares of the way to the control's end at which the right foot starts, the first possible


@dataclass(frozen=True)
class Pairing:
    """Ready foot, load case and moment of both; the control they differ in, and its value on either side."""

    preset: str = "sound"
    case: str = "standing"
    stance_percent: float = DEFAULT_STANCE_PERCENT
    control: str = START_CONTROL
    left: float = BY_NAME[START_CONTROL].default
    right: float = START_VALUE

    def value(self, side: Side) -> float:
        """The compared control's value on one side."""
        return self.left if side == "left" else self.right

    @property
    def moves(self) -> bool:
        """Whether the load case has a stride to play."""
        return self.case in MOVING_CASES

    @property
    def moment(self) -> float | None:
        """Moment of the stance, percent; None where the load case has none."""
        return self.stance_percent if self.moves else None

    def compare(self, control: str) -> "Pairing":
        """Compare another control: left as the ready foot has it, right as far from that as `FAR` says and makes a foot."""
        parameter, start = BY_NAME[control], PRESETS[self.preset].values[control]
        ends = [end for end in (parameter.high, parameter.low) if end != start]
        if on_or_off(control):
            return replace(self, control=control, left=start, right=ends[0])
        far = [start + share * (end - start) for end in ends for share in FAR]
        if control == START_CONTROL:
            far.insert(0, START_VALUE)
        step, foot = step_for(parameter), FootChoice(self.preset)
        places = [rounded(value, step, parameter.low, parameter.high) for value in far]
        possible = (value for value in places if not why_impossible([foot.changed(control, value)]))
        return replace(self, control=control, left=start, right=next(possible, start))

    def of(self, preset: str) -> "Pairing":
        """The same comparison on another ready foot, unless its own value is the one compared."""
        left = PRESETS[preset].values[self.control] if self.left == self._start else self.left
        return replace(self, preset=preset, left=left)

    @property
    def _start(self) -> float:
        return PRESETS[self.preset].values[self.control]


def on_or_off(control: str) -> bool:
    """Whether a control only says yes or no."""
    return control == "tendon_cut"


def subject(control: str) -> str:
    """What the compared control is a value of, within a sentence."""
    return "tendon" if on_or_off(control) else BY_NAME[control].label.lower()


def value_words(control: str, value: float, length_unit: str) -> str:
    """A value of the compared control as it is read."""
    if on_or_off(control):
        return "cut" if value else "whole"
    return show(value, BY_NAME[control].unit, length_unit)


def step_words(before: Pairing, after: Pairing, length_unit: str) -> str:
    """What was done between two pairings, in a few words."""
    if before.preset != after.preset:
        return f"choose '{PRESETS[after.preset].label}'"
    if before.control != after.control:
        return f"compare {BY_NAME[after.control].label.lower()}"
    for side in SIDES:
        if before.value(side) != after.value(side):
            words = value_words(after.control, after.value(side), length_unit)
            return f"{side} {subject(after.control)} to {words}"
    if before.case != after.case:
        return f"load: {LOAD_CASES[after.case].lower()}"
    return f"moment of the stance to {after.stance_percent:.0f} %"


class History:
    """Where a comparison has been: changes of one gesture count as one step."""

    def __init__(self, start: Pairing) -> None:
        self._kept: list[tuple[Pairing, str | None]] = [(start, None)]
        self._at = 0

    @property
    def now(self) -> Pairing:
        """The pairing in force."""
        return self._kept[self._at][0]

    @property
    def before(self) -> Pairing | None:
        """What undoing leads to; None at the start."""
        return self._kept[self._at - 1][0] if self._at else None

    @property
    def after(self) -> Pairing | None:
        """What redoing leads to; None at the end."""
        return self._kept[self._at + 1][0] if self._at + 1 < len(self._kept) else None

    def take(self, pairing: Pairing, gesture: str | None) -> None:
        """Another pairing; what was undone is forgotten."""
        if pairing == self.now:
            return
        goes_on = self._at and gesture is not None and gesture == self._kept[self._at][1]
        del self._kept[self._at if goes_on else self._at + 1 :]
        self._kept.append((pairing, gesture))
        self._at = len(self._kept) - 1

    def undo(self) -> None:
        """One step back, if there is one."""
        self._at = max(0, self._at - 1)

    def redo(self) -> None:
        """One step forward again, if there is one."""
        self._at = min(len(self._kept) - 1, self._at + 1)
