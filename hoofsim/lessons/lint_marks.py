"""Marks that everybody or nobody gets, and tasks that cannot be done: each question and task tried on the solver."""

from collections.abc import Iterator
from itertools import combinations

from hoofsim.errors import BadInput
from hoofsim.files.reader import Path_
from hoofsim.lessons.answers import (
    Answer,
    ChoiceAnswer,
    DirectionAnswer,
    NumberAnswer,
    PickAnswer,
    WordsAnswer,
)
from hoofsim.lessons.grading import judge
from hoofsim.lessons.schema import OWN, START, Asking, Do, Explain, Lesson, Step
from hoofsim.lessons.state import FootState, change_between

# A direction whose change lies this near to its limit would turn with a small change of the model.
NEAR_LIMIT = 0.15
MOST_PICKS = 250

Amiss = tuple[Path_, str]


def marks_amiss(lesson: Lesson, step: Step, path: Path_) -> Iterator[Amiss]:
    """What is amiss with the marks of one step."""
    if isinstance(step, Do):
        yield from _task(lesson, step, path)
    if not isinstance(step, Asking) or isinstance(step.answer, WordsAnswer):
        return
    names = (START, step.foot) if isinstance(step, Explain) else (step.foot, step.outcome)
    if OWN in names:
        return
    before, after = (lesson.feet[name].state() for name in names)
    yield from _question(step.answer, before, after, (*path, "answer"))


def _task(lesson: Lesson, step: Do, path: Path_) -> Iterator[Amiss]:
    """The solution must reach every check, and the untouched foot must not."""
    if step.foot == OWN:
        return
    base = lesson.feet[step.foot].state()
    try:
        state = base.change(**step.solution)
        findings = [check.judge(base, state) for check in step.reach]
    except BadInput as error:
        yield (*path, "solution"), f"this solution makes no foot: {error}"
        return
    for index, finding in enumerate(findings):
        if not finding.holds:
            yield (*path, "reach", index), f"cannot be reached by the solution: {finding.sentence}"
    if all(check.judge(base, base).holds for check in step.reach):
        yield (*path, "reach"), "every check holds before anything is done: every learner passes"


def _question(answer: Answer, before: FootState, after: FootState, path: Path_) -> Iterator[Amiss]:
    if isinstance(answer, ChoiceAnswer):
        yield from _choice(answer, before, after, path)
    elif isinstance(answer, PickAnswer):
        yield from _pick(answer, before, path)
    elif isinstance(answer, NumberAnswer | DirectionAnswer):
        change = change_between(before, after, answer.measure)
        if change is None or after.measure(answer.measure) is None:
            yield path, f"'{answer.measure}' cannot be measured on these feet: no learner can be marked"
        elif isinstance(answer, DirectionAnswer):
            if abs(abs(change) - answer.same_within) < NEAR_LIMIT * answer.same_within:
                what = f"the change, {change:.3g}, lies so near to {answer.same_within:g} that a small one decides"
                yield (*path, "same_within"), what
        elif answer.of == "change" and abs(change) <= answer.full:
            yield (
                (*path, "full"),
                f"the change is {change:.3g}: an answer of 0 has full marks, so every learner passes",
            )


def _choice(answer: ChoiceAnswer, before: FootState, after: FootState, path: Path_) -> Iterator[Amiss]:
    marks = [option.marks for option in answer.options]
    if max(marks) < 1.0:
        yield (*path, "options"), "no option has full marks: no learner can pass"
    if min(marks) >= 1.0:
        yield (*path, "options"), "every option has full marks: every learner passes"
    for index, option in enumerate(answer.options):
        for number, check in enumerate(option.shown_by):
            finding = check.judge(before, after)
            if not finding.holds:
                yield (
                    (*path, "options", index, "shown_by", number),
                    f"the solver does not show it: {finding.sentence}",
                )


def _pick(answer: PickAnswer, before: FootState, path: Path_) -> Iterator[Amiss]:
    picks = list(combinations(answer.among, answer.up_to))
    if len(picks) > MOST_PICKS:
        yield (
            (*path, "among"),
            f"{len(picks)} ways to pick are more than can be checked; at most {MOST_PICKS}",
        )
        return
    marks = [judge(answer, " ".join(pick), before, before).marks or 0.0 for pick in picks]
    if max(marks) < 1.0:
        yield path, f"the best pick has {max(marks):.2f} marks: no learner can pass"
    if min(marks) >= 1.0:
        yield path, "every pick has full marks: every learner passes"
