"""What a lesson teaches badly, though it is well written: each finding with the path of what it speaks of.

An answer shown before it is asked, a task that cannot be done or is done already, marks that everybody or nobody gets,
goals that nothing serves, terms and feet left hanging, texts above the reading level, learners that do not come out.
"""

import re
from collections.abc import Iterator
from dataclasses import replace

from hoofsim.errors import BadInput
from hoofsim.files.reader import Document
from hoofsim.foot.parameters import BY_NAME
from hoofsim.lessons.answers import PositionAnswer
from hoofsim.lessons.glossary import glossary
from hoofsim.lessons.lint_marks import Amiss, marks_amiss
from hoofsim.lessons.loader import LESSON
from hoofsim.lessons.markup import TERM, links, values
from hoofsim.lessons.reading_level import HIGHEST_GRADE, bare, grade
from hoofsim.lessons.rehearsal import complaints, play
from hoofsim.lessons.schema import (
    OWN,
    SCRIPTED,
    START,
    Asking,
    Compare,
    Do,
    Lesson,
    Predict,
    Read,
    ScriptedLearner,
    Step,
    Transfer,
    Watch,
)
from hoofsim.lessons.score import counts

WORDS_A_MINUTE = 130.0
MINUTES_OF_KIND = {
    "read": 0.2,
    "predict": 1.0,
    "do": 1.5,
    "watch": 0.8,
    "compare": 0.5,
    "explain": 1.0,
    "transfer": 1.0,
}
MINUTES_FACTOR = 1.6
SHORT_TEXT_WORDS = 40
SINGLE_TEXT_ABOVE = 2.5
ACTED_ON = ("trim",)


def lint(lesson: Lesson, document: Document) -> list[str]:
    """Every finding as a sentence with file, line and column, in the order of the file."""
    try:
        found = list(_findings(lesson))
    except BadInput as error:
        return [document.sentence(("feet",), f"a foot of this lesson cannot be made: {error}")]
    found.sort(key=lambda finding: document.position(finding[0]))
    return list(dict.fromkeys(document.sentence(path, what) for path, what in found))


def _findings(lesson: Lesson) -> Iterator[Amiss]:
    yield from _feet(lesson)
    yield from _answers_given_away(lesson)
    for index, step in enumerate(lesson.steps):
        yield from marks_amiss(lesson, step, ("steps", index))
    yield from _goals(lesson)
    yield from _comparisons(lesson)
    yield from _terms(lesson)
    yield from _reading_level(lesson)
    yield from _minutes(lesson)
    yield from _cautions(lesson)
    yield from _learners(lesson)


def _feet(lesson: Lesson) -> Iterator[Amiss]:
    """Feet must come to rest, and be used."""
    used = {START}
    for step in lesson.steps:
        used |= {step.foot}
        used |= {step.outcome} if isinstance(step, Predict | Transfer) else set()
        used |= {step.before} if isinstance(step, Watch) else set()
    used |= {value.foot for _, text in lesson.texts() for value in values(text) if value.foot is not None}
    for name, foot in lesson.feet.items():
        if not foot.state().loaded.at_rest:
            yield ("feet", name), f"foot '{name}' finds no state of rest ({foot.state().loaded.status})"
        if name not in used:
            yield ("feet", name), f"foot '{name}' is never used"
    done = False
    for index, step in enumerate(lesson.steps):
        if OWN in (step.foot, getattr(step, "outcome", ""), getattr(step, "before", "")) and not done:
            yield ("steps", index), "'own' stands before any step in which the learner sets a foot"
        done = done or isinstance(step, Do)


