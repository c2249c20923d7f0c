"""Sandbox files: the history of a sitting as YAML with a version, written whole or not at all, reopened exactly."""

from pathlib import Path

from hoofsim.errors import BadInput
from hoofsim.files.kinds import FORMAT_VERSION, kind_word
from hoofsim.files.reader import Document, read_file, read_text
from hoofsim.session.commands import Command, from_plain
from hoofsim.session.session import Session
from hoofsim.session.store import plain_yaml, remove, user_folder, write_atomically

KIND = "sandbox"
KEYS = ("hoofsim", "kind", "position", "commands")
RECOVERY_NAME = "recovery.yaml"
LONGEST_HISTORY = 20_000
LARGEST_BYTES = 4_000_000  # about 2,000 kept trials, or the longest history


def as_text(session: Session) -> str:
    """The file's text. Numbers are written so that reading gives the same number to the last bit."""
    data = {
        "hoofsim": FORMAT_VERSION,
        "kind": KIND,
        "position": session.position,
        "commands": [command.plain() for command in session.commands],
    }
    return plain_yaml(data)


def from_text(text: str, name: str) -> Session:
    """The sitting in a file's text; BadInput naming line and column when it is none."""
    return _from_document(read_text(text, name))


def save(session: Session, path: Path) -> None:
    """Write the sitting to a file."""
    write_atomically(path, as_text(session))


def open_file(path: Path) -> Session:
    """Read a sitting back; BadInput in one sentence when the file is missing, broken or of another kind."""
    return _from_document(read_file(path, LARGEST_BYTES))


def _from_document(document: Document) -> Session:
    kind_word(document, [KIND])
    data = document.data
    for key in data:
        if key not in KEYS:
            raise document.error((key,), f"unknown key '{key}'; expected {', '.join(KEYS)}", at_key=True)
    listed = data.get("commands")
    if not isinstance(listed, list) or len(listed) > LONGEST_HISTORY:
        raise document.error(("commands",), f"'commands' must be a list of at most {LONGEST_HISTORY}")
    commands: list[Command] = []
    for index, plain in enumerate(listed):
        try:
            commands.append(from_plain(plain))
        except BadInput as problem:
            raise document.error(("commands", index), str(problem)) from None
    position = data.get("position", len(commands))
    if isinstance(position, bool) or not isinstance(position, int) or not 0 <= position <= len(commands):
        raise document.error(("position",), f"'position' must be a whole number 0 to {len(commands)}")
    return Session(commands, position)


def recovery_path() -> Path:
    """Where the running sitting is kept against a crash."""
    return user_folder() / RECOVERY_NAME


def autosave(session: Session) -> None:
    """Keep the running sitting, so that the next start can continue it."""
    save(session, recovery_path())


def recovered() -> Session | None:
    """The last sitting, or None when there is none or it cannot be read."""
    try:
        return open_file(recovery_path()) if recovery_path().is_file() else None
    except BadInput:
        return None


def forget_recovery() -> None:
    """Delete the kept sitting."""
    remove(recovery_path())
