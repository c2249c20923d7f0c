"""Writing that leaves either the old file or the whole new one, whatever happens in between."""

import os
import tempfile
import time
from contextlib import suppress
from pathlib import Path

from hoofsim.errors import BadInput

UNFINISHED_AFTER = 600.0  # seconds without a change: whoever wrote it is gone
LONGEST_SHOWN = 40  # of a file's name in that of its unfinished neighbour, which may not be too long either


def write_whole(path: Path, content: bytes | str, making_folder: bool = False) -> None:
    """Write beside the target and rename; text as UTF-8 with plain line ends. BadInput when the place refuses it.

    `making_folder`: make the folder that is to hold it, for files that the program keeps for itself.
    """
    data = content.encode("utf-8") if isinstance(content, str) else content
    if path.is_dir():
        raise BadInput(f"{path}: is a folder; expected a file to write")
    try:
        if making_folder:
            path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(
            prefix=f".{path.name[:LONGEST_SHOWN]}.", suffix=".part", dir=path.parent
        )
    except (OSError, ValueError) as error:  # a name may hold what no system takes
        raise BadInput(f"{path}: cannot be written: {getattr(error, 'strerror', None) or error}") from None
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        beside.chmod(0o666 & ~_umask())
        beside.replace(path)
    except BaseException as error:
        beside.unlink(missing_ok=True)
        if isinstance(error, OSError):
            raise BadInput(f"{path}: cannot be written: {error.strerror or error}") from None
        raise


def clear_unfinished(folder: Path, *names: str) -> None:
    """Remove what killed writers of `names` (with * as in a shell) left in a folder; what cannot be removed stays.

    A file of the last minutes may still be in the making, and stays too.
    """
    for name in names:
        for beside in folder.glob(f".{name}.????????.part"):
            with suppress(OSError):
                if time.time() - beside.stat().st_mtime > UNFINISHED_AFTER and beside.is_file():
                    beside.unlink()


def _umask() -> int:
    """The permissions a new file must not have (readable only by setting it and putting it back)."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
