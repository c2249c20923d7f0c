"""What to show of a step: plain values for the terminal, the window's panel and a handout alike."""

from dataclasses import dataclass

from hoofsim.foot.parameters import BY_NAME
from hoofsim.lessons.answers import ChoiceAnswer, PickAnswer, PositionAnswer, WordsAnswer
from hoofsim.lessons.grading import outcome_in_words
from hoofsim.lessons.places import before_and_after, filled, shown_feet
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.reading import asks, in_words
from hoofsim.lessons.runner import may_answer
from hoofsim.lessons.schema import (
    Asking,
    Compare,
    Do,
    Explain,
    Lesson,
    Predict,
    Read,
    ShownCurve,
    Step,
    Transfer,
    Watch,
)
from hoofsim.lessons.state import FootState, change_between
from hoofsim.measures import MEASURES
from hoofsim.measures.compute import change_is_readable
from hoofsim.model import sweep

KIND_WORDS = {
    "read": "Read",
    "predict": "Predict",
    "do": "Do",
    "watch": "Watch",
    "compare": "Compare",
    "explain": "Explain",
    "transfer": "On another foot",
}


@dataclass(frozen=True)
class ChangeRow:
    """One measure beside the drawing, in its unit (None: not defined); `readable`: a radiograph could show the change."""

    measure: str
    label: str
    unit: str
    before: float | None
    now: float | None
    change: float | None
    readable: bool


@dataclass(frozen=True)
class FreeControl:
    """One control that the learner may move."""

    control: str
    label: str
    unit: str
    low: float
    high: float
    now: float


@dataclass(frozen=True)
class View:
    """One step as shown. Texts are marked text (`hoofsim.lessons.markup.spans`) with live values already filled in.

    `choices` are (id, words) in order, typed by number or id. `asks` says what can be done now. `state` is the foot to
    draw and `before` the one to set it against; `wants_position` names a landmark to be placed on the drawing.
    `can_go_on`: Next would move on. `look_at` names landmarks and measures to light up.
    """

    step: str
    kind: str
    title: str
    number: int
    of: int
    text: str
    question: str
    choices: tuple[tuple[str, str], ...]
    asks: str
    given: str
    controls: tuple[FreeControl, ...]
    rows: tuple[ChangeRow, ...]
    plot: ShownCurve | None
    hints_left: int
    told: str
    look_at: tuple[str, ...]
    wants_position: str | None
    state: FootState
    before: FootState
    length_unit: str
    can_go_on: bool
    finished: bool


def view(lesson: Lesson, progress: Progress) -> View:
    """The present step, ready to show; lengths in the learner's unit."""
    length_unit = progress.length_unit
    step = lesson.step(progress.at)
    record = progress.record(step.id)
    before, state = shown_feet(lesson, progress, step)
    answer = step.answer if isinstance(step, Asking) else None
    given = ""
    if answer is not None and record.answer is not None:
        given = in_words(answer, record.answer, length_unit)
    shown_hints = step.hints[: record.hints]
    return View(
        step=step.id,
        kind=step.kind,
        title=step.title,
        number=lesson.index(step.id) + 1,
        of=len(lesson.steps),
        text=_text(lesson, progress, step),
        question=filled(lesson, progress, step, step.question) if isinstance(step, Asking) else "",
        choices=_choices(lesson, progress, step),
        asks=_asks(step, progress),
        given=given,
        controls=_controls(step, state),
        rows=tuple(_row(name, before, state) for name in _measures(step)),
        plot=step.plot if isinstance(step, Watch) else None,
        hints_left=len(step.hints) - record.hints,
        told=progress.told,
        look_at=tuple(
            dict.fromkeys([*step.look_at, *(name for hint in shown_hints for name in hint.look_at)])
        ),
        wants_position=answer.landmark if isinstance(answer, PositionAnswer) and not record.tries else None,
        state=state,
        before=before,
        length_unit=length_unit,
        can_go_on=_can_go_on(step, progress),
        finished=progress.finished,
    )


