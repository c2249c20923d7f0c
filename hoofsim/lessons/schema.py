"""What a lesson is, as written in YAML: goals, feet, steps, and scripted learners that prove it."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field, model_validator

from hoofsim.errors import BadInput, nearest
from hoofsim.files.names import check_control, check_measure
from hoofsim.files.reader import Path_
from hoofsim.files.scenario import WrittenFoot, WrittenLoad
from hoofsim.files.typed import Misplaced, Strict
from hoofsim.foot.landmarks import BODY_OF
from hoofsim.foot.parameters import BY_NAME, checked
from hoofsim.lessons.answers import Answer, ChoiceAnswer, Line, Name, Prose
from hoofsim.lessons.checks import Check
from hoofsim.lessons.state import FootState
from hoofsim.measures import MEASURES
from hoofsim.model import Foot
from hoofsim.timeline.calendar import weeks
from hoofsim.timeline.rates import KEEPINGS
from hoofsim.timeline.trim import parse_trim

START = "start"
OWN = "own"
SCRIPTED = ("right", "wrong", "wandering")
LONGEST_TYPED = 400
MOST_FEET = 20
MOST_TYPED = 60


class Weeks(Strict):
    """Days of growth, wear and trims that a foot has gone through; trims as in "42:wall=6,plane=1.5,sole=1"."""

    days: float = Field(ge=0, le=400)
    kept: str = Field("shod", json_schema_extra={"enum": list(KEEPINGS)})
    trims: list[Annotated[str, Field(max_length=100)]] = Field(default_factory=list, max_length=10)

    @model_validator(mode="after")
    def _can_be(self) -> "Weeks":
        if self.kept not in KEEPINGS:
            raise Misplaced(("kept",), f"unknown keeping '{self.kept}'; {nearest(self.kept, KEEPINGS)}")
        for index, trim in enumerate(self.trims):
            try:
                parse_trim(trim)
            except BadInput as error:
                raise Misplaced(("trims", index), str(error)) from None
        return self

    def controls(self, foot: Foot) -> dict[str, float]:
        """What the days have made of the foot's controls; BadInput when one leaves its range."""
        trims = [parse_trim(trim) for trim in self.trims]
        grown = weeks(foot, [self.days], self.kept, trims)
        return {name: float(values[0]) for name, values in grown.controls.items()}


class LessonFoot(WrittenFoot):
    """A foot with a load, under a name that the steps use; `weeks` lets it grow before it is loaded."""

    load: WrittenLoad = Field(default_factory=lambda: WrittenLoad.model_validate({}))
    weeks: Weeks | None = None

    @model_validator(mode="after")
    def _grows(self) -> "LessonFoot":
        try:
            self.state()
        except BadInput as error:
            raise Misplaced(("weeks",), str(error)) from None
        return self

    def state(self) -> FootState:
        """The foot by its values."""
        settings = dict(self.set)
        if self.weeks is not None:
            settings |= self.weeks.controls(Foot(self.preset, **settings))
        return FootState(
            self.preset, tuple(sorted(settings.items())), self.load.case, self.load.stance_percent
        )


class Goal(Strict):
    """What the learner can do afterwards."""

    id: Name
    text: Line


class Hint(Strict):
    """A pointer at something to look at: words, and names of landmarks or measures to light up."""

    text: Line
    look_at: list[str] = Field(default_factory=list, max_length=6)


class _Step(Strict):
    id: Name
    title: Annotated[str, Field(min_length=1, max_length=80)]
    text: Prose
    goals: list[str] = Field(
        default_factory=list, max_length=6, description="ids of the goals that it serves"
    )
    look_at: list[str] = Field(
        default_factory=list, max_length=8, description="landmarks or measures to light up"
    )
    hints: list[Hint] = Field(default_factory=list, max_length=5)
    foot: str = Field(START, description="foot on the drawing; 'own' is the foot as the learner last left it")


class Read(_Step):
    """Something to read, beside a foot."""

    kind: Literal["read"]
    measures: list[str] = Field(default_factory=list, max_length=8, description="numbers shown beside")


class Predict(_Step):
    """Commit to a prediction of what `outcome` shows, before it is seen; `foot` is the foot before."""

    kind: Literal["predict"]
    question: Line
    outcome: str = Field(description="the foot whose solution is the answer")
    answer: Answer
    counts: bool = False


