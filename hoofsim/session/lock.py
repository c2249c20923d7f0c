"""The system's own lock on an open file: held until let go of, or until the program ends in whatever way."""

import sys
from typing import IO

if sys.platform == "win32":
    import msvcrt

    def try_lock(stream: IO[bytes]) -> bool:
        """Lock a file; False when another program holds it. OSError where the place knows no locks."""
        stream.seek(0)
        try:
            msvcrt.locking(stream.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

    def unlock(stream: IO[bytes]) -> None:
        """Let go of a lock."""
        stream.seek(0)
        msvcrt.locking(stream.fileno(), msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def try_lock(stream: IO[bytes]) -> bool:
        """Lock a file; False when another program holds it. OSError where the place knows no locks."""
        try:
            fcntl.flock(stream.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

    def unlock(stream: IO[bytes]) -> None:
        """Let go of a lock."""
        fcntl.flock(stream.fileno(), fcntl.LOCK_UN)
