"""What a learner can do in a lesson: the events, and the line of text that means each of them at a keyboard."""

from dataclasses import dataclass

from hoofsim.errors import BadInput, nearest
from hoofsim.foot.parameters import BY_NAME


@dataclass(frozen=True)
class Next:
    """Go on."""


@dataclass(frozen=True)
class Back:
    """Go back one step to look again."""


@dataclass(frozen=True)
class GoTo:
    """Go to a step seen before."""

    step: str


@dataclass(frozen=True)
class GiveAnswer:
    """Answer the step's question, in any form that `hoofsim.lessons.reading.read_answer` takes."""

    text: str


@dataclass(frozen=True)
class SaySure:
    """How sure: 1 a guess, 4 certain. At a prediction it is kept as before, at its comparison as after."""

    level: int


@dataclass(frozen=True)
class MoveControl:
    """Move a free control of a *do* step."""

    control: str
    value: float


@dataclass(frozen=True)
class Reset:
    """Put the free controls back to where the step found them."""


@dataclass(frozen=True)
class AskCheck:
    """Ask whether the foot of a *do* step shows what it should."""


@dataclass(frozen=True)
class AskHint:
    """Ask for the next hint."""


@dataclass(frozen=True)
class GiveUp:
    """See one way to do it, and go on with the marks so far."""


Event = Next | Back | GoTo | GiveAnswer | SaySure | MoveControl | Reset | AskCheck | AskHint | GiveUp

_WORDS: dict[str, Event] = {
    "next": Next(),
    "n": Next(),
    "back": Back(),
    "b": Back(),
    "hint": AskHint(),
    "h": AskHint(),
    "check": AskCheck(),
    "c": AskCheck(),
    "reset": Reset(),
    "give up": GiveUp(),
}
COMMAND_WORDS = ("next", "back", "hint", "check", "reset", "give up", "set", "sure", "step")


def read_line(line: str, kind: str, answered: bool) -> Event:
    """The event that a typed line means at a step of that kind; BadInput in one sentence when it means none.

    `answered`: a prediction already given, so that a bare 1-4 says how sure. An answer that looks like a command is
    given with `=` before it.
    """
    text = " ".join(line.split())
    asking = kind in ("predict", "explain", "transfer")
    if not text:
        return Next()
    if text.lower() in _WORDS and not (asking and text.lower() in ("c", "reset", "check")):
        return _WORDS[text.lower()]
    word, _, rest = text.partition(" ")
    if word.lower() == "step" and rest:
        return GoTo(rest.strip().lower())
    if word.lower() == "sure" and rest:
        return SaySure(_level(rest))
    sure_asked = kind == "compare" or (kind == "predict" and answered)
    if sure_asked and text.isascii() and text.isdigit():
        return SaySure(_level(text))
    if asking:
        return GiveAnswer(text.removeprefix("=").strip())
    if kind == "do":
        return _setting(text)
    raise BadInput(f"'{text[:40]}' is not used here: {nearest(word.lower(), COMMAND_WORDS)}; Enter goes on")


def _level(text: str) -> int:
    if text.strip() not in ("1", "2", "3", "4"):
        raise BadInput(f"'{text[:20]}': say how sure from 1 (a guess) to 4 (certain)")
    return int(text)


def _setting(text: str) -> MoveControl:
    """`set heel_change_mm 8`, `heel_change_mm = 8` or `heel_change_mm 8`."""
    words = text.removeprefix("set ").replace("=", " ").split()
    if len(words) != 2 or (words[0] not in BY_NAME and "_" not in words[0]):
        raise BadInput(
            f"'{text[:40]}' is not used here: type such as: heel_change_mm 8; or check, hint, reset, give up"
        )
    name, number = words
    if name not in BY_NAME:
        raise BadInput(f"no control '{name[:40]}': {nearest(name, BY_NAME)}")
    try:
        return MoveControl(name, float(number.replace("\N{MINUS SIGN}", "-").replace(",", ".")))
    except ValueError:
        raise BadInput(f"'{number[:20]}' is no number for {name}") from None
