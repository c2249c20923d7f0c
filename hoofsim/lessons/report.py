"""The report at the end of a lesson, as marked text: marks with reasons, predictions against outcomes, goals reached."""

from hoofsim.cautions import CAUTIONS, LIMITS, SHORT_CAUTION
from hoofsim.lessons.grading import outcome_in_words
from hoofsim.lessons.places import before_and_after
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.reading import in_words
from hoofsim.lessons.schema import Asking, Do, Lesson, Predict, Step
from hoofsim.lessons.score import counts, goals_reached, score


def report(lesson: Lesson, progress: Progress) -> str:
    """Marked text: paragraphs with a blank line between, items with "- "."""
    total = score(lesson, progress)
    left = [step.title for step in lesson.steps if not progress.record(step.id).done]
    parts = [f"**{lesson.title}**, {progress.learner}"]
    if not progress.finished:
        parts.append(f"Not finished: {len(left)} of {len(lesson.steps)} steps are still to come.")
    elif total.of:
        verdict = "passed" if total.passed else f"not passed yet (from {lesson.pass_at:.0%})"
        parts.append(f"{_number(total.marks)} of {_number(total.of)} marks: {verdict}.")
    else:
        parts.append("Read to the end.")
    predictions = [line for step in lesson.steps if (line := _prediction(lesson, progress, step))]
    if predictions:
        parts.append("**Your predictions** (for thinking; they do not count)\n" + "\n".join(predictions))
    marked = [line for step in lesson.steps if (line := _marked(progress, step))]
    if marked:
        parts.append("**What counted**\n" + "\n".join(marked))
    reached = goals_reached(lesson, progress)
    goals = [f"- {'reached' if reached[goal.id] else 'not yet'}: {goal.text}" for goal in lesson.goals]
    parts.append("**Goals**\n" + "\n".join(goals))
    if progress.finished and not total.passed:
        parts.append("Play it again when you like: what to look at stands with each answer above.")
    parts.append("\n".join(f"- {one}" for one in (*CAUTIONS, LIMITS)) if lesson.cautions else SHORT_CAUTION)
    return "\n\n".join(parts)


def _prediction(lesson: Lesson, progress: Progress, step: Step) -> str:
    record = progress.record(step.id)
    if not isinstance(step, Predict) or record.answer is None:
        return ""
    yours = in_words(step.answer, record.answer, progress.length_unit)
    if not record.reason:
        return f"- {step.title}: you said: {yours}; not tested yet"
    came = outcome_in_words(step.answer, *before_and_after(lesson, progress, step), progress.length_unit)
    sure = ""
    if record.sure_before is not None:
        after = "" if record.sure_after is None else f", then {record.sure_after}"
        sure = f" (sure {record.sure_before}{after} of 4)"
    return f"- {step.title}: you said: {yours}{sure}; what came out: {came}"


def _marked(progress: Progress, step: Step) -> str:
    record = progress.record(step.id)
    if not isinstance(step, Asking | Do) or (not record.tries and not record.gave_up):
        return ""
    if not counts(step):
        return "" if isinstance(step, Predict) else f"- {step.title}: kept for your instructor"
    return f"- {step.title}: {_number(record.marks or 0.0)} of 1. {record.reason}"


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
