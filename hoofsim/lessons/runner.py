"""The runner: progress and event in, progress out, and nothing else. Window, terminal and tests all play through it.

Whatever cannot be done now is told in a sentence and changes nothing else: no event can lose an answer.
"""

import math
from collections.abc import Mapping

from hoofsim.errors import BadInput, nearest
from hoofsim.foot.parameters import BY_NAME
from hoofsim.lessons.answers import ChoiceAnswer, WordsAnswer
from hoofsim.lessons.events import (
    AskCheck,
    AskHint,
    Back,
    Event,
    GiveAnswer,
    GiveUp,
    GoTo,
    MoveControl,
    Next,
    Reset,
    SaySure,
    read_line,
)
from hoofsim.lessons.grading import Mark, judge, outcome_in_words
from hoofsim.lessons.places import before_and_after, do_base, do_state, filled
from hoofsim.lessons.progress import LONGEST_TOLD, MOST_TRIES, Progress, Record
from hoofsim.lessons.reading import in_words, read_answer
from hoofsim.lessons.schema import OWN, START, Asking, Compare, Do, Explain, Lesson, Predict, Step, Transfer
from hoofsim.lessons.score import score
from hoofsim.lessons.state import setting_in_words
from hoofsim.units import shown_unit

LONGEST_PAUSE = 600.0
TRIES = 2
SECOND_TRY = 0.5
EARLY_GIVE_UP = 0.5


def may_answer(record: Record) -> bool:
    """Whether a marked question still takes an answer: two tries, and none after full marks."""
    return len(record.tries) < TRIES and (record.marks or 0.0) < 1.0


def begin(lesson: Lesson, learner: str, name: str) -> Progress:
    """Progress at the first step; `name` is the lesson's id (`hoofsim.lessons.loader.lesson_id`)."""
    first = lesson.steps[0]
    return _entered(lesson, Progress(learner=learner, lesson=name, title=lesson.title, at=first.id), first.id)


def advance(lesson: Lesson, progress: Progress, event: Event, seconds: float = 0.0) -> Progress:
    """Progress after one event; `seconds` since the last one are added to the step's time (a long pause is cut)."""
    step = lesson.step(progress.at)
    spent = min(max(seconds, 0.0), LONGEST_PAUSE) if math.isfinite(seconds) else 0.0
    record = progress.record(step.id)
    progress = _with(progress, step, record, seconds=record.seconds + spent)
    progress = progress.model_copy(update={"events": progress.events + 1, "told": ""})
    try:
        return _handled(lesson, progress, step, event)
    except BadInput as error:
        return _told(progress, str(error))


def type_line(lesson: Lesson, progress: Progress, line: str, seconds: float = 0.0) -> Progress:
    """Progress after a line typed at the present step; a line that means nothing is told, and changes nothing else."""
    record = progress.record(progress.at)
    try:
        event = read_line(line, lesson.step(progress.at).kind, bool(record.tries))
    except BadInput as error:
        return _told(progress, str(error))
    return advance(lesson, progress, event, seconds)


def _handled(lesson: Lesson, progress: Progress, step: Step, event: Event) -> Progress:
    """The event's own rule; BadInput when it cannot be used now."""
    match event:
        case Next():
            return _next(lesson, progress, step)
        case Back():
            return _back(lesson, progress, step)
        case GoTo():
            return _go_to(lesson, progress, event)
        case GiveAnswer():
            return _answer(lesson, progress, step, event)
        case SaySure():
            return _sure(lesson, progress, step, event)
        case MoveControl():
            return _set_control(lesson, progress, step, event)
        case Reset():
            return _reset(lesson, progress, step)
        case AskCheck():
            return _check(lesson, progress, step)
        case AskHint():
            return _hint(lesson, progress, step)
        case GiveUp():
            return _give_up(lesson, progress, step)


def _next(lesson: Lesson, progress: Progress, step: Step) -> Progress:
    record = progress.record(step.id)
    if isinstance(step, Asking) and not record.tries:
        if isinstance(step, Predict):
            return _told(
                progress, "First commit to a prediction. It need not be right: it is there to be tested."
            )
        return _told(progress, "First answer the question. A hint is there if you want one: type hint.")
    if isinstance(step, Do) and not record.done:
        missing = (
            "Not yet: set the controls and then check. You can ask for a hint, or give up and see one way."
        )
        return _told(progress, missing)
    progress = _with(progress, step, record, done=True)
    at = lesson.index(step.id)
    if at + 1 < len(lesson.steps):
        return _entered(lesson, progress, lesson.steps[at + 1].id)
    return progress.model_copy(
        update={"finished": True, "passed": score(lesson, progress).passed, "told": "That was the last step."}
    )


def _back(lesson: Lesson, progress: Progress, step: Step) -> Progress:
    at = lesson.index(step.id)
    if at == 0:
        return _told(progress, "This is the first step.")
    return _entered(lesson, progress, lesson.steps[at - 1].id)


