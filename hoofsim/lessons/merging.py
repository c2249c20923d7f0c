"""Two versions of one learner's progress in one lesson made into one that loses no answer, and fitting it to a lesson."""

from hoofsim.errors import BadInput
from hoofsim.foot.parameters import checked
from hoofsim.lessons.progress import Progress, Record
from hoofsim.lessons.reading import still_fits
from hoofsim.lessons.schema import START, Asking, Lesson


def merged(mine: Progress, other: Progress) -> Progress:
    """`mine`, with every answer and mark that only `other` has. Both being equal at a step, mine stands."""
    records = {
        name: _record(mine.records.get(name), other.records.get(name))
        for name in (*mine.records, *(name for name in other.records if name not in mine.records))
    }
    return mine.model_copy(
        update={
            "records": records,
            "finished": mine.finished or other.finished,
            "passed": mine.passed if other.passed is None else (bool(mine.passed) or other.passed),
            "events": max(mine.events, other.events),
        }
    )


def _record(mine: Record | None, other: Record | None) -> Record:
    """The record that holds more: an answer over none, done over not done; counts are never lowered."""
    if mine is None or other is None:
        return mine or other or Record(kind="")
    fuller = other if _weight(other) > _weight(mine) else mine
    return fuller.model_copy(
        update={
            "hints": max(mine.hints, other.hints),
            "visits": max(mine.visits, other.visits),
            "seconds": max(mine.seconds, other.seconds),
            "sure_before": fuller.sure_before or mine.sure_before or other.sure_before,
            "sure_after": fuller.sure_after or mine.sure_after or other.sure_after,
            "gave_up": mine.gave_up or other.gave_up,
        }
    )


def _weight(record: Record) -> tuple[bool, bool, float, int]:
    return record.answer is not None, record.done, record.marks or 0.0, len(record.tries)


def fitted(lesson: Lesson, progress: Progress) -> tuple[Progress, str]:
    """Kept progress made to fit the lesson as it is now, and a sentence when the lesson has changed under it.

    Answers that no longer fit their question are set aside; everything else stays.
    """
    changed = False
    records = dict(progress.records)
    for step in lesson.steps:
        record = records.get(step.id)
        if record is None or record.kind == step.kind:
            fits = (
                record is None
                or record.answer is None
                or not isinstance(step, Asking)
                or still_fits(step.answer, record.answer)
            )
        else:
            fits = False
        if not fits:
            records[step.id] = Record(kind=step.kind, title=step.title)
            changed = True
        elif record is not None and not (_allowed(record.controls) and record.base in ("", *lesson.feet)):
            records[step.id] = record.model_copy(update={"controls": {}, "found": {}, "base": ""})
            changed = True
    names = [step.id for step in lesson.steps]
    at = progress.at
    if at not in names:
        at = next((name for name in names if not (name in records and records[name].done)), names[-1])
        changed = True
    own, own_foot = progress.own, progress.own_foot
    if own_foot not in lesson.feet or not _allowed(own):
        own, own_foot, changed = {}, START, True
    fit = progress.model_copy(update={"records": records, "at": at, "own": own, "own_foot": own_foot})
    told = "The lesson has changed since you left it; what no longer fits is asked again." if changed else ""
    return fit, told


def _allowed(controls: dict[str, float]) -> bool:
    try:
        for name, value in controls.items():
            checked(name, value)
    except BadInput:
        return False
    return True
