"""Play a guided lesson in the terminal, with the keyboard alone; leave with quit, and the same command resumes."""

import argparse
import sys
from pathlib import Path

from hoofsim.cli.lesson_play import Player
from hoofsim.errors import BadInput, ExpectationMissed, nearest
from hoofsim.lessons.loader import lesson_files, lesson_id, read_lesson
from hoofsim.lessons.rehearsal import complaints, play
from hoofsim.lessons.score import score
from hoofsim.lessons.store import DEFAULT_LEARNER, Store, checked_learner

EXAMPLES = """\
  hoofsim lesson                                    the lessons of the course, and how far you are
  hoofsim lesson 01                                 play the first one
  hoofsim lesson my_lesson.yaml --watch             while writing: reloads on every save
  hoofsim lesson 05 --rehearse                      play its scripted learners"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which lesson, who plays, and how."""
    parser.add_argument(
        "lesson",
        nargs="?",
        metavar="FILE",
        help="lesson file (.yaml), or the start of a carried lesson's name",
    )
    parser.add_argument("--learner", default=DEFAULT_LEARNER, metavar="NAME", help="whose progress to keep")
    parser.add_argument("--restart", action="store_true", help="begin anew; what was there is kept aside")
    parser.add_argument("--step", metavar="NAME", help="begin at this step (with --watch)")
    parser.add_argument(
        "--watch", action="store_true", help="reload the file whenever it is saved; keeps no progress"
    )
    parser.add_argument("--rehearse", action="store_true", help="play the lesson's scripted learners instead")
    parser.add_argument("--inches", action="store_true", help="show lengths in inches")


def run(arguments: argparse.Namespace) -> int:
    """List, rehearse or play."""
    learner = checked_learner(arguments.learner)
    if arguments.step and not arguments.watch:
        raise BadInput("--step belongs to --watch; otherwise a lesson resumes where it was left")
    if arguments.lesson is None:
        return _listed(learner)
    path = lesson_path(arguments.lesson)
    lesson = read_lesson(path)
    if arguments.rehearse:
        return _rehearsed(path)
    player = Player(
        path,
        lesson,
        learner,
        None if arguments.watch else Store.default(),
        "in" if arguments.inches else "mm",
    )
    player.open(restart=arguments.restart, step=arguments.step)
    player.play(sys.stdin)
    return 0


def lesson_path(word: str) -> Path:
    """A file, or the carried lesson whose name starts so; BadInput with the nearest when there is none."""
    path = Path(word)
    if path.suffix in (".yaml", ".yml") or path.exists():
        return path
    found = [file for file in lesson_files() if file.stem.startswith(word)]
    if len(found) == 1:
        return found[0]
    stems = [file.stem for file in lesson_files()]
    if found:
        raise BadInput(f"'{word}' starts more than one lesson: {', '.join(file.stem for file in found)}")
    raise BadInput(f"no lesson '{word}': {nearest(word, stems)} (a file must end in .yaml)")


def _listed(learner: str) -> int:
    """The course, with how far the learner is in each."""
    store = Store.default()
    for path in lesson_files():
        lesson = read_lesson(path)
        kept = store.peek(learner, lesson_id(path))
        if kept is None:
            state = "not begun"
        elif kept.finished:
            state = "passed" if kept.passed else "finished, not passed yet"
        else:
            done = sum(kept.record(step.id).done for step in lesson.steps)
            state = f"{done} of {len(lesson.steps)} steps"
        print(f"{path.stem:<38} {lesson.minutes:>3} min  {state:<26} {lesson.title}")
    print("\nPlay one with: hoofsim lesson 01")
    return 0


def _rehearsed(path: Path) -> int:
    """Every scripted learner played; ExpectationMissed when one does not come out as it must."""
    lesson = read_lesson(path)
    missed: list[str] = []
    for learner in lesson.learners:
        played = play(lesson, learner, lesson_id(path))
        total = score(lesson, played.progress)
        verdict = "passed" if total.passed else "not passed"
        print(
            f"{learner.name}: {len(played.lines)} lines, {total.marks:.2f} of {total.of:.0f} marks, {verdict}"
        )
        missed += [f"{path}: {what}" for what in complaints(lesson, played)]
    if not lesson.learners:
        print("no scripted learners")
    if missed:
        raise ExpectationMissed("\n".join(missed))
    return 0
