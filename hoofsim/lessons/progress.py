"""How far a learner is in one lesson, as plain values: what was answered, tried, asked and left. Never edited in place."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from hoofsim.errors import nearest
from hoofsim.files.kinds import Kind, kind_word
from hoofsim.files.reader import Document
from hoofsim.files.typed import Strict, validate
from hoofsim.foot.parameters import BY_NAME
from hoofsim.lessons.answers import Name

MOST_RECORDS = 60
LONGEST_NAME = 60
LONGEST_TOLD = 4000
MOST_TRIES = 100

Share = Annotated[float, Field(ge=0, le=1)]
Sure = Annotated[int, Field(ge=1, le=4)]


def _known(controls: dict[str, float]) -> dict[str, float]:
    for name in controls:
        if name not in BY_NAME:
            raise ValueError(f"unknown control '{name[:40]}'; {nearest(name[:40], BY_NAME)}")
    return controls


Controls = Annotated[dict[str, float], AfterValidator(_known)]
Count = Annotated[int, Field(ge=0, le=1_000_000)]


class Record(Strict):
    """What happened at one step.

    `answer` is what was committed to, `tries` everything that was answered; `marks` 0-1 with `reason`, once judged;
    `controls` where the learner left the free controls; `seconds` spent; `done` when the step let the learner go on.
    """

    kind: str = Field(max_length=20)
    title: str = Field(default="", max_length=80)
    answer: str | None = Field(default=None, max_length=LONGEST_TOLD)
    tries: list[Annotated[str, Field(max_length=LONGEST_TOLD)]] = Field(
        default_factory=list, max_length=MOST_TRIES
    )
    marks: Share | None = None
    reason: str = Field(default="", max_length=LONGEST_TOLD)
    sure_before: Sure | None = None
    sure_after: Sure | None = None
    hints: Count = 0
    visits: Count = 0
    seconds: float = Field(default=0.0, ge=0, le=1e9)
    controls: Controls = Field(default_factory=dict)
    base: str = Field(default="", max_length=40, description="name of the foot that the controls are set on")
    found: Controls = Field(default_factory=dict, description="controls as the step found them")
    gave_up: bool = False
    done: bool = False


class Progress(Strict):
    """One learner in one lesson: `at` is the step shown, `told` what the last event was answered with."""

    hoofsim: Literal[1] = 1
    kind: Literal["progress"] = "progress"
    learner: str = Field(min_length=1, max_length=LONGEST_NAME)
    lesson: Name
    title: str = Field(default="", max_length=100)
    at: Name
    finished: bool = False
    passed: bool | None = None
    told: str = Field(default="", max_length=LONGEST_TOLD)
    own: Controls = Field(default_factory=dict, description="controls of the learner's own foot")
    own_foot: str = Field(default="start", max_length=40, description="name of the foot that it grew from")
    length_unit: Literal["mm", "in"] = Field(
        default="mm", description="unit in which lengths are told and shown"
    )
    events: Count = 0
    records: dict[Name, Record] = Field(default_factory=dict, max_length=MOST_RECORDS)
    whole: Literal[True] = Field(default=True, description="the last key: a file cut short lacks it")

    def record(self, step: str, kind: str = "", title: str = "") -> Record:
        """The record of a step; an empty one when it was never visited."""
        return self.records.get(step) or Record(kind=kind, title=title)


def load_progress(document: Document) -> Progress:
    """The document as progress; BadInput with line and column for everything that is wrong."""
    kind_word(document, (PROGRESS.name,))
    if "whole" not in document.data:
        raise document.error((), "the file is cut short: its last key, 'whole: true', is missing")
    return validate(Progress, document)


PROGRESS = Kind(
    "progress", "How far one learner is in one lesson; written by the program.", Progress, load_progress
)
