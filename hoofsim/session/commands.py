"""Everything a person can do to the state of a sitting, as frozen values that can be written down and replayed.

A command knows nothing of mechanics: it changes a choice, and the equilibrium follows from the choices.
"""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, fields
from types import MappingProxyType
from typing import Any, ClassVar

from hoofsim.errors import BadInput, nearest
from hoofsim.files.typed import shown
from hoofsim.foot.parameters import checked, parameter
from hoofsim.foot.presets import preset
from hoofsim.mechanics.loads import CASES, load_case
from hoofsim.plain_text import printable

LOAD_CASES: Mapping[str, str] = {name: case.label for name, case in CASES.items()}
MOVING_CASES = tuple(name for name, case in CASES.items() if case.moves)  # those with a moment of the stance

THIRDS = MappingProxyType(
    {
        "whole": "laminae_percent",
        "proximal": "laminae_proximal_percent",
        "middle": "laminae_middle_percent",
        "distal": "laminae_distal_percent",
        "quarters": "quarters_percent",
    }
)
LONGEST_NOTE = 400


@dataclass(frozen=True)
class Command(ABC):
    """Base of all commands; `word` is its name in files."""

    word: ClassVar[str] = ""

    @abstractmethod
    def sentence(self) -> str:
        """What undoing would take back, in a few words."""

    def plain(self) -> dict[str, Any]:
        """The command as plain values for a file."""
        return {"do": self.word} | {field.name: getattr(self, field.name) for field in fields(self)}


@dataclass(frozen=True)
class ChoosePreset(Command):
    """Take a ready foot and forget every change; load and baseline stay."""

    preset: str
    word: ClassVar[str] = "choose_preset"

    def __post_init__(self) -> None:
        preset(self.preset)

    def sentence(self) -> str:
        """Name of the foot chosen."""
        return f"choose '{preset(self.preset).label}'"


@dataclass(frozen=True)
class SetControl(Command):
    """Give one control a value, in its own unit."""

    name: str
    value: float
    word: ClassVar[str] = "set_control"

    def __post_init__(self) -> None:
        object.__setattr__(self, "value", checked(self.name, self.value))

    def sentence(self) -> str:
        """Control and value."""
        return f"{parameter(self.name).label} to {self.value:g}"


@dataclass(frozen=True)
class SetLoad(Command):
    """Choose the load case and, for walk and trot, the moment of the stance in percent."""

    case: str
    stance_percent: float | None = None
    word: ClassVar[str] = "set_load"

    def __post_init__(self) -> None:
        load_case(self.case)
        if self.stance_percent is not None:
            object.__setattr__(self, "stance_percent", checked("stance_percent", self.stance_percent))

    def sentence(self) -> str:
        """Case and moment."""
        moment = f" at {self.stance_percent:g} %" if self.stance_percent is not None else ""
        return f"load: {LOAD_CASES[self.case].lower()}{moment}"


@dataclass(frozen=True)
class CutTendon(Command):
    """Cut the deep digital flexor tendon, or make it whole again."""

    cut: bool = True
    word: ClassVar[str] = "cut_tendon"

    def __post_init__(self) -> None:
        if not isinstance(self.cut, bool):
            raise BadInput(f"cut_tendon needs true or false, not {shown(self.cut)}")

    def sentence(self) -> str:
        """Cut or restored."""
        return "cut the tendon" if self.cut else "restore the tendon"


@dataclass(frozen=True)
class BrushLaminae(Command):
    """Leave so many percent of a stretch of laminae attached: whole, proximal, middle, distal or quarters."""

    third: str
    percent: float
    word: ClassVar[str] = "brush_laminae"

    def __post_init__(self) -> None:
        if self.third not in THIRDS:
            raise BadInput(f"unknown stretch of laminae '{self.third}': {nearest(self.third, THIRDS)}")
        object.__setattr__(self, "percent", checked(THIRDS[self.third], self.percent))

    def sentence(self) -> str:
        """Stretch and percent."""
        return f"{parameter(THIRDS[self.third]).label} to {self.percent:g} %"