def _go_to(lesson: Lesson, progress: Progress, event: GoTo) -> Progress:
    target = lesson.step(event.step)
    if progress.record(target.id).visits == 0:
        return _told(
            progress, f"'{target.title}' comes later; you can go back to any step that you have seen."
        )
    return _entered(lesson, progress, target.id)


def _answer(lesson: Lesson, progress: Progress, step: Step, event: GiveAnswer) -> Progress:
    if not isinstance(step, Asking):
        return _told(progress, "Nothing is asked here. Enter goes on.")
    given = read_answer(step.answer, event.text)
    record = progress.record(step.id)
    if isinstance(step, Predict):
        if record.answer is not None:
            words = in_words(step.answer, record.answer, progress.length_unit)
            return _told(
                progress, f"You have committed to: {words}. Test it; a prediction is not changed afterwards."
            )
        progress = _with(progress, step, record, answer=given, tries=[given])
        return _told(
            progress,
            f"Noted: {in_words(step.answer, given, progress.length_unit)}. How sure are you? 1 is a guess, 4 is certain.",
        )
    if isinstance(step.answer, WordsAnswer):
        progress = _with(progress, step, record, answer=given, tries=_more(record, given))
        model = filled(lesson, progress, step, step.answer.model)
        return _told(progress, f"Kept for your instructor. One good answer: {model}")
    return _marked_answer(lesson, progress, step, record, given)


def _marked_answer(
    lesson: Lesson, progress: Progress, step: Explain | Transfer, record: Record, given: str
) -> Progress:
    """An answer that is marked at once: two tries, the second for half the marks."""
    best = record.marks or 0.0
    if not may_answer(record):
        return _told(progress, f"You have answered this: {record.reason} Enter goes on.")
    before, after = before_and_after(lesson, progress, step)
    mark = judge(step.answer, given, before, after, progress.length_unit)
    weight = 1.0 if not record.tries else SECOND_TRY
    marks = None if mark.marks is None else max(best, mark.marks * weight)
    last = len(record.tries) + 1 >= TRIES
    reason = filled(lesson, progress, step, _verdict(mark))
    if last and not mark.full and isinstance(step.answer, ChoiceAnswer):
        better = filled(
            lesson, progress, step, outcome_in_words(step.answer, before, after, progress.length_unit)
        )
        reason += f" A stronger answer: {_closed(better)}"
    elif (last or mark.full) and step.answer.form not in ("choice", "pick"):
        reason += (
            f" What came out: {_closed(outcome_in_words(step.answer, before, after, progress.length_unit))}"
        )
    told = reason if last or mark.full else f"{reason} You may answer once more, or go on."
    progress = _with(
        progress, step, record, answer=given, tries=_more(record, given), marks=marks, reason=reason
    )
    return _told(progress, told)


def _sure(lesson: Lesson, progress: Progress, step: Step, event: SaySure) -> Progress:
    if event.level not in (1, 2, 3, 4):
        return _told(progress, "Say how sure you are from 1 (a guess) to 4 (certain).")
    if isinstance(step, Compare):
        predicted = lesson.step(step.prediction)
        record = progress.record(predicted.id)
        return _told(_with(progress, predicted, record, sure_after=event.level), "Noted. Enter goes on.")
    record = progress.record(step.id)
    if isinstance(step, Predict) and record.answer is not None:
        if record.done:
            return _told(progress, "How sure you were before is kept as it was.")
        return _told(_with(progress, step, record, sure_before=event.level), "Noted. Enter goes on.")
    return _told(progress, "How sure you are is asked after a prediction.")


def _set_control(lesson: Lesson, progress: Progress, step: Step, event: MoveControl) -> Progress:
    if not isinstance(step, Do):
        return _told(progress, "No control is free at this step.")
    free = {one.control: one.range for one in step.free}
    if event.control not in free:
        return _told(progress, f"'{event.control}' is not free here: {nearest(event.control, free)}")
    low, high = free[event.control]
    unit = shown_unit(BY_NAME[event.control].unit)
    if not (math.isfinite(event.value) and low <= event.value <= high):
        return _told(
            progress, f"{event.control} can go from {low:g} to {high:g} {unit} here.".replace(" .", ".")
        )
    record = progress.record(step.id)
    progress = _moved_to(lesson, progress, step, {**record.controls, event.control: event.value})
    return _told(
        progress,
        f"{BY_NAME[event.control].label}: {setting_in_words(event.control, event.value)}. Check when you are ready.",
    )


def _reset(lesson: Lesson, progress: Progress, step: Step) -> Progress:
    if not isinstance(step, Do):
        return _told(progress, "There is nothing to reset at this step.")
    return _told(
        _moved_to(lesson, progress, step, progress.record(step.id).found),
        "The controls are back where this step found them.",
    )


