"""The experiment: one foot, a few factors each at several levels, combined one at a time, as a grid, or in full."""

from itertools import product
from math import prod
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, model_validator

from hoofsim.errors import nearest
from hoofsim.files.kinds import Kind, kind_word
from hoofsim.files.names import check_measure
from hoofsim.files.reader import Document, read_file
from hoofsim.files.scenario import Controls, Sweep, Text, WrittenFoot, WrittenLoad, check_controls
from hoofsim.files.typed import Misplaced, Strict, validate
from hoofsim.mechanics.loads import CASES

MOST_RUNS = 100_000
Design = Literal["one at a time", "grid", "factorial"]
Word = Annotated[str, Field(min_length=1, max_length=40)]


class Level(Strict):
    """One level of a factor: its word, and the controls (and the load case) that it sets."""

    name: Word
    set: Controls = Field(default_factory=dict, description="control: value; empty leaves the foot as it is")
    load: str | None = Field(
        None,
        description="load case of this level; hoofsim list loads",
        json_schema_extra={"enum": list(CASES)},
    )

    @model_validator(mode="after")
    def _names_exist(self) -> "Level":
        check_controls(self.set, ("set",))
        if self.load is not None and self.load not in CASES:
            raise Misplaced(("load",), f"unknown load '{self.load}'; {nearest(self.load, CASES)}")
        return self


class Factor(Strict):
    """What is varied: either one `control` through numbers, or a `name` with worded `levels`.

    Numbers are `values`, or `from`, `to` and `steps` as in a scenario's sweep. `usual` names the level that counts as
    untouched when factors are varied one at a time; without it, the first.
    """

    name: Word | None = None
    levels: list[Level] | None = Field(None, min_length=2, max_length=50)
    control: str | None = None
    start: float | None = Field(None, alias="from")
    to: float | None = None
    steps: int | None = None
    values: list[float] | None = None
    usual: str | float | None = None

    @model_validator(mode="after")
    def _is_complete(self) -> "Factor":
        if (self.control is None) == (self.levels is None):
            raise Misplaced((), "give either 'control' with numbers, or 'name' with 'levels'")
        if self.levels is not None:
            self._check_levels()
        else:
            self._sweep()
        words = [level.name for level in self.options()]
        if len(words) < 2:
            raise Misplaced((), "a factor needs at least two levels")
        if len(set(words)) < len(words):
            raise Misplaced((), "two levels have the same name")
        if self.usual is not None and _word(self.usual) not in words:
            raise Misplaced(
                ("usual",), f"no level is called '{_word(self.usual)}'; {nearest(_word(self.usual), words)}"
            )
        return self

    def _check_levels(self) -> None:
        if self.name is None:
            raise Misplaced((), "a factor with 'levels' needs a 'name'")
        given = [key for key in ("start", "to", "steps", "values") if getattr(self, key) is not None]
        if given:
            raise Misplaced((), "'levels' says everything: leave out 'from', 'to', 'steps' and 'values'")

    def _sweep(self) -> Sweep:
        """The numbers of a control, checked as a scenario's sweep is."""
        keys = {
            "control": self.control,
            "from": self.start,
            "to": self.to,
            "steps": self.steps,
            "values": self.values,
        }
        return Sweep.model_validate({key: value for key, value in keys.items() if value is not None})

    @property
    def title(self) -> str:
        """The factor's name: as given, or the control's."""
        return self.name or self.control or ""

    def options(self) -> list[Level]:
        """The levels in order."""
        if self.levels is not None:
            return list(self.levels)
        control = self.control or ""
        return [Level(name=_word(value), set={control: value}, load=None) for value in self._sweep().points()]

    def usual_index(self) -> int:
        """Which level counts as untouched."""
        words = [level.name for level in self.options()]
        return 0 if self.usual is None else words.index(_word(self.usual))

    def numbers(self) -> list[float] | None:
        """The levels as numbers, or None when they are words."""
        return None if self.levels is not None else self._sweep().points()


class Experiment(Strict):
    """One plain question put to a foot by varying a few things at once."""

    hoofsim: Literal[1]
    kind: Literal["experiment"]
    title: Annotated[str, Field(min_length=1, max_length=120)]
    question: Text
    look_at: Text | None = Field(
        None, description="what to look at in the figures, with no answer given away"
    )
    foot: WrittenFoot = Field(default_factory=lambda: WrittenFoot.model_validate({}))
    load: WrittenLoad = Field(default_factory=lambda: WrittenLoad.model_validate({}))
    design: Design
    factors: list[Factor] = Field(min_length=1, max_length=8)
    measures: list[str] = Field(min_length=1, max_length=12)
    claim_plot: bool = Field(False, description="also draw the runs among the rival accounts' curves")

    @model_validator(mode="after")
    def _fits_together(self) -> "Experiment":
        for index, name in enumerate(self.measures):
            check_measure(name, ("measures", index))
            if name in self.measures[:index]:
                raise Misplaced(("measures", index), f"measure '{name}' is given twice; keep one")
        self._check_factors()
        count = (
            len(self.runs())
            if self.design == "one at a time"
            else prod(len(f.options()) for f in self.factors)
        )
        if count > MOST_RUNS:
            raise Misplaced(("factors",), f"{count:,} runs in all; at most {MOST_RUNS:,}")
        if self.design == "grid" and (
            len(self.factors) != 2 or any(factor.numbers() is None for factor in self.factors)
        ):
            raise Misplaced(("factors",), "a grid takes exactly two factors, each a 'control' with numbers")
        return self

    def _check_factors(self) -> None:
        owner: dict[str, str] = {}
        for index, factor in enumerate(self.factors):
            if factor.title in (other.title for other in self.factors[:index]):
                raise Misplaced(("factors", index), f"two factors are called '{factor.title}'")
            touched = {control for level in factor.options() for control in level.set}
            touched |= {"load" for level in factor.options() if level.load is not None}
            for control in sorted(touched):
                if control in owner:
                    raise Misplaced(
                        ("factors", index), f"'{control}' is already set by factor '{owner[control]}'"
                    )
                owner[control] = factor.title
        if "stance_percent" in self.foot.set:
            raise Misplaced(("foot", "set", "stance_percent"), "set the moment of the stance under 'load'")

    def runs(self) -> list[tuple[int, ...]]:
        """The level of each factor in each run, by index, in order."""
        sizes = [len(factor.options()) for factor in self.factors]
        if self.design != "one at a time":
            return list(product(*(range(size) for size in sizes)))
        usual = tuple(factor.usual_index() for factor in self.factors)
        runs = [usual]
        for at, size in enumerate(sizes):
            runs += [(*usual[:at], level, *usual[at + 1 :]) for level in range(size) if level != usual[at]]
        return runs


def _word(value: str | float) -> str:
    return value if isinstance(value, str) else f"{value:g}"


def load_experiment(document: Document) -> Experiment:
    """The document as an experiment; BadInput with line and column for everything that is wrong."""
    kind_word(document, (EXPERIMENT.name,))
    return validate(Experiment, document)


def read_experiment(path: Path | str) -> Experiment:
    """The experiment in a file."""
    return load_experiment(read_file(path))


EXPERIMENT = Kind(
    "experiment",
    "One question put to a foot by varying a few factors: one at a time, as a grid, or in every combination.",
    Experiment,
    load_experiment,
)
