"""A file that takes its time, made beside the window: how far it is, stopping it, and a sentence at its end."""

import threading
from pathlib import Path

from hoofsim.app.exports import Stopped, export_bytes, refuse
from hoofsim.errors import HoofsimError
from hoofsim.session.session import Session
from hoofsim.writing import write_whole


class Saving:
    """Begins at once, in a thread of its own, on a copy of the sitting; the file appears whole at the end, or not at all.

    BadInput at once for what can be refused without making it.
    """

    def __init__(self, session: Session, path: Path, length_unit: str) -> None:
        refuse(session, path.suffix.lower())
        self.path = path
        self.sentence = ""  # what came of it, once it is over
        self._share = 0.0
        self._stopped = threading.Event()
        copy = Session(session.commands, session.position)
        self._thread = threading.Thread(target=self._make, args=(copy, length_unit), daemon=True)
        self._thread.start()

    @property
    def over(self) -> bool:
        """Whether it has ended, one way or another."""
        return not self._thread.is_alive()

    @property
    def words(self) -> str:
        """How far it is."""
        return f"Saving {self.path.name}: {100 * self._share:.0f} %. Esc stops."

    def stop(self) -> None:
        """Give it up; nothing is written."""
        self._stopped.set()

    def wait(self) -> None:
        """Until it is over."""
        self._thread.join()

    def _goes_on(self, share: float) -> bool:
        self._share = share
        return not self._stopped.is_set()

    def _make(self, session: Session, length_unit: str) -> None:
        try:
            content = export_bytes(session, self.path.suffix.lower(), length_unit, self._goes_on)
            if self._stopped.is_set():
                raise Stopped
            write_whole(self.path, content)
            self.sentence = f"Saved to {self.path}."
        except Stopped:
            self.sentence = f"Stopped: {self.path.name} was not saved."
        except (HoofsimError, MemoryError) as problem:
            self.sentence = f"Not saved: {problem or 'there is too little memory for it'}"
