"""A sitting: a history of commands with a place in it, and the equilibrium that follows from where it stands."""

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from hoofsim.errors import BadInput
from hoofsim.measures.table import MEASURES
from hoofsim.model import Foot, LoadedFoot
from hoofsim.session.commands import (
    BrushLaminae,
    Command,
    KeepTrial,
    SetControl,
    SetLoad,
)
from hoofsim.session.possible import why_impossible
from hoofsim.session.state import FootChoice, LoadChoice, State, apply, replay

KEPT_EQUILIBRIA = 64


@dataclass(frozen=True)
class HistoryStep:
    """One command of the history; commands of one gesture (a drag) count as one step and the last one stays."""

    command: Command
    gesture: str | None = None


@dataclass(frozen=True)
class Change:
    """How one measure stands against the baseline, in the measure's own unit."""

    name: str
    before: float
    now: float
    readable: bool  # large enough, and of a kind, to be read on a radiograph

    @property
    def difference(self) -> float:
        """Now less before."""
        return self.now - self.before


class Session:
    """Holds the history; `state`, `loaded` and `baseline` follow from it. Nothing else changes them."""

    def __init__(self, commands: Sequence[Command] = (), position: int | None = None) -> None:
        """Start from the sound foot standing, with `commands` already given and `position` of them in force."""
        self._steps = [HistoryStep(command) for command in commands]
        self._position = len(self._steps) if position is None else position
        self._states = replay(State(), commands)  # one more than steps: before the first, and after each
        self._equilibria: OrderedDict[tuple[FootChoice, LoadChoice], LoadedFoot] = OrderedDict()

    # -- history -------------------------------------------------------------------------------------------------

    @property
    def commands(self) -> tuple[Command, ...]:
        """Every command of the history, also those undone."""
        return tuple(step.command for step in self._steps)

    @property
    def position(self) -> int:
        """How many commands are in force."""
        return self._position

    @property
    def state(self) -> State:
        """What the commands in force amount to."""
        return self._states[self._position]

    def do(self, command: Command, gesture: str | None = None) -> None:
        """Give a command; what was undone is forgotten. One that changes nothing is not remembered, and one whose
        choices would make no foot is refused (BadInput) with nothing done.

        Within one gesture the last command on a subject replaces the earlier ones.
        """
        kept, states = self._steps[: self._position], self._states[: self._position + 1]
        if gesture is not None:
            first = len(kept)
            while first and kept[first - 1].gesture == gesture:
                first -= 1
            kept = kept[:first] + [s for s in kept[first:] if not same_subject(s.command, command)]
            states = states[:first] + replay(states[first], [step.command for step in kept[first:]])
        after = apply(states[-1], command)
        if after.foot != self.state.foot and (why := why_impossible([after.foot])):
            raise BadInput(why)
        if after != states[-1]:
            kept.append(HistoryStep(command, gesture))
            states.append(after)
        self._steps, self._states, self._position = kept, states, len(kept)

    def do_all(self, commands: Sequence[Command]) -> None:
        """Give commands whose order does not matter, each once it makes a foot with what is set by then.

        BadInput when what is left never does; what was done by then stays and can be undone.
        """
        left = list(commands)
        while left:
            refused: list[tuple[Command, BadInput]] = []
            for command in left:
                try:
                    self.do(command)
                except BadInput as problem:
                    refused.append((command, problem))
            if len(refused) == len(left):
                raise refused[0][1]
            left = [command for command, _ in refused]

    def undo_sentence(self) -> str | None:
        """What `undo` would take back; None at the start."""
        return self._steps[self._position - 1].command.sentence() if self._position else None

    def redo_sentence(self) -> str | None:
        """What `redo` would do again; None at the end."""
        left = self._position < len(self._steps)
        return self._steps[self._position].command.sentence() if left else None

    def undo(self) -> bool:
        """Take back one command, or all those of one gesture; False when there is none."""
        if self._position == 0:
            return False
        gesture = self._steps[self._position - 1].gesture
        self._position -= 1
        while gesture is not None and self._position and self._steps[self._position - 1].gesture == gesture:
            self._position -= 1
        return True

    def redo(self) -> bool:
        """Do again what one `undo` took back; False when there is nothing."""
        if self._position == len(self._steps):
            return False
        gesture = self._steps[self._position].gesture
        self._position += 1
        while gesture is not None and self._position < len(self._steps):
            if self._steps[self._position].gesture != gesture:
                break
            self._position += 1
        return True

    # -- what follows from it ------------------------------------------------------------------------------------

    def value(self, name: str) -> float:
        """A control's present value, the moment of the stance included."""
        if name == "stance_percent" and self.state.load.stance_percent is not None:
            return self.state.load.stance_percent
        return self.state.foot.value(name)

    @property
    def foot(self) -> Foot:
        """The present foot, unloaded."""
        return foot_of(self.state.foot)

    @property
    def loaded(self) -> LoadedFoot:
        """The present foot at rest under the present load; its `status` says whether such a state exists."""
        return self._equilibrium(self.state.foot)

    @property
    def baseline(self) -> LoadedFoot:
        """What is compared with, under the same load."""
        return self._equilibrium(self.state.compared_with)

    def _equilibrium(self, choice: FootChoice) -> LoadedFoot:
        key = (choice, self.state.load)
        if key not in self._equilibria:
            self._equilibria[key] = load_of(foot_of(choice), self.state.load)
            if len(self._equilibria) > KEPT_EQUILIBRIA:
                self._equilibria.popitem(last=False)
        self._equilibria.move_to_end(key)
        return self._equilibria[key]

    def changes(self) -> dict[str, Change]:
        """Every measure defined on both feet, against the baseline."""
        return changes_between(self.baseline.measures(), self.loaded.measures())

    def keep_trial(self, note: str = "", prediction: str = "") -> None:
        """Write the present numbers into the log."""
        results = tuple(
            (name, float(value)) for name, value in self.loaded.measures().items() if value is not None
        )
        self.do(KeepTrial(note, prediction, results))


def same_subject(first: Command, second: Command) -> bool:
    """True when two commands of one gesture set the same thing, so that the later one replaces the earlier."""
    match first, second:
        case SetControl(name), SetControl(other):
            return name == other
        case BrushLaminae(third), BrushLaminae(other):
            return third == other
        case SetLoad(case), SetLoad(other):
            return case == other
    return False


def foot_of(choice: FootChoice) -> Foot:
    """The engine's foot for a choice."""
    return Foot(choice.preset, **dict(choice.changes))


def load_of(foot: Foot, load: LoadChoice) -> LoadedFoot:
    """The engine's loaded foot for a load choice."""
    if load.stance_percent is None:
        return foot.load(load.case)
    return foot.load(load.case, stance_percent=load.stance_percent)


def changes_between(before: Mapping[str, float | None], now: Mapping[str, float | None]) -> dict[str, Change]:
    """Each measure that both have, with whether a radiograph could show the change."""
    found = {}
    for name, value in now.items():
        old = before.get(name)
        if value is None or old is None:
            continue
        measure = MEASURES[name]
        limit = measure.smallest_readable
        readable = measure.readable and limit is not None and abs(value - old) >= limit
        found[name] = Change(name, old, value, readable)
    return found
