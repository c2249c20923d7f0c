"""Which foot a step is about, for this learner: the lesson's feet, and the learner's own."""

from hoofsim.lessons.grading import outcome_in_words
from hoofsim.lessons.markup import Value, fill
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.reading import in_words
from hoofsim.lessons.schema import OWN, START, Do, Explain, Lesson, Predict, Step, Transfer, Watch
from hoofsim.lessons.state import FootState, change_between, setting_in_words
from hoofsim.measures import MEASURES
from hoofsim.units import show

Asked = Predict | Explain | Transfer


def foot_of(lesson: Lesson, progress: Progress, name: str) -> FootState:
    """A foot by its name in the lesson; 'own' is the one the learner last left."""
    if name == OWN:
        return lesson.feet[progress.own_foot].state().change(**progress.own)
    return lesson.feet[name].state()


def do_base(lesson: Lesson, progress: Progress, step: Do) -> FootState:
    """The foot that a *do* step is judged against: the named one, or the one the learner's own grew from."""
    own = progress.record(step.id).base or progress.own_foot
    return lesson.feet[own if step.foot == OWN else step.foot].state()


def do_state(lesson: Lesson, progress: Progress, step: Do) -> FootState:
    """The foot of a *do* step as the learner has set it."""
    return do_base(lesson, progress, step).change(**progress.record(step.id).controls)


def before_and_after(lesson: Lesson, progress: Progress, step: Asked) -> tuple[FootState, FootState]:
    """The feet that a question is about: an explanation looks from the first foot to the step's own."""
    if isinstance(step, Explain):
        return foot_of(lesson, progress, START), foot_of(lesson, progress, step.foot)
    return foot_of(lesson, progress, step.foot), foot_of(lesson, progress, step.outcome)


def shown_feet(lesson: Lesson, progress: Progress, step: Step) -> tuple[FootState, FootState]:
    """The foot before and the foot now, for the drawing and the numbers beside a step.

    A question shows its first foot only: the outcome is not given away.
    """
    if isinstance(step, Do):
        return do_base(lesson, progress, step), do_state(lesson, progress, step)
    if isinstance(step, Watch):
        return foot_of(lesson, progress, step.before), foot_of(lesson, progress, step.foot)
    now = foot_of(lesson, progress, step.foot)
    return (now if isinstance(step, Asked) else foot_of(lesson, progress, START)), now


def filled(lesson: Lesson, progress: Progress, step: Step, text: str) -> str:
    """A text of the step with its live values from the solver; bold and links stay as marks."""

    length_unit = progress.length_unit

    def give(value: Value) -> str:
        if value.kind in ("predicted", "outcome"):
            return _of_prediction(lesson, progress, value)
        state = (
            shown_feet(lesson, progress, step)[1]
            if value.foot is None
            else foot_of(lesson, progress, value.foot)
        )
        if value.kind == "measure":
            return state.shown(value.name, length_unit)
        if value.kind == "change":
            change = change_between(foot_of(lesson, progress, START), state, value.name)
            return show(change, MEASURES[value.name].unit, length_unit, signed=True)
        return setting_in_words(value.name, state.value(value.name))

    return fill(text, give)


def _of_prediction(lesson: Lesson, progress: Progress, value: Value) -> str:
    """The learner's own answer to a prediction, or what came out."""
    step = lesson.step(value.name)
    if not isinstance(step, Predict):
        return "nothing"
    if value.kind == "outcome":
        return outcome_in_words(step.answer, *before_and_after(lesson, progress, step), progress.length_unit)
    given = progress.record(step.id).answer
    return "nothing yet" if given is None else in_words(step.answer, given, progress.length_unit)