def _answers_given_away(lesson: Lesson) -> Iterator[Amiss]:
    """A prediction whose answer stood on the page before it was asked, or in its own text."""
    for index, step in enumerate(lesson.steps):
        if not isinstance(step, Predict | Transfer):
            continue
        measure = getattr(step.answer, "measure", None)
        for earlier in lesson.steps[: index + 1]:
            where = "its own text" if earlier is step else f"step '{earlier.id}'"
            placed = isinstance(step.answer, PositionAnswer) and earlier is not step
            if placed and _draws(lesson, earlier, step.outcome):
                yield ("steps", index), f"the answer to '{step.id}' has been drawn before, in {where}"
                break
            if measure is not None and _shows(lesson, earlier, step, measure, earlier is step):
                yield ("steps", index), f"the answer to '{step.id}' has been shown before, in {where}"
                break
            told = earlier.text if earlier is step else " ".join(_step_texts(lesson, earlier))
            if any(value.kind == "outcome" and value.name == step.id for value in values(told)):
                yield ("steps", index), f"the answer to '{step.id}' has been told before, in {where}"
                break


def _draws(lesson: Lesson, earlier: Step, outcome: str) -> bool:
    """Whether an earlier step has the outcome's foot on the drawing."""
    if outcome == OWN or earlier.foot == OWN:
        return False
    state = lesson.feet[earlier.foot].state()
    if isinstance(earlier, Do):
        return state.change(**earlier.solution) == lesson.feet[outcome].state()
    return state == lesson.feet[outcome].state()


def _shows(lesson: Lesson, earlier: Step, asked: Predict | Transfer, measure: str, same: bool) -> bool:
    """Whether an earlier step lets the learner see `measure` on the outcome's foot."""
    outcome = lesson.feet[asked.outcome].state() if asked.outcome != OWN else None
    if outcome is None:
        return False

    def is_outcome(name: str) -> bool:
        return name != OWN and lesson.feet[name].state() == outcome

    texts = [earlier.text, *([earlier.question] if isinstance(earlier, Asking) else [])]
    for text in texts:
        for value in values(text):
            on = value.foot or (earlier.foot if not (same and earlier.kind == "predict") else asked.foot)
            if value.kind in ("measure", "change") and value.name == measure and is_outcome(on):
                return True
    if same:
        return False
    if isinstance(earlier, Watch | Read) and measure in earlier.measures and is_outcome(earlier.foot):
        return True
    if isinstance(earlier, Do) and earlier.foot != OWN:
        base = lesson.feet[earlier.foot].state()
        seen = [getattr(check, "measure", "") for check in earlier.reach]
        return measure in seen and base.change(**earlier.solution) == outcome
    compared = lesson.step(earlier.prediction) if isinstance(earlier, Compare) else earlier
    if isinstance(compared, Predict) and not isinstance(earlier, Compare):
        return False
    if isinstance(compared, Predict | Transfer) and compared is not asked:
        return getattr(compared.answer, "measure", None) == measure and is_outcome(compared.outcome)
    return False


def _step_texts(lesson: Lesson, step: Step) -> list[str]:
    at = lesson.index(step.id)
    return [text for path, text in lesson.texts() if path[:2] == ("steps", at)]


def _goals(lesson: Lesson) -> Iterator[Amiss]:
    """Every goal needs a step that serves it, and one that shows it was reached."""
    for index, goal in enumerate(lesson.goals):
        steps = [step for step in lesson.steps if goal.id in step.goals]
        if not steps:
            yield ("goals", index), f"no step serves the goal '{goal.id}'"
        elif not any(counts(step) for step in steps):
            yield ("goals", index), f"no step that counts shows whether the goal '{goal.id}' was reached"


def _comparisons(lesson: Lesson) -> Iterator[Amiss]:
    compared = {step.prediction for step in lesson.steps if isinstance(step, Compare)}
    for index, step in enumerate(lesson.steps):
        if isinstance(step, Predict) and step.id not in compared:
            yield ("steps", index), f"the prediction '{step.id}' is never set against what came out"


