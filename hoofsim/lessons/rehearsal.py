"""Scripted learners played through a lesson against the real solver, and whether each came out as it must."""

from collections.abc import Iterator
from dataclasses import dataclass

from hoofsim.files.reader import read_text
from hoofsim.lessons.merging import fitted
from hoofsim.lessons.progress import Progress, load_progress
from hoofsim.lessons.runner import begin, type_line
from hoofsim.lessons.schema import Lesson, ScriptedLearner
from hoofsim.lessons.score import score
from hoofsim.session.store import plain_yaml

MOST_LINES = 1500
LEAVE = "leave"
SAME_MARKS = 0.011


@dataclass(frozen=True)
class Rehearsed:
    """A rehearsal: where it ended, every (line typed, what was told), where it got stuck, and what was lost on the way."""

    learner: ScriptedLearner
    progress: Progress
    lines: tuple[tuple[str, str], ...]
    stuck: str | None
    lost: tuple[str, ...]


def typed_lines(lesson: Lesson, learner: ScriptedLearner) -> Iterator[str]:
    """The lines that a scripted learner types, in order: for playing the same script through another door.

    The lines depend on where the learner is, so they are found by playing.
    """
    return (line for line, _ in play(lesson, learner, "script").lines)


def play(lesson: Lesson, learner: ScriptedLearner, name: str) -> Rehearsed:
    """Play one scripted learner to the end, or until nothing that it types moves it on."""
    progress = begin(lesson, learner.name, name)
    waiting = {step: list(lines) for step, lines in learner.types.items()}
    said: list[tuple[str, str]] = []
    lost: list[str] = []
    while not progress.finished:
        lines = waiting.get(progress.at)
        scripted = bool(lines)
        line = lines.pop(0) if lines else ""
        before = progress
        progress = _left_and_resumed(lesson, progress) if line == LEAVE else type_line(lesson, progress, line)
        said.append((line, progress.told))
        lost += losses(before, progress)
        stands = progress.at == before.at and not progress.finished
        if (stands and not scripted) or len(said) > MOST_LINES:
            return Rehearsed(learner, progress, tuple(said), progress.at, tuple(lost))
    return Rehearsed(learner, progress, tuple(said), None, tuple(lost))


def losses(before: Progress, after: Progress) -> list[str]:
    """What an event took away that it must never take: one sentence each."""
    found = []
    for name, old in before.records.items():
        new = after.record(name)
        if old.answer is not None and new.answer is None:
            found.append(f"the answer at '{name}' was lost")
        if len(new.tries) < len(old.tries) or new.hints < old.hints or new.seconds < old.seconds:
            found.append(f"a try, a hint or time at '{name}' was lost")
        if (old.marks or 0.0) > (new.marks or 0.0):
            found.append(f"marks at '{name}' fell")
        if old.done and not new.done:
            found.append(f"'{name}' was done and is no longer")
    return found


def complaints(lesson: Lesson, played: Rehearsed) -> list[str]:
    """How a rehearsal differs from what its learner's `expect` says: one sentence each, empty when it came out so."""
    name, expect = played.learner.name, played.learner.expect
    if played.stuck is not None:
        told = played.lines[-1][1]
        return [f"the {name} learner gets stuck at '{played.stuck}': {told}"]
    found = [f"the {name} learner: {what}" for what in played.lost]
    total = score(lesson, played.progress)
    if total.passed != expect.passes:
        wanted = "must pass" if expect.passes else "must not pass"
        found.append(f"the {name} learner {wanted}, and has {total.marks:.2f} of {total.of:.0f} marks")
    for step, marks in expect.marks.items():
        got = played.progress.record(step).marks
        if got is None or abs(got - marks) > SAME_MARKS:
            shown = "none" if got is None else f"{got:.2f}"
            found.append(f"the {name} learner: expected {marks:.2f} marks at '{step}', came out {shown}")
    heard = " ".join(told for _, told in played.lines)
    heard += " ".join(record.reason for record in played.progress.records.values())
    found += [
        f"the {name} learner is never told '{words}'"
        for words in expect.told
        if words.lower() not in heard.lower()
    ]
    return found


def _left_and_resumed(lesson: Lesson, progress: Progress) -> Progress:
    """Progress written out and read back, as when the program is closed and opened again."""
    text = plain_yaml(progress.model_dump())
    return fitted(lesson, load_progress(read_text(text, "progress")))[0]
