"""The kinds of file the program reads, and the header every one of them starts with."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from hoofsim.errors import BadInput, nearest
from hoofsim.files.reader import Document
from hoofsim.files.typed import Strict, shown

FORMAT_VERSION = 1


@dataclass(frozen=True)
class Kind:
    """One kind of file: its word after `kind:`, one sentence, its model, and `load` (typed and checked in full).

    `examine(loaded, document)`, where a kind has it, finds what is well written and yet amiss, one sentence each.
    """

    name: str
    sentence: str
    model: type[Strict]
    load: Callable[[Document], Any]
    examine: Callable[[Any, Document], list[str]] | None = None


def kind_word(document: Document, known: Iterable[str]) -> str:
    """The document's kind, after checking its header; BadInput saying what the first two keys must be."""
    data = document.data
    words = list(known)
    if not isinstance(data, dict) or "hoofsim" not in data:
        raise document.error(
            (), f"this is no hoofsim file; expected 'hoofsim: {FORMAT_VERSION}' as its first key"
        )
    version = data["hoofsim"]
    if isinstance(version, bool) or version != FORMAT_VERSION:
        later = isinstance(version, int) and version > FORMAT_VERSION
        hint = "; it needs a newer hoofsim" if later else ""
        raise document.error(
            ("hoofsim",), f"format version {shown(version)} is unknown; expected {FORMAT_VERSION}{hint}"
        )
    if "kind" not in data:
        raise document.error((), f"key 'kind' is missing; expected one of {', '.join(words)}")
    word = data["kind"]
    if word not in words:
        raise document.error(("kind",), f"unknown kind {shown(word)}; {nearest(str(word), words)}")
    return str(word)


def json_schema(kind: Kind) -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a kind of file, for an editor that completes and checks while typing."""
    schema = kind.model.model_json_schema(by_alias=True)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **schema,
        "title": f"hoofsim {kind.name}",
        "description": kind.sentence,
    }


def kind_named(name: str, kinds: Mapping[str, Kind]) -> Kind:
    """The kind of that name; BadInput naming the nearest when there is none."""
    if name not in kinds:
        raise BadInput(f"unknown kind '{name}': {nearest(name, kinds)}")
    return kinds[name]
