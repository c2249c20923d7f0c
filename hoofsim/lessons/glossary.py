"""The glossary: trade terms with every name in use, one plain sentence or two each, from assets/glossary.yaml.

>>> term("distal_phalanx").names[:3]
('distal phalanx', 'P3', 'coffin bone')
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Annotated, Literal, NamedTuple

from pydantic import Field, model_validator

from hoofsim.errors import BadInput, nearest
from hoofsim.files.kinds import Kind, kind_word
from hoofsim.files.names import check_measure
from hoofsim.files.reader import Document, read_file
from hoofsim.files.typed import Misplaced, Strict, validate
from hoofsim.lessons.answers import Name
from hoofsim.resources import assets_folder


class WrittenTerm(Strict):
    """One term: `names` (the first is the one we use), what it means, and what it is measured by or related to."""

    names: list[Annotated[str, Field(min_length=2, max_length=60)]] = Field(min_length=1, max_length=8)
    meaning: Annotated[str, Field(min_length=10, max_length=600)]
    measure: str | None = Field(None, description="measure that shows it; hoofsim list measures")
    see: list[str] = Field(default_factory=list, max_length=6, description="other terms")

    @model_validator(mode="after")
    def _measure_exists(self) -> "WrittenTerm":
        if self.measure is not None:
            check_measure(self.measure, ("measure",))
        return self


class GlossaryFile(Strict):
    """The file of terms."""

    hoofsim: Literal[1]
    kind: Literal["glossary"]
    terms: dict[Name, WrittenTerm] = Field(min_length=1)

    @model_validator(mode="after")
    def _links_hold(self) -> "GlossaryFile":
        owner: dict[str, str] = {}
        for word, entry in self.terms.items():
            for index, other in enumerate(entry.see):
                if other not in self.terms:
                    raise Misplaced(
                        ("terms", word, "see", index), f"no term '{other}'; {nearest(other, self.terms)}"
                    )
            for index, name in enumerate(entry.names):
                if owner.setdefault(name.lower(), word) != word:
                    raise Misplaced(
                        ("terms", word, "names", index),
                        f"'{name}' is already a name of '{owner[name.lower()]}'",
                    )
        return self


class Term(NamedTuple):
    """One term, ready to show."""

    id: str
    names: tuple[str, ...]
    meaning: str
    measure: str | None
    see: tuple[str, ...]

    @property
    def heading(self) -> str:
        """The name we use, and the others in brackets: "distal phalanx (P3, coffin bone, pedal bone)"."""
        others = ", ".join(self.names[1:])
        return f"{self.names[0]} ({others})" if others else self.names[0]


def load_glossary(document: Document) -> GlossaryFile:
    """The document as a glossary; BadInput with line and column for everything that is wrong."""
    kind_word(document, (GLOSSARY.name,))
    return validate(GlossaryFile, document)


def read_glossary(path: Path) -> dict[str, Term]:
    """The terms of a file, by id, in the order of their first name."""
    entries = load_glossary(read_file(path)).terms.items()
    terms = [
        Term(word, tuple(entry.names), " ".join(entry.meaning.split()), entry.measure, tuple(entry.see))
        for word, entry in entries
    ]
    return {one.id: one for one in sorted(terms, key=lambda one: one.names[0].lower())}


@cache
def glossary() -> Mapping[str, Term]:
    """The carried glossary."""
    return read_glossary(assets_folder() / "glossary.yaml")


def term(word: str) -> Term:
    """The term of that id, or with that name in any spelling of capitals; BadInput with the nearest otherwise."""
    terms = glossary()
    if word in terms:
        return terms[word]
    names = {name.lower(): one for one in terms.values() for name in one.names}
    if word.strip().lower() in names:
        return names[word.strip().lower()]
    raise BadInput(f"no term '{word}' in the glossary: {nearest(word.lower(), names)}")


GLOSSARY = Kind(
    "glossary",
    "Trade terms with every name in use, each explained in plain words.",
    GlossaryFile,
    load_glossary,
)
