"""The loop of a lesson in the terminal: a line in, an event, a page out, and progress saved after every line."""

import queue
import threading
import time
from pathlib import Path
from typing import Literal, TextIO

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.cli.lesson_page import HELP, after_event, page, wrapped
from hoofsim.errors import BadInput
from hoofsim.lessons.glossary import term
from hoofsim.lessons.loader import file_stamp, lesson_id, read_lesson
from hoofsim.lessons.merging import fitted
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.report import report
from hoofsim.lessons.runner import begin, type_line
from hoofsim.lessons.schema import Lesson
from hoofsim.lessons.store import Store
from hoofsim.lessons.view import view

PROMPT = "> "
LOOK_EVERY = 0.4
RESUMED = "You are back where you left."


class Player:
    """One learner at one lesson. `store` is None for an author's preview, which keeps nothing and reloads on save."""

    def __init__(
        self,
        path: Path,
        lesson: Lesson,
        learner: str,
        store: Store | None,
        length_unit: Literal["mm", "in"] = "mm",
    ) -> None:
        self.path = path
        self.stamp = file_stamp(path)
        self.lesson = lesson
        self.learner = learner
        self.store = store
        self.length_unit = length_unit
        self.progress: Progress = begin(lesson, learner, lesson_id(path))
        self.met: set[str] = set()
        self.styled = False
        self.unsaved = ""

    def open(self, restart: bool = False, step: str | None = None) -> None:
        """Take up what was kept, or begin."""
        if self.store is not None and restart:
            print(self.store.begin_anew(self.learner, lesson_id(self.path)))
        elif self.store is not None:
            kept = self.store.open(self.learner, lesson_id(self.path))
            if kept.told:
                print(kept.told)
            if kept.progress is not None:
                self.progress, told = fitted(self.lesson, kept.progress)
                print(" ".join(filter(None, (RESUMED, told))))
        if step is not None:
            self.progress = self._at(step)
        self.progress = self.progress.model_copy(update={"length_unit": self.length_unit})

    def play(self, source: TextIO) -> None:
        """Read lines until the lesson is finished, the learner quits, or the lines end."""
        self.styled = source.isatty()
        print(f"{self.lesson.title} ({self.lesson.minutes} minutes)\n{self.lesson.summary}\n")
        if self.lesson.cautions:
            print("\n".join([*wrapped(SHORT_CAUTION), ""]))
        print("\n".join(wrapped(HELP)))
        if self.progress.finished:
            self._print_report("You have finished this lesson; begin anew with --restart.")
            return
        self._save()
        self._print_page()
        lines = self._lines(source)
        clock = time.monotonic()
        while not self.progress.finished:
            print(PROMPT, end="", flush=True)
            line = self._wait(lines)
            if line is None or line.strip().lower() in ("quit", "q", "exit"):
                self._say_left(ended=line is None)
                return
            line = line.rstrip("\r\n")
            if not self.styled:
                print(line)
            seconds, clock = time.monotonic() - clock, time.monotonic()
            self._typed(line, seconds)
        self._print_report("")

    def _typed(self, line: str, seconds: float) -> None:
        """One line: help, a term, or an event of the lesson."""
        words = line.strip()
        if words in ("?", "help"):
            print("\n".join(wrapped(HELP)))
            self._print_page()
            return
        if words.lower().startswith("term "):
            try:
                one = term(words[5:].strip())
                print("\n".join(wrapped(f"**{one.heading}**: {one.meaning}", self.styled)))
            except BadInput as error:
                print(error)
            return
        at = self.progress.at, self.progress.finished
        self.progress = type_line(self.lesson, self.progress, line, seconds)
        self._save()
        if self.progress.finished:
            return
        if (self.progress.at, self.progress.finished) == at:
            print("\n".join(after_event(view(self.lesson, self.progress), self.styled)))
        else:
            self._print_page()

    def _save(self) -> None:
        """Save, or say once that it cannot be saved and play on."""
        if self.store is None:
            return
        try:
            self.progress = self.store.save(self.progress)
            self.unsaved = ""
        except BadInput as error:
            if not self.unsaved:
                print(f"Your progress cannot be saved: {error}. You can play on; it is kept until you leave.")
            self.unsaved = str(error)

    def _print_page(self) -> None:
        shown = view(self.lesson, self.progress)
        print("\n".join(page(shown, self.met, self.styled)))

    def _print_report(self, first: str) -> None:
        print(f"\n{'-' * 88}")
        if first:
            print(f"{first}\n")
        print("\n".join(wrapped(report(self.lesson, self.progress), self.styled)))
        if self.unsaved:
            print(f"\nThis could not be saved: {self.unsaved}")

    def _say_left(self, ended: bool) -> None:
        shown = view(self.lesson, self.progress)
        if ended:
            print()
        where = f"You left at step {shown.number} of {shown.of}."
        if self.store is None:
            print(f"{where} A preview keeps nothing.")
        elif self.unsaved:
            print(f"{where} It could not be saved: {self.unsaved}")
        else:
            print(f"{where} The same command resumes here.")

    def _lines(self, source: TextIO) -> "queue.Queue[str | None]":
        """The lines of a stream, read beside, so that a saved file can be noticed while nobody types."""
        lines: queue.Queue[str | None] = queue.Queue()

        def read() -> None:
            for line in source:
                lines.put(line)
            lines.put(None)

        threading.Thread(target=read, daemon=True).start()
        return lines

    def _wait(self, lines: "queue.Queue[str | None]") -> str | None:
        """The next line; in a preview the lesson is read again whenever its file changes meanwhile."""
        if self.store is not None:
            return lines.get()
        while True:
            try:
                return lines.get(timeout=LOOK_EVERY)
            except queue.Empty:
                now = file_stamp(self.path)
                if now != self.stamp:
                    self.stamp = now
                    self._reload()
                    print(PROMPT, end="", flush=True)

    def _reload(self) -> None:
        """Read the file again; one that is not well written is told, and the last good one stays."""
        try:
            lesson = read_lesson(self.path)
        except BadInput as error:
            print(f"\n{error}")
            return
        print("\nThe lesson was read again.")
        self.lesson = lesson
        self.progress, _ = fitted(lesson, self.progress)
        self._print_page()

    def _at(self, step: str) -> Progress:
        """Progress that begins at a step, for an author who works on it."""
        target = self.lesson.step(step)
        return self.progress.model_copy(update={"at": target.id})