def _check(lesson: Lesson, progress: Progress, step: Step) -> Progress:
    if not isinstance(step, Do):
        return _told(progress, "There is nothing to check at this step. Enter goes on.")
    record = progress.record(step.id)
    base, state = do_base(lesson, progress, step), do_state(lesson, progress, step)
    findings = [check.judge(base, state, progress.length_unit) for check in step.reach]
    held = [finding for finding in findings if finding.holds]
    tried = ", ".join(f"{name} {value:g}" for name, value in record.controls.items()) or "nothing changed"
    tries = _more(record, tried)
    if len(held) == len(findings):
        reason = f"Done: {'; '.join(finding.sentence for finding in findings)}."
        if record.gave_up:
            reason += " (after seeing one way)"
        marks = record.marks if record.gave_up else 1.0
        progress = _with(
            progress, step, record, tries=tries, answer=tried, marks=marks, reason=reason, done=True
        )
        return _told(progress, reason)
    missing = "; ".join(finding.sentence for finding in findings if not finding.holds)
    look = filled(lesson, progress, step, step.if_wrong)
    told = f"Not yet. {_capital(missing)}. Look at this: {look}"
    marks = (
        record.marks if record.done else max(record.marks or 0.0, EARLY_GIVE_UP * len(held) / len(findings))
    )
    return _told(_with(progress, step, record, tries=tries, answer=tried, marks=marks, reason=told), told)


def _hint(lesson: Lesson, progress: Progress, step: Step) -> Progress:
    record = progress.record(step.id)
    if not step.hints:
        return _told(progress, "There is no hint for this step; look at the numbers beside the drawing.")
    shown = step.hints[min(record.hints, len(step.hints) - 1)]
    progress = _with(progress, step, record, hints=min(record.hints + 1, len(step.hints)))
    return _told(progress, f"Hint: {filled(lesson, progress, step, shown.text)}")


def _give_up(lesson: Lesson, progress: Progress, step: Step) -> Progress:
    if not isinstance(step, Do):
        return _told(progress, "There is nothing to give up here: answer as well as you can, and go on.")
    record = progress.record(step.id)
    if record.done:
        return _told(progress, "You have done this already. Enter goes on.")
    solution = step.solution.items()
    words = ", ".join(f"{BY_NAME[name].label} {setting_in_words(name, value)}" for name, value in solution)
    told = f"One way: {words}. Look at what it does before you go on."
    progress = _moved_to(lesson, progress, step, {**record.controls, **step.solution})
    record = progress.record(step.id)
    progress = _with(
        progress,
        step,
        record,
        done=True,
        gave_up=True,
        marks=record.marks or 0.0,
        reason=record.reason or told,
    )
    return _told(progress, told)


def _entered(lesson: Lesson, progress: Progress, name: str) -> Progress:
    """Progress at another step: its visit counted, a comparison marked, a *do* step's controls laid out."""
    step = lesson.step(name)
    record = progress.record(name)
    progress = progress.model_copy(update={"at": name})
    if isinstance(step, Do) and record.visits == 0:
        start = dict(progress.own) if step.foot == OWN else {}
        foot = progress.own_foot if step.foot == OWN else step.foot
        record = record.model_copy(update={"controls": start, "found": start, "base": foot})
        progress = progress.model_copy(update={"own": start, "own_foot": foot})
    progress = _with(progress, step, record, visits=record.visits + 1)
    if isinstance(step, Compare):
        progress = _compared(lesson, progress, step)
    return progress


def _compared(lesson: Lesson, progress: Progress, step: Compare) -> Progress:
    """The prediction marked, the first time it meets its outcome."""
    predicted = lesson.step(step.prediction)
    record = progress.record(predicted.id)
    if not isinstance(predicted, Predict) or record.answer is None or record.reason:
        return progress
    before, after = before_and_after(lesson, progress, predicted)
    mark = judge(predicted.answer, record.answer, before, after, progress.length_unit)
    reason = filled(lesson, progress, predicted, _verdict(mark))
    return _with(progress, predicted, record, marks=mark.marks, reason=reason)


def _moved_to(lesson: Lesson, progress: Progress, step: Do, controls: Mapping[str, float]) -> Progress:
    """The learner's own foot at these controls; BadInput, and nothing changed, when they make no foot."""
    record = progress.record(step.id).model_copy(update={"controls": dict(controls)})
    moved = progress.model_copy(update={"own": dict(controls), "own_foot": record.base or START})
    moved = _with(moved, step, record)
    do_state(lesson, moved, step).loaded  # noqa: B018 (solved here so that a foot that cannot be made is refused)
    return moved


def _verdict(mark: Mark) -> str:
    """Reason, and where to look."""
    return f"{mark.reason} Look at this: {mark.look_at}" if mark.look_at else mark.reason


def _more(record: Record, given: str) -> list[str]:
    return [*record.tries, given][-MOST_TRIES:]


def _with(progress: Progress, step: Step, record: Record, **changes: object) -> Progress:
    """Progress with one record changed."""
    changed = record.model_copy(update={"kind": step.kind, "title": step.title, **changes})
    return progress.model_copy(update={"records": {**progress.records, step.id: changed}})


def _told(progress: Progress, sentence: str) -> Progress:
    return progress.model_copy(update={"told": sentence[:LONGEST_TOLD]})


def _closed(text: str) -> str:
    """A sentence with its end."""
    return text if text.endswith((".", "!", "?")) else f"{text}."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