class Free(Strict):
    """One control that the learner may move, and how far (its own range when not said)."""

    control: str = Field(json_schema_extra={"enum": list(BY_NAME)})
    low: float | None = None
    high: float | None = None

    @model_validator(mode="after")
    def _in_range(self) -> "Free":
        check_control(self.control, ("control",))
        for end in ("low", "high"):
            value = getattr(self, end)
            if value is not None:
                try:
                    checked(self.control, value)
                except BadInput as error:
                    raise Misplaced((end,), str(error)) from None
        if self.range[0] >= self.range[1]:
            raise Misplaced((), f"'low' {self.range[0]:g} must be below 'high' {self.range[1]:g}")
        return self

    @property
    def range(self) -> tuple[float, float]:
        """Lowest and highest value allowed here."""
        control = BY_NAME[self.control]
        return (
            control.low if self.low is None else self.low,
            control.high if self.high is None else self.high,
        )


class Do(_Step):
    """Move the free controls until every check of `reach` holds; `solution` is one way to do it."""

    kind: Literal["do"]
    free: list[Free] = Field(min_length=1, max_length=8)
    reach: list[Check] = Field(min_length=1, max_length=6)
    solution: dict[str, float] = Field(min_length=1)
    if_wrong: Line = Field(description="what to look at while a check does not hold")
    counts: bool = True


class ShownCurve(Strict):
    """A curve to show: the step's measures while one control runs from `from` to `to`."""

    control: str = Field(json_schema_extra={"enum": list(BY_NAME)})
    start: float = Field(alias="from")
    to: float
    steps: int = Field(21, ge=3, le=101)

    @model_validator(mode="after")
    def _in_range(self) -> "ShownCurve":
        check_control(self.control, ("control",))
        for key, value in (("from", self.start), ("to", self.to)):
            try:
                checked(self.control, value)
            except BadInput as error:
                raise Misplaced((key,), str(error)) from None
        return self


class Watch(_Step):
    """Watch `measures` go from the `before` foot to `foot`, until it has settled."""

    kind: Literal["watch"]
    before: str = START
    measures: list[str] = Field(min_length=1, max_length=10)
    until: Literal["settled"] = "settled"
    plot: ShownCurve | None = None


class Compare(_Step):
    """Set one's own prediction against what came out."""

    kind: Literal["compare"]
    prediction: str = Field(description="id of the predict step")


class Explain(_Step):
    """Say why: a choice with reasons, a pick, or one's own words kept for the instructor."""

    kind: Literal["explain"]
    question: Line
    answer: Answer
    counts: bool = True


class Transfer(_Step):
    """The same idea on another foot: what `outcome` shows, starting from `foot`; answered at once."""

    kind: Literal["transfer"]
    question: Line
    outcome: str
    answer: Answer
    counts: bool = True


Step = Annotated[
    Read | Predict | Do | Watch | Compare | Explain | Transfer,
    Field(discriminator="kind"),
]
STEP_KINDS = ("read", "predict", "do", "watch", "compare", "explain", "transfer")
Asking = Predict | Explain | Transfer


class Expected(Strict):
    """How a scripted learner must come out."""

    passes: bool
    marks: dict[str, float] = Field(default_factory=dict, description="step id: marks, 0 to 1")
    told: list[Line] = Field(
        default_factory=list, max_length=10, description="words that the learner must have been told"
    )


class ScriptedLearner(Strict):
    """A scripted learner: lines typed at the steps, as at the keyboard; Enter is pressed wherever nothing is given."""

    name: Literal["right", "wrong", "wandering"]
    types: dict[
        str, Annotated[list[Annotated[str, Field(max_length=LONGEST_TYPED)]], Field(max_length=MOST_TYPED)]
    ] = Field(description="step id: the lines typed there; 'leave' closes the program and opens it again")
    expect: Expected