@dataclass(frozen=True)
class SetBaseline(Command):
    """Compare from now on with the foot as it is; `clear` goes back to the preset unchanged."""

    clear: bool = False
    word: ClassVar[str] = "set_baseline"

    def __post_init__(self) -> None:
        if not isinstance(self.clear, bool):
            raise BadInput(f"clear needs true or false, not {shown(self.clear)}")

    def sentence(self) -> str:
        """Set or cleared."""
        return "compare with the unchanged foot" if self.clear else "set the baseline"


@dataclass(frozen=True)
class KeepTrial(Command):
    """Write the present foot into the log, with a note, what was predicted, and the numbers as they were read."""

    note: str = ""
    prediction: str = ""
    results: tuple[tuple[str, float], ...] = ()
    word: ClassVar[str] = "keep_trial"

    def __post_init__(self) -> None:
        for what in ("note", "prediction"):
            text = getattr(self, what)
            if not isinstance(text, str) or len(text) > LONGEST_NOTE:
                raise BadInput(f"{what} must be text of at most {LONGEST_NOTE} signs")
            object.__setattr__(self, what, printable(text))

    def sentence(self) -> str:
        """Note, if any."""
        return f"keep the trial '{self.note}'" if self.note else "keep the trial"

    def plain(self) -> dict[str, Any]:
        """Results as a mapping."""
        return {
            "do": self.word,
            "note": self.note,
            "prediction": self.prediction,
            "results": dict(self.results),
        }


@dataclass(frozen=True)
class RestoreTrial(Command):
    """Take foot and load of a kept trial (numbered from 1) again."""

    number: int
    word: ClassVar[str] = "restore_trial"

    def __post_init__(self) -> None:
        if isinstance(self.number, bool) or not isinstance(self.number, int) or self.number < 1:
            raise BadInput(f"trial number must be a whole number from 1, not {shown(self.number)}")

    def sentence(self) -> str:
        """Which trial."""
        return f"go back to trial {self.number}"


COMMANDS: dict[str, type[Command]] = {
    kind.word: kind
    for kind in (
        ChoosePreset,
        SetControl,
        SetLoad,
        CutTendon,
        BrushLaminae,
        SetBaseline,
        KeepTrial,
        RestoreTrial,
    )
}


def from_plain(data: Any) -> Command:
    """The command of plain values read from a file; BadInput in one sentence when it is none."""
    if not isinstance(data, dict) or "do" not in data:
        raise BadInput(f"a command needs 'do:' with one of {', '.join(COMMANDS)}")
    word = data["do"]
    if not isinstance(word, str) or word not in COMMANDS:
        raise BadInput(f"unknown command {shown(word)}: {nearest(str(word)[:40], COMMANDS)}")
    kind = COMMANDS[word]
    known = {field.name for field in fields(kind)}
    for key in data:
        if key != "do" and key not in known:
            raise BadInput(f"command '{word}' has no '{key}': {nearest(str(key), known)}")
    given = {key: value for key, value in data.items() if key != "do"}
    for key in ("name", "preset", "case", "third"):
        if key in given and not isinstance(given[key], str):
            raise BadInput(f"'{key}' of command '{word}' must be a name, not {shown(given[key])}")
    if kind is KeepTrial:
        given["results"] = _results(given.get("results") or {})
    try:
        return kind(**given)
    except TypeError:
        missing = sorted(known - set(given))
        raise BadInput(f"command '{word}' needs {', '.join(missing)}") from None


def _results(data: Any) -> tuple[tuple[str, float], ...]:
    if not isinstance(data, dict):
        raise BadInput("results must be names with numbers")
    for name, value in data.items():
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise BadInput(f"result '{name}' must be a number, not {shown(value)}")
    return tuple((str(name), float(value)) for name, value in data.items())