def curves(view_: View) -> tuple[list[float], dict[str, list[float | None]]] | None:
    """A watch step's curves: the control's values, and every measure along them (None where a foot finds no rest)."""
    if view_.plot is None:
        return None
    plot = view_.plot
    along = [plot.start + index * (plot.to - plot.start) / (plot.steps - 1) for index in range(plot.steps)]
    table = sweep(view_.before.foot, {plot.control: along}, view_.before.case, view_.before.stance_percent)
    found = {
        row.measure: [None if one != one else float(one) for one in table[row.measure]] for row in view_.rows
    }
    return along, found


def _text(lesson: Lesson, progress: Progress, step: Step) -> str:
    text = filled(lesson, progress, step, step.text)
    if not isinstance(step, Compare):
        return text
    predicted = lesson.step(step.prediction)
    record = progress.record(predicted.id)
    if not isinstance(predicted, Predict) or record.answer is None:
        return text
    came = outcome_in_words(
        predicted.answer, *before_and_after(lesson, progress, predicted), progress.length_unit
    )
    yours = in_words(predicted.answer, record.answer, progress.length_unit)
    return f"**You predicted:** {yours}\n\n**What came out:** {came}\n\n{record.reason}\n\n{text}"


def _choices(lesson: Lesson, progress: Progress, step: Step) -> tuple[tuple[str, str], ...]:
    answer = step.answer if isinstance(step, Asking) else None
    if isinstance(answer, ChoiceAnswer):
        return tuple((option.id, filled(lesson, progress, step, option.text)) for option in answer.shown)
    if isinstance(answer, PickAnswer):
        return tuple((name, MEASURES[name].label) for name in answer.among)
    return ()


def _asks(step: Step, progress: Progress) -> str:
    record = progress.record(step.id)
    if isinstance(step, Predict) and record.tries:
        return "Enter goes on" if record.sure_before else "type 1 (a guess) to 4 (certain), or Enter to go on"
    if isinstance(step, Explain | Transfer) and record.tries:
        again = may_answer(record) and not isinstance(step.answer, WordsAnswer)
        return (
            f"once more: {asks(step.answer, progress.length_unit)}; or Enter goes on"
            if again
            else "Enter goes on"
        )
    if isinstance(step, Asking):
        return asks(step.answer, progress.length_unit)
    if isinstance(step, Do):
        example = step.free[0].control
        return (
            "Enter goes on"
            if record.done
            else f"type such as: {example} {_middle(step):g}; then check, or hint, give up"
        )
    if isinstance(step, Compare):
        return "how sure are you now, 1 to 4? Enter goes on"
    return "Enter goes on"


def _middle(step: Do) -> float:
    """An example value that is allowed and most likely not the solution."""
    low, high = step.free[0].range
    return round(low + (high - low) / 4)


def _controls(step: Step, state: FootState) -> tuple[FreeControl, ...]:
    if not isinstance(step, Do):
        return ()
    return tuple(
        FreeControl(
            one.control,
            BY_NAME[one.control].label,
            BY_NAME[one.control].unit,
            *one.range,
            state.value(one.control),
        )
        for one in step.free
    )


def _measures(step: Step) -> list[str]:
    """The measures beside a step: its own, or those that its checks speak of."""
    if isinstance(step, Read | Watch):
        return step.measures
    if isinstance(step, Do):
        return list(dict.fromkeys(check.measure for check in step.reach if hasattr(check, "measure")))
    return []


def _row(name: str, before: FootState, now: FootState) -> ChangeRow:
    measure = MEASURES[name]
    change = change_between(before, now, name)
    return ChangeRow(
        name,
        measure.label,
        measure.unit,
        before.measure(name),
        now.measure(name),
        change,
        change is not None and change_is_readable(name, change),
    )


def _can_go_on(step: Step, progress: Progress) -> bool:
    record = progress.record(step.id)
    if isinstance(step, Do):
        return record.done
    return bool(record.tries) if isinstance(step, Asking) else True
