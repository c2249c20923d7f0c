"""A class's progress as one table: answers, predictions, confidence before and after, time, and where people got stuck."""

from collections import Counter
from collections.abc import Sequence

from hoofsim.lessons.progress import Progress, Record
from hoofsim.plain_text import csv_lines

COLUMNS = (
    "file", "learner", "lesson", "step", "kind", "title", "answer", "tries", "marks", "reason", "sure_before", "sure_after",
    "hints", "seconds", "gave_up", "stuck", "done", "finished", "passed",
)  # fmt: skip
# A progress file's name and what it holds.
Sheet = tuple[str, Progress]
STUCK_TRIES = 2
STUCK_HINTS = 2


def stuck(record: Record) -> bool:
    """Whether a step held the learner up: given up, many tries, or many hints."""
    tries = STUCK_TRIES if record.kind != "do" else STUCK_TRIES + 1
    return record.gave_up or len(record.tries) >= tries or record.hints >= STUCK_HINTS


def rows(class_: Sequence[Sheet]) -> list[dict[str, str]]:
    """One row for each step of each file, in the order of learner and lesson; the file tells namesakes apart."""
    table = []
    for file, one in sorted(class_, key=lambda sheet: (sheet[1].learner.lower(), sheet[1].lesson, sheet[0])):
        for step, record in one.records.items():
            table.append({"file": file, **_row(one, step, record)})
    return table


def csv_text(class_: Sequence[Sheet]) -> str:
    """The rows as CSV with a heading; cells that a spreadsheet would run as a formula are made plain text."""
    return csv_lines([COLUMNS, *(list(row.values()) for row in rows(class_))])


def stuck_at(class_: Sequence[Sheet]) -> list[tuple[str, int]]:
    """(lesson / step, how many were held up there), the worst first."""
    counted = Counter(
        f"{one.lesson} / {step}" for _, one in class_ for step, record in one.records.items() if stuck(record)
    )
    return sorted(counted.items(), key=lambda pair: (-pair[1], pair[0]))


def _row(one: Progress, step: str, record: Record) -> dict[str, str]:
    return {
        "learner": one.learner,
        "lesson": one.lesson,
        "step": step,
        "kind": record.kind,
        "title": record.title,
        "answer": record.answer or "",
        "tries": " | ".join(record.tries),
        "marks": "" if record.marks is None else f"{record.marks:.2f}",
        "reason": record.reason,
        "sure_before": _number(record.sure_before),
        "sure_after": _number(record.sure_after),
        "hints": str(record.hints),
        "seconds": f"{record.seconds:.0f}",
        "gave_up": _truth(record.gave_up),
        "stuck": _truth(stuck(record)),
        "done": _truth(record.done),
        "finished": _truth(one.finished),
        "passed": "" if one.passed is None else _truth(one.passed),
    }


def _number(value: int | None) -> str:
    return "" if value is None else str(value)


def _truth(value: bool) -> str:
    return "yes" if value else "no"
