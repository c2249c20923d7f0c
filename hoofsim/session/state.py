"""What a sitting amounts to at one moment, and how a command changes it: pure, exact, replayable."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from itertools import accumulate

from hoofsim.errors import BadInput
from hoofsim.foot.parameters import BY_NAME
from hoofsim.foot.presets import preset
from hoofsim.session.commands import (
    MOVING_CASES,
    THIRDS,
    BrushLaminae,
    ChoosePreset,
    Command,
    CutTendon,
    KeepTrial,
    RestoreTrial,
    SetBaseline,
    SetControl,
    SetLoad,
)

DEFAULT_STANCE_PERCENT = BY_NAME["stance_percent"].default


@dataclass(frozen=True)
class FootChoice:
    """A preset and the controls that differ from it, sorted by name."""

    preset: str = "sound"
    changes: tuple[tuple[str, float], ...] = ()

    def value(self, name: str) -> float:
        """The control's present value."""
        return dict(self.changes).get(name, preset(self.preset).values[name])

    def changed(self, name: str, value: float) -> "FootChoice":
        """The same foot with one control at `value`; equal to the preset's own value means no change at all."""
        values = dict(self.changes)
        values.pop(name, None)
        if value != preset(self.preset).values[name]:
            values[name] = value
        return replace(self, changes=tuple(sorted(values.items())))


@dataclass(frozen=True)
class LoadChoice:
    """A load case and, for those that have one, the moment of the stance in percent."""

    case: str = "standing"
    stance_percent: float | None = None


@dataclass(frozen=True)
class Trial:
    """One kept run: what the foot and the load were, what was predicted, and what was read."""

    number: int
    foot: FootChoice
    load: LoadChoice
    note: str
    prediction: str
    results: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class State:
    """Foot, load, what is compared with (None: the preset unchanged), and the trials kept so far."""

    foot: FootChoice = field(default_factory=FootChoice)
    load: LoadChoice = field(default_factory=LoadChoice)
    baseline: FootChoice | None = None
    trials: tuple[Trial, ...] = ()

    @property
    def compared_with(self) -> FootChoice:
        """The foot that changes are counted from."""
        return self.baseline if self.baseline is not None else FootChoice(self.foot.preset)


def apply(state: State, command: Command) -> State:
    """The state after a command."""
    match command:
        case ChoosePreset(name):
            return replace(state, foot=FootChoice(name))
        case SetControl("stance_percent", value) if state.load.case in MOVING_CASES:
            return replace(state, load=LoadChoice(state.load.case, value))
        case SetControl(name, value):
            return replace(state, foot=state.foot.changed(name, value))
        case SetLoad(case, stance):
            if case in MOVING_CASES and stance is None:
                stance = DEFAULT_STANCE_PERCENT
            return replace(state, load=LoadChoice(case, stance if case in MOVING_CASES else None))
        case CutTendon(cut):
            return replace(state, foot=state.foot.changed("tendon_cut", 1.0 if cut else 0.0))
        case BrushLaminae(third, percent):
            return replace(state, foot=state.foot.changed(THIRDS[third], percent))
        case SetBaseline(clear):
            return replace(state, baseline=None if clear else state.foot)
        case KeepTrial(note, prediction, results):
            trial = Trial(len(state.trials) + 1, state.foot, state.load, note, prediction, results)
            return replace(state, trials=(*state.trials, trial))
        case RestoreTrial(number):
            if number > len(state.trials):
                raise BadInput(f"there is no trial {number}; {len(state.trials)} were kept before it")
            kept = state.trials[number - 1]
            return replace(state, foot=kept.foot, load=kept.load)
    raise TypeError(f"no rule for {type(command).__name__}")


def replay(start: State, commands: Iterable[Command]) -> list[State]:
    """The start and the state after each command: one more than there are commands."""
    return list(accumulate(commands, apply, initial=start))
