"""A replay: every deed of a sitting in order, also undoing, redoing and reopening, to be played again step by step.

A sandbox file holds what a sitting amounts to; a replay holds how it came about, and so can show a fault that lies
on the way. Long random trials of the session leave one behind when they find something.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from pydantic import Field

from hoofsim.errors import BadInput, nearest
from hoofsim.files.kinds import FORMAT_VERSION, Kind, kind_word
from hoofsim.files.reader import Document
from hoofsim.files.typed import Strict, shown, validate
from hoofsim.foot.parameters import checked
from hoofsim.model import LoadedFoot
from hoofsim.session.commands import COMMANDS, Command, from_plain
from hoofsim.session.sandbox_file import LONGEST_HISTORY, as_text, from_text
from hoofsim.session.session import Session
from hoofsim.session.store import plain_yaml

MOVES = {
    "undo": "undo",
    "redo": "redo",
    "undo_all": "undo to the start",
    "reopen": "save the sitting and open it again",
    "keep_as_read": "keep the trial with its numbers",
}
GESTURE = "gesture"


@dataclass(frozen=True)
class Deed:
    """One deed: a command (perhaps part of a gesture), or a word of MOVES."""

    command: Command | None = None
    move: str = ""
    gesture: str | None = None

    def sentence(self) -> str:
        """What is done, in a few words."""
        return MOVES[self.move] if self.command is None else self.command.sentence()

    def plain(self) -> dict[str, Any]:
        """The deed as plain values for a file."""
        if self.command is None:
            return {"do": self.move}
        return self.command.plain() | ({} if self.gesture is None else {GESTURE: self.gesture})


def played(session: Session, deed: Deed) -> Session:
    """The sitting after the deed (another object after reopening); BadInput when it is refused, with nothing done."""
    if deed.command is not None:
        session.do(deed.command, deed.gesture)
    elif deed.move == "undo":
        session.undo()
    elif deed.move == "redo":
        session.redo()
    elif deed.move == "undo_all":
        while session.undo():
            pass
    elif deed.move == "reopen":
        return from_text(as_text(session), "sitting")
    else:
        session.keep_trial()
    return session


def faults(session: Session) -> list[str]:
    """What must never be, found in the choices of a sitting: values out of range, a place outside its history."""
    found = []
    if not 0 <= session.position <= len(session.commands):
        found.append(f"position {session.position} in a history of {len(session.commands)}")
    for name, value in session.state.foot.changes:
        try:
            checked(name, value)
        except BadInput as problem:
            found.append(str(problem))
    if session.undo_sentence() is None and session.position:
        found.append("nothing to undo although something was done")
    return found


def faults_of(loaded: LoadedFoot) -> list[str]:
    """What must never be, found in a loaded foot: a number shown that is none, or a result without rest."""
    numbers = dict(loaded.measures())
    if not loaded.at_rest:
        return [f"{name} has a value without rest" for name, value in numbers.items() if value is not None]
    places = {name: float(abs(point).max()) for name, point in loaded.points.items()}
    return [
        f"{name} is {value}"
        for name, value in (numbers | places).items()
        if value is not None and not math.isfinite(value)
    ]


class Replay(Strict):
    """Deeds in order: the commands of a sitting, `undo`, `redo`, `undo_all`, `reopen` and `keep_as_read`."""

    hoofsim: Literal[1]
    kind: Literal["replay"]
    because: str = Field("", max_length=2000, description="what this replay is to show")
    deeds: list[dict[str, Any]] = Field(max_length=LONGEST_HISTORY)


def load_replay(document: Document) -> list[Deed]:
    """The document as deeds; BadInput with line and column for the first that is none."""
    kind_word(document, [REPLAY.name])
    read = validate(Replay, document)
    deeds = []
    for index, plain in enumerate(read.deeds):
        try:
            deeds.append(_deed(plain))
        except BadInput as problem:
            raise document.error(("deeds", index), str(problem)) from None
    return deeds


def _deed(plain: dict[str, Any]) -> Deed:
    if "do" not in plain:
        raise BadInput(f"a deed needs 'do:' with one of {', '.join((*COMMANDS, *MOVES))}")
    word = plain["do"]
    if isinstance(word, str) and word in MOVES:
        if len(plain) > 1:
            raise BadInput(f"'{word}' stands alone")
        return Deed(move=word)
    if not isinstance(word, str) or word not in COMMANDS:
        words = [*COMMANDS, *MOVES]
        raise BadInput(f"unknown deed {shown(word)}: {nearest(str(word)[:40], words)}")
    gesture = plain.get(GESTURE)
    if gesture is not None and not isinstance(gesture, str):
        raise BadInput(f"'{GESTURE}' must be a word")
    return Deed(from_plain({key: value for key, value in plain.items() if key != GESTURE}), gesture=gesture)


def replay_text(deeds: Sequence[Deed], because: str) -> str:
    """The file's text."""
    return plain_yaml(
        {
            "hoofsim": FORMAT_VERSION,
            "kind": REPLAY.name,
            "because": because,
            "deeds": [one.plain() for one in deeds],
        }
    )


REPLAY = Kind("replay", "Every deed of a sitting in order, to be played again.", Replay, load_replay)
