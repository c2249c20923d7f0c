"""Sandbox files: the history of a sitting as YAML with a version, written whole or not at all, reopened exactly."""

from pathlib import Path
from typing import Any, Literal

from pydantic import Field

from hoofsim.errors import BadInput
from hoofsim.files.kinds import FORMAT_VERSION, Kind, kind_word
from hoofsim.files.reader import Document, read_file, read_text
from hoofsim.files.typed import Strict, validate
from hoofsim.session.commands import Command, from_plain
from hoofsim.session.possible import first_impossible, why_impossible
from hoofsim.session.session import Session
from hoofsim.session.state import State, apply
from hoofsim.session.store import plain_yaml
from hoofsim.writing import write_whole

LONGEST_HISTORY = 20_000


class Sandbox(Strict):
    """A history of commands, each `do:` with what it needs, and how many of them are in force (all, if not said)."""

    hoofsim: Literal[1]
    kind: Literal["sandbox"]
    position: int | None = Field(
        None, ge=0, description="how many commands are in force; the rest can be redone"
    )
    commands: list[dict[str, Any]] = Field(max_length=LONGEST_HISTORY)


def as_text(session: Session) -> str:
    """The file's text. Numbers are written so that reading gives the same number to the last bit."""
    data = {
        "hoofsim": FORMAT_VERSION,
        "kind": SANDBOX.name,
        "position": session.position,
        "commands": [command.plain() for command in session.commands],
    }
    return plain_yaml(data)


def from_text(text: str, name: str) -> Session:
    """The sitting in a file's text; BadInput naming line and column when it is none."""
    return load_sandbox(read_text(text, name))


def save(session: Session, path: Path) -> None:
    """Write the sitting to a file."""
    write_whole(path, as_text(session), making_folder=True)


def open_file(path: Path) -> Session:
    """Read a sitting back; BadInput in one sentence when the file is missing, broken or of another kind."""
    return load_sandbox(read_file(path))


def load_sandbox(document: Document) -> Session:
    """The document as a sitting; BadInput with line and column for the first thing that is wrong."""
    kind_word(document, [SANDBOX.name])
    read = validate(Sandbox, document)
    commands: list[Command] = []
    states = [State()]
    for index, plain in enumerate(read.commands):
        try:
            commands.append(from_plain(plain))
            states.append(apply(states[-1], commands[-1]))
        except BadInput as problem:
            raise document.error(("commands", index), str(problem)) from None
    feet = [state.foot for state in states[1:]]
    first = first_impossible(feet)
    if first < len(feet):
        raise document.error(("commands", first), why_impossible([feet[first]]))
    position = len(commands) if read.position is None else read.position
    if position > len(commands):
        raise document.error(("position",), f"'position' must be a whole number 0 to {len(commands)}")
    return Session(commands, position)


SANDBOX = Kind(
    "sandbox",
    "A sitting with one foot: everything that was done, in order; written by the program.",
    Sandbox,
    load_sandbox,
)
