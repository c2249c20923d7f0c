"""One learner at one lesson: events go in, the view comes out, and every answer is kept at once."""

from pathlib import Path
from typing import Literal

from hoofsim.errors import BadInput
from hoofsim.lessons.events import Event
from hoofsim.lessons.loader import file_stamp, lesson_id, read_lesson
from hoofsim.lessons.merging import fitted
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.runner import advance, begin
from hoofsim.lessons.schema import Lesson
from hoofsim.lessons.store import DEFAULT_LEARNER, Store
from hoofsim.lessons.view import View, view


class Learner:
    """Holds lesson and progress; `told` is a sentence about keeping them, empty when all is well."""

    def __init__(self, path: Path, store: Store | None, length_unit: str) -> None:
        """BadInput when the file is no lesson. `store` None keeps nothing."""
        self.path, self.store = path, store
        self._stamp = file_stamp(path)
        self.lesson: Lesson = read_lesson(path)
        self.told = ""
        self.seconds = 0.0  # since the last event
        self.progress: Progress = begin(self.lesson, DEFAULT_LEARNER, lesson_id(path))
        if store is not None:
            kept = store.open(DEFAULT_LEARNER, lesson_id(path))
            self.told = kept.told
            if kept.progress is not None:
                self.progress, changed = fitted(self.lesson, kept.progress)
                self.told = " ".join(filter(None, ("You are back where you left.", changed)))
        unit: Literal["mm", "in"] = "in" if length_unit == "in" else "mm"
        self.progress = self.progress.model_copy(update={"length_unit": unit})

    def send(self, event: Event) -> None:
        """Play one event and keep what came of it."""
        self.progress = advance(self.lesson, self.progress, event, self.seconds)
        self.seconds = 0.0
        self._keep()

    def begin_anew(self) -> None:
        """Start over; what was there is kept aside."""
        unit = self.progress.length_unit
        if self.store is not None:
            try:
                self.told = self.store.begin_anew(DEFAULT_LEARNER, lesson_id(self.path))
            except BadInput as problem:
                self.told = str(problem)
                return
        fresh = begin(self.lesson, DEFAULT_LEARNER, lesson_id(self.path))
        self.progress = fresh.model_copy(update={"length_unit": unit})

    @property
    def saved_since(self) -> bool:
        """Whether an author saved the lesson's file after it was read."""
        stamp = file_stamp(self.path)
        return stamp != self._stamp and any(stamp)

    def read_again(self) -> None:
        """Take the lesson from its file again, and tell so; what was answered stays.

        One that is not well written is told, and the last good one stays.
        """
        self._stamp = file_stamp(self.path)
        try:
            self.lesson = read_lesson(self.path)
        except BadInput as problem:
            self.told = f"The lesson stays as it was: {str(problem).splitlines()[0]}"
            return
        self.progress, changed = fitted(self.lesson, self.progress)
        self.told = " ".join(filter(None, ("The lesson was read again.", changed)))

    def _keep(self) -> None:
        if self.store is None:
            return
        try:
            self.progress = self.store.save(self.progress)
        except BadInput as problem:
            self.told = f"The lesson goes on, but cannot be kept: {problem}"

    def view(self) -> View:
        """The present step, ready to show."""
        return view(self.lesson, self.progress)
