"""The forms an answer can take, as a lesson writes them: what is asked, and what counts as right or nearly right.

What is right comes from the solver (number, direction, position), from the rival accounts (pick), or from the author
with checks that the solver must confirm (choice). Each form says what to look at when the answer is off.
"""

from typing import Annotated, Literal
from zlib import crc32

from pydantic import AfterValidator, Field, model_validator

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.errors import nearest
from hoofsim.files.names import check_measure
from hoofsim.files.typed import Misplaced, Strict
from hoofsim.foot.landmarks import BODY_OF
from hoofsim.lessons.checks import Check
from hoofsim.measures import MEASURES

LONGEST_PROSE = 4000
LONGEST_LINE = 400


def _plain_name(text: str) -> str:
    letters = text.replace("_", "").replace("-", "")
    if not (letters.isascii() and letters.isalnum() and text == text.lower() and len(text) <= 40):
        raise ValueError(f"'{text[:40]}' must be small letters, digits, - and _, at most 40 of them")
    return text


Name = Annotated[str, AfterValidator(_plain_name)]
Prose = Annotated[str, Field(min_length=1, max_length=LONGEST_PROSE)]
Line = Annotated[str, Field(min_length=1, max_length=LONGEST_LINE)]

DIRECTIONS = ("rises", "falls", "stays")


class NumberAnswer(Strict):
    """A number: the measure itself, or its change between the two feet.

    Full marks within `full` of the solver's value, half marks within `half`, both in the measure's unit.
    """

    form: Literal["number"]
    measure: str = Field(json_schema_extra={"enum": list(MEASURES)})
    of: Literal["value", "change"] = "value"
    full: float = Field(gt=0)
    half: float = Field(gt=0)
    if_wrong: Line = Field(description="what to look at when the number is off")

    @model_validator(mode="after")
    def _fits(self) -> "NumberAnswer":
        check_measure(self.measure, ("measure",))
        if self.half < self.full:
            raise Misplaced(("half",), f"half {self.half:g} must not be smaller than full {self.full:g}")
        return self


class DirectionAnswer(Strict):
    """Rises, falls or stays: the measure's change between the two feet; within `same_within` it stays."""

    form: Literal["direction"]
    measure: str = Field(json_schema_extra={"enum": list(MEASURES)})
    same_within: float = Field(gt=0)
    if_wrong: Line = Field(description="what to look at when the direction is off")

    @model_validator(mode="after")
    def _measure_exists(self) -> "DirectionAnswer":
        check_measure(self.measure, ("measure",))
        return self


class Option(Strict):
    """One option of a choice: its marks (1 is full) and why; `shown_by` are checks that the solver must confirm."""

    id: Name
    text: Line
    marks: float = Field(ge=0, le=1)
    because: Line = Field(description="said to whoever chose it; for a weak option, what to look at")
    shown_by: list[Check] = Field(default_factory=list, max_length=6)


class ChoiceAnswer(Strict):
    """One of a few options, each with its reason."""

    form: Literal["choice"]
    options: list[Option] = Field(min_length=2, max_length=7)
    order: Literal["mixed", "given"] = Field(
        "mixed", description="mixed: the same for everybody, and not the order of the file"
    )

    @property
    def shown(self) -> list[Option]:
        """The options in the order in which learners see and number them."""
        if self.order == "given":
            return list(self.options)
        return sorted(self.options, key=lambda option: crc32(option.text.encode("utf-8")))

    @model_validator(mode="after")
    def _options_differ(self) -> "ChoiceAnswer":
        ids = [option.id for option in self.options]
        for index, one in enumerate(ids):
            if one in ids[:index]:
                raise Misplaced(("options", index, "id"), f"two options are called '{one}'")
        return self


class PositionAnswer(Strict):
    """A place on the drawing: where a landmark will be, x and y in mm; full marks within `full` mm, half within `half`."""

    form: Literal["position"]
    landmark: str = Field(json_schema_extra={"enum": list(BODY_OF)})
    full: float = Field(gt=0)
    half: float = Field(gt=0)
    if_wrong: Line

    @model_validator(mode="after")
    def _landmark_exists(self) -> "PositionAnswer":
        if self.landmark not in BODY_OF:
            raise Misplaced(
                ("landmark",), f"unknown landmark '{self.landmark}'; {nearest(self.landmark, BODY_OF)}"
            )
        if self.half < self.full:
            raise Misplaced(("half",), f"half {self.half:g} must not be smaller than full {self.full:g}")
        return self


class PickAnswer(Strict):
    """Up to `up_to` measures that together tell the `accounts` apart, as read with an error of `error` (mm or deg).

    Each account in turn is taken to be true by `amount` (its own unit); marks are the share of them that the readings
    would leave standing alone.
    """

    form: Literal["pick"]
    up_to: int = Field(ge=1, le=6)
    among: list[str] = Field(min_length=2, max_length=12)
    accounts: list[str] = Field(min_length=2, max_length=8)
    amount: float = Field(8.0, gt=0, le=20)
    error: float = Field(1.0, gt=0, le=10)
    if_wrong: Line

    @model_validator(mode="after")
    def _names_exist(self) -> "PickAnswer":
        for index, name in enumerate(self.among):
            check_measure(name, ("among", index))
            if not MEASURES[name].readable:
                raise Misplaced(("among", index), f"'{name}' cannot be read on a radiograph; pick another")
        for index, name in enumerate(self.accounts):
            if name not in ACCOUNTS:
                raise Misplaced(("accounts", index), f"unknown account '{name}'; {nearest(name, ACCOUNTS)}")
        if self.up_to > len(self.among):
            raise Misplaced(("up_to",), f"only {len(self.among)} measures can be picked")
        return self


class WordsAnswer(Strict):
    """A sentence or two in the learner's own words, kept for the instructor; then a model answer is shown."""

    form: Literal["words"]
    model: Prose = Field(description="a good answer, shown afterwards")
    at_least: int = Field(4, ge=1, le=60, description="words that the answer must have")


Answer = Annotated[
    NumberAnswer | DirectionAnswer | ChoiceAnswer | PositionAnswer | PickAnswer | WordsAnswer,
    Field(discriminator="form"),
]
FORMS = ("number", "direction", "choice", "position", "pick", "words")