def _terms(lesson: Lesson) -> Iterator[Amiss]:
    """A term must be linked, and so explained, where a learner first meets it."""
    names = {name.lower(): word for word, one in glossary().items() for name in one.names}
    longest_first = sorted(names, key=len, reverse=True)
    pattern = re.compile(
        r"(?<![\w-])(" + "|".join(map(re.escape, longest_first)) + r")s?(?![\w-])", re.IGNORECASE
    )
    met: set[str] = set()
    for path, text in lesson.texts():
        if path[0] != "steps":
            continue
        here = {target.removeprefix(TERM) for _, target in links(text)}
        for found in pattern.finditer(" ".join(bare(text).split())):
            word = names[found[1].lower()]
            if word not in met and word not in here:
                yield path, f"'{found[0]}' is met here first: link it, such as [{found[0]}]({TERM}{word})"
            met.add(word)
        met |= here


def _reading_level(lesson: Lesson) -> Iterator[Amiss]:
    whole = grade("\n\n".join(bare(text) for _, text in lesson.texts()))
    if whole > HIGHEST_GRADE:
        yield (
            ("steps",),
            f"the texts read at grade {whole:.1f}; at most {HIGHEST_GRADE:g}: shorter words and sentences",
        )
    for path, text in lesson.texts():
        plain = bare(text)
        level = grade(plain)
        if len(plain.split()) >= SHORT_TEXT_WORDS and level > HIGHEST_GRADE + SINGLE_TEXT_ABOVE:
            yield path, f"this text reads at grade {level:.1f}; shorter words and sentences"


def _minutes(lesson: Lesson) -> Iterator[Amiss]:
    words = sum(len(bare(text).split()) for path, text in lesson.texts() if "hints" not in path)
    guess = words / WORDS_A_MINUTE + sum(MINUTES_OF_KIND[step.kind] for step in lesson.steps)
    if not lesson.minutes / MINUTES_FACTOR <= guess <= lesson.minutes * MINUTES_FACTOR:
        yield ("minutes",), f"it is likely to take about {guess:.0f} minutes, not {lesson.minutes}"


def _cautions(lesson: Lesson) -> Iterator[Amiss]:
    """Where a learner trims, wedges or cuts, an owner could do the same."""
    if lesson.cautions:
        return
    for index, step in enumerate(lesson.steps):
        for number, free in enumerate(step.free if isinstance(step, Do) else ()):
            if BY_NAME[free.control].group in ACTED_ON or free.control == "tendon_cut":
                what = f"an owner could act on '{free.control}': set 'cautions: true' at the top"
                yield ("steps", index, "free", number), what
                return


def _learners(lesson: Lesson) -> Iterator[Amiss]:
    """Scripted learners of every sort must be there and come out as they must."""
    names = [learner.name for learner in lesson.learners]
    for name in SCRIPTED:
        if name not in names:
            yield ("learners",), f"a scripted learner '{name}' is missing"
    marks: dict[str, dict[str, float]] = {}
    for index, learner in enumerate(lesson.learners):
        played = play(lesson, learner, "rehearsal")
        yield from ((("learners", index), what) for what in complaints(lesson, played))
        yield from ((("learners", index), what) for what in _expects_little(learner))
        marks[learner.name] = {
            step.id: played.progress.record(step.id).marks or 0.0 for step in lesson.steps if counts(step)
        }
    for index, step in enumerate(lesson.steps):
        right, wrong = (marks.get(name, {}).get(step.id) for name in ("right", "wrong"))
        if right is not None and right < 1.0 and not isinstance(step, Do):
            yield (
                ("steps", index),
                f"the right learner has only {right:.2f} marks at '{step.id}': can anybody pass it?",
            )
        if wrong is not None and wrong >= 1.0:
            yield (
                ("steps", index),
                f"the wrong learner has full marks at '{step.id}' too: does everybody pass it?",
            )


def _expects_little(learner: ScriptedLearner) -> Iterator[str]:
    if learner.name == "wrong" and not learner.expect.told:
        yield "the wrong learner's 'expect' must say, under 'told', what it is told to look at"
    if learner.expect.passes == (learner.name == "wrong"):
        yield f"the {learner.name} learner must {'not ' if learner.name == 'wrong' else ''}pass"


EXAMINED_LESSON = replace(LESSON, examine=lint)
"""The kind of file that a lesson is, with its teaching examined as well."""
