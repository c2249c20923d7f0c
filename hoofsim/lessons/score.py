"""Marks over a whole lesson: what counts, whether it passes, and which goals were reached."""

from dataclasses import dataclass

from hoofsim.lessons.answers import WordsAnswer
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.schema import Asking, Do, Lesson, Step

GOAL_FROM = 0.5


@dataclass(frozen=True)
class Score:
    """Marks won, marks that could be won, and whether the share passes."""

    marks: float
    of: float
    passed: bool


def counts(step: Step) -> bool:
    """Whether a step's marks count: predictions are for thinking, and words are for the instructor."""
    if isinstance(step, Do):
        return step.counts
    return isinstance(step, Asking) and step.counts and not isinstance(step.answer, WordsAnswer)


def score(lesson: Lesson, progress: Progress) -> Score:
    """The score so far; a lesson with nothing to mark passes once it was read to the end."""
    counted = [step for step in lesson.steps if counts(step)]
    marks = sum(progress.record(step.id).marks or 0.0 for step in counted)
    of = float(len(counted))
    share = marks / of if of else 1.0
    return Score(marks, of, share >= lesson.pass_at - 1e-9)


def goals_reached(lesson: Lesson, progress: Progress) -> dict[str, bool]:
    """Every goal: reached when all its steps are done, and those that count have half their marks."""
    reached = {}
    for goal in lesson.goals:
        steps = [step for step in lesson.steps if goal.id in step.goals]
        reached[goal.id] = bool(steps) and all(
            progress.record(step.id).done
            and (not counts(step) or (progress.record(step.id).marks or 0.0) >= GOAL_FROM)
            for step in steps
        )
    return reached