class Lesson(Strict):
    """One guided lesson."""

    hoofsim: Literal[1]
    kind: Literal["lesson"]
    title: Annotated[str, Field(min_length=1, max_length=100)]
    summary: Line
    audience: Line = Field(alias="for")
    minutes: int = Field(ge=1, le=60)
    after: list[Name] = Field(default_factory=list, max_length=10, description="lessons to have done before")
    goals: list[Goal] = Field(min_length=1, max_length=6)
    cautions: bool = Field(False, description="an owner could act on it: show the cautions in full")
    feet: dict[Name, LessonFoot] = Field(min_length=1, max_length=MOST_FEET)
    steps: list[Step] = Field(min_length=1, max_length=60)
    pass_at: float = Field(0.7, gt=0, le=1, description="share of the counted marks that passes")
    learners: list[ScriptedLearner] = Field(default_factory=list, max_length=9)

    @model_validator(mode="after")
    def _fits_together(self) -> "Lesson":
        if START not in self.feet:
            raise Misplaced(
                ("feet",), f"a foot called '{START}' is missing: the foot that the lesson begins with"
            )
        if OWN in self.feet:
            raise Misplaced(
                ("feet", OWN), f"'{OWN}' means the foot as the learner left it; choose another name"
            )
        seen: list[str] = []
        for index, step in enumerate(self.steps):
            if step.id in seen:
                raise Misplaced(("steps", index, "id"), f"two steps are called '{step.id}'")
            self._check_step(step, ("steps", index))
            seen.append(step.id)
        for index, learner in enumerate(self.learners):
            for name in (*learner.types, *learner.expect.marks):
                if name not in seen:
                    raise Misplaced(("learners", index), f"no step is called '{name}'; {nearest(name, seen)}")
        return self

    def _check_step(self, step: Step, path: Path_) -> None:
        """Names that a step uses must exist."""
        self._check_foot(step.foot, (*path, "foot"))
        goals = [goal.id for goal in self.goals]
        for index, goal in enumerate(step.goals):
            if goal not in goals:
                raise Misplaced(
                    (*path, "goals", index), f"no goal is called '{goal}'; {nearest(goal, goals)}"
                )
        _check_look_at(step.look_at, (*path, "look_at"))
        for index, hint in enumerate(step.hints):
            _check_look_at(hint.look_at, (*path, "hints", index, "look_at"))
        for index, name in enumerate(step.measures if isinstance(step, Read | Watch) else ()):
            check_measure(name, (*path, "measures", index))
        if isinstance(step, Predict | Transfer):
            self._check_foot(step.outcome, (*path, "outcome"))
            if step.answer.form == "words":
                raise Misplaced((*path, "answer", "form"), "own words cannot be held against an outcome")
        if isinstance(step, Watch):
            self._check_foot(step.before, (*path, "before"))
        if isinstance(step, Do):
            self._check_solution(step, path)
        if isinstance(step, Explain) and step.answer.form in ("number", "direction", "position"):
            raise Misplaced((*path, "answer", "form"), "an explanation is a choice, a pick or words")
        if isinstance(step, Compare):
            self._check_compare(step, path)

    def _check_foot(self, name: str, path: Path_) -> None:
        if name not in self.feet and name != OWN:
            raise Misplaced(path, f"no foot is called '{name}'; {nearest(name, (*self.feet, OWN))}")

    def _check_solution(self, step: Do, path: Path_) -> None:
        free = {one.control: one.range for one in step.free}
        for control, value in step.solution.items():
            if control not in free:
                raise Misplaced(
                    (*path, "solution", control), f"'{control}' is not free here; {nearest(control, free)}"
                )
            low, high = free[control]
            if not low <= value <= high:
                raise Misplaced(
                    (*path, "solution", control), f"{value:g} is out of the free range {low:g} to {high:g}"
                )

    def _check_compare(self, step: Compare, path: Path_) -> None:
        at = self.steps.index(step)
        before = [one.id for one in self.steps[:at] if isinstance(one, Predict)]
        if step.prediction not in before:
            raise Misplaced(
                (*path, "prediction"),
                f"no prediction called '{step.prediction}' stands before; {nearest(step.prediction, before)}",
            )

    def step(self, name: str) -> Step:
        """The step of that id; BadInput with the nearest one when there is none."""
        for one in self.steps:
            if one.id == name:
                return one
        raise BadInput(f"no step is called '{name}': {nearest(name, [one.id for one in self.steps])}")

    def index(self, name: str) -> int:
        """Where that step stands."""
        return [one.id for one in self.steps].index(name)

    def texts(self) -> Iterator[tuple[Path_, str]]:
        """Every text a learner reads, in the order of the lesson, with its path in the file."""
        yield ("summary",), self.summary
        for at, goal in enumerate(self.goals):
            yield ("goals", at, "text"), goal.text
        for index, step in enumerate(self.steps):
            path: Path_ = ("steps", index)
            yield (*path, "text"), step.text
            if isinstance(step, Asking):
                yield (*path, "question"), step.question
                if isinstance(step.answer, ChoiceAnswer):
                    for number, option in enumerate(step.answer.options):
                        yield (*path, "answer", "options", number, "text"), option.text
                        yield (*path, "answer", "options", number, "because"), option.because
                elif step.answer.form == "words":
                    yield (*path, "answer", "model"), step.answer.model
                else:
                    yield (*path, "answer", "if_wrong"), step.answer.if_wrong
            if isinstance(step, Do):
                yield (*path, "if_wrong"), step.if_wrong
            for number, hint in enumerate(step.hints):
                yield (*path, "hints", number, "text"), hint.text


def _check_look_at(names: list[str], path: Path_) -> None:
    for index, name in enumerate(names):
        if name not in MEASURES and name not in BODY_OF:
            raise Misplaced(
                (*path, index),
                f"'{name}' is no landmark and no measure; {nearest(name, (*BODY_OF, *MEASURES))}",
            )
