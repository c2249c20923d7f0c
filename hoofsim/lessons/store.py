"""Where progress is kept: one file per learner and lesson, whole at every instant, shared by programs open together.

A save takes a short lock, reads what is there, merges and replaces the file in one move: a program killed at any
instant leaves the old file or the new one, and two programs open on one lesson keep each other's answers. The lock
is the system's own, so a killed program holds none. A file that cannot be read is kept aside, told, and begun anew.
"""

import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from hoofsim.errors import BadInput
from hoofsim.files.reader import read_file
from hoofsim.lessons.merging import merged
from hoofsim.lessons.progress import LONGEST_NAME, Progress, load_progress
from hoofsim.session.lock import try_lock, unlock
from hoofsim.session.store import plain_yaml, put_aside, user_folder
from hoofsim.writing import write_whole

LOCK_PATIENCE = 5.0
LOCK_PAUSE = 0.01
ASIDE = re.compile(r"\.(damaged|before)-[0-9]+\.yaml$")
RESERVED = re.compile("con|prn|aux|nul|com[0-9]|lpt[0-9]")  # names that one system keeps for itself
DEFAULT_LEARNER = "learner"


@dataclass(frozen=True)
class KeptProgress:
    """What the store had: progress or None, and a sentence to tell when something was amiss."""

    progress: Progress | None
    told: str = ""


@dataclass(frozen=True)
class Store:
    """Progress files under one folder."""

    folder: Path

    @classmethod
    def default(cls) -> "Store":
        """The store in the person's own folder."""
        return cls(user_folder() / "progress")

    def path(self, learner: str, lesson: str) -> Path:
        """The file of one learner in one lesson."""
        return self.folder / folder_name(learner) / f"{lesson}.yaml"

    def open(self, learner: str, lesson: str) -> KeptProgress:
        """What was kept. A damaged file is moved aside and told; one that cannot even be moved is left and told."""
        path = self.path(learner, lesson)
        try:
            if not path.exists():
                return KeptProgress(None)
            return KeptProgress(read_progress(path))
        except BadInput as error:
            return KeptProgress(None, _kept_aside(path, str(error)))
        except OSError as error:
            return KeptProgress(
                None, f"{path}: cannot be read: {error.strerror or error}; the lesson begins anew."
            )

    def peek(self, learner: str, lesson: str) -> Progress | None:
        """What was kept, without touching anything: None also for a file that cannot be read."""
        try:
            return read_progress(self.path(learner, lesson))
        except (BadInput, OSError):
            return None

    def begin_anew(self, learner: str, lesson: str) -> str:
        """Move what was kept aside, and say where; the next save begins a new file."""
        path = self.path(learner, lesson)
        if not path.exists():
            return "There was nothing to keep: the lesson begins."
        try:
            aside = put_aside(path, "before")
        except OSError as error:
            raise BadInput(f"{path}: cannot be moved aside: {error.strerror or error}") from None
        return f"What was there is kept as {aside.name}; the lesson begins anew."

    def save(self, progress: Progress) -> Progress:
        """Write progress, merged with what another program has saved meanwhile; gives what was written.

        BadInput in one sentence when the place does not take it; the progress in hand is then still whole.
        """
        path = self.path(progress.learner, progress.lesson)
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            with _locked(path.with_suffix(".lock")):
                kept = self.open(progress.learner, progress.lesson).progress
                whole = progress if kept is None else merged(progress, kept)
                write_whole(path, plain_yaml(whole.model_dump()), making_folder=True)
        except OSError as error:
            raise BadInput(f"{path}: cannot be written: {error.strerror or error}") from None
        return whole

    def files(self, learner: str | None = None) -> list[Path]:
        """Every progress file, of one learner or of all."""
        within = self.folder if learner is None else self.folder / folder_name(learner)
        return sorted(path for path in within.rglob("*.yaml") if not ASIDE.search(path.name))


def read_progress(path: Path) -> Progress:
    """The progress in a file; BadInput for one that is not whole."""
    return load_progress(read_file(path))


def checked_learner(name: str) -> str:
    """The learner's name as kept: on one line, not too long; BadInput otherwise."""
    plain = " ".join(name.split())
    if not plain or len(plain) > LONGEST_NAME or not plain.isprintable():
        raise BadInput(f"a learner's name is 1 to {LONGEST_NAME} printable letters, not {name[:70]!r}")
    return plain


def folder_name(learner: str) -> str:
    """A folder for the learner that every system takes, different for different names."""
    plain = "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in learner.lower())
    if plain == learner and not RESERVED.fullmatch(plain):
        return plain
    mark = 0
    for letter in learner.encode("utf-8"):
        mark = (mark * 131 + letter) % 0xFFFFFFFF
    return f"{plain[:40].strip('-') or 'learner'}-{mark:08x}"


def _kept_aside(path: Path, why: str) -> str:
    """Move a damaged file beside itself under a free name, and say so."""
    first = why.splitlines()[0]
    try:
        aside = put_aside(path, "damaged")
    except OSError as error:
        return f"{first}. It cannot be moved aside ({error.strerror or error}); the lesson begins anew."
    return f"{first}. The file was kept as {aside.name}, and the lesson begins anew."


@contextmanager
def _locked(path: Path) -> Iterator[None]:
    """Hold the lock file; BadInput when another program holds it for longer than a save can take."""
    with path.open("a+b") as stream:
        until = time.monotonic() + LOCK_PATIENCE
        while not try_lock(stream):
            if time.monotonic() > until:
                raise BadInput(f"{path}: another program is writing this progress; close it and try again")
            time.sleep(LOCK_PAUSE)
        try:
            yield
        finally:
            unlock(stream)
