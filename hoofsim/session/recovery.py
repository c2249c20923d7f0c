"""Where running sittings are kept against a crash: a file for each window that is open, held by a lock as long as it is.

A window takes over the newest sitting that no other window holds, so that going on with it goes on in its own file; when
there is none it takes a free name. The lock is the system's own, so a killed program holds none.
"""

from collections.abc import Callable
from pathlib import Path
from typing import IO

from hoofsim.errors import BadInput
from hoofsim.session.lock import try_lock, unlock
from hoofsim.session.sandbox_file import open_file, save
from hoofsim.session.session import Session
from hoofsim.session.store import put_aside, user_folder

MOST_WINDOWS = 8  # whose sittings are kept at the same time
NAMES = ("recovery.yaml", *(f"recovery-{number}.yaml" for number in range(2, MOST_WINDOWS + 1)))


class Recovery:
    """The file that one window keeps its sitting in; `path` is None where it can keep none, and `keep` says why."""

    def __init__(self, path: Path | None, why_not: str = "", lock: IO[bytes] | None = None) -> None:
        """`lock`: held on the file beside the path; None where the place knows no locks."""
        self.path = path
        self._why_not = why_not
        self._lock = lock

    @classmethod
    def take(cls) -> "Recovery":
        """Take over the newest sitting that no running window holds, or a free name; never raises."""
        try:
            folder = user_folder()
        except BadInput as problem:
            return cls(None, str(problem))
        try:
            folder.mkdir(parents=True, exist_ok=True)
            for path in _newest_first(folder):
                lock = _held(path)
                if lock is not None:
                    return cls(path, lock=lock)
        except OSError:  # a place without locks, or none to write to: then writing says so
            return cls(folder / NAMES[0])
        return cls(None, f"{MOST_WINDOWS} other windows keep theirs already; close one of them")

    def keep(self, session: Session) -> None:
        """Keep the sitting as it is now, so that a next start can continue it; BadInput when it cannot be kept."""
        if self.path is None:
            raise BadInput(self._why_not)
        save(session, self.path)

    def last(self, say: Callable[[str], None] = lambda sentence: None) -> Session | None:
        """The sitting left in the file, or None when there is none. One that cannot be read is put aside and told, so
        that it is not lost to the next sitting: a newer hoofsim may have written it.
        """
        path = self.path
        if path is None:
            return None
        try:
            return open_file(path) if path.is_file() else None
        except OSError:
            return None
        except BadInput as problem:
            first = str(problem).splitlines()[0]
        try:
            say(
                f"The last sitting could not be read and is kept as {put_aside(path, 'damaged').name}: {first}"
            )
        except OSError as error:
            say(f"The last sitting could not be read ({first}) nor put aside ({error.strerror or error}).")
        return None

    def release(self) -> None:
        """Leave the file to the next window."""
        lock, self._lock = self._lock, None
        if lock is not None:
            unlock(lock)
            lock.close()


def _newest_first(folder: Path) -> list[Path]:
    """The sittings that are there, the newest first, then the names not in use."""
    paths = [folder / name for name in NAMES]
    there = [path for path in paths if path.is_file()]
    there.sort(key=lambda path: path.stat().st_mtime_ns, reverse=True)
    return there + [path for path in paths if path not in there]


def _held(path: Path) -> IO[bytes] | None:
    """The lock of a sitting's file, which stays when the file is replaced; None when another window holds it."""
    stream = path.with_name(f".{path.stem}.lock").open("a+b")
    try:
        if try_lock(stream):
            return stream
    except OSError:
        stream.close()
        raise
    stream.close()
    return None
