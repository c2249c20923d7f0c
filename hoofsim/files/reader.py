"""A strict reader of YAML: plain values, and where in the file each of them stands.

The subset is small on purpose, so that what a person sees is what is read: one document, no anchors or aliases, no
tags, no merge keys, no tabs, words as keys, each key once, numbers finite. `yes`, `on` and `12:30` are text, as in
YAML 1.2; only `true`/`false`, `null` and decimal numbers are more than text.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NoReturn

import yaml

from hoofsim.errors import BadInput
from hoofsim.plain_text import UNPRINTABLE, short_words

LARGEST_BYTES = 4_000_000  # the longest sitting
DEEPEST = 40
MOST_VALUES = 200_000
LONGEST_SHOWN = 40
SLOWLY_READ = 200_000
LONGEST_INTEGER = 15

Path_ = tuple[str | int, ...]
Position = tuple[int, int]

_BEGINS_A_NUMBER = frozenset("+-.0123456789")
_INTEGER = re.compile(r"[-+]?[0-9]+")
_DECIMAL = re.compile(r"[-+]?(?:[0-9]+\.[0-9]*|\.[0-9]+|[0-9]+)(?:[eE][-+]?[0-9]+)?")
_NOT_FINITE = re.compile(r"(?:[-+]?\.inf|\.nan)", re.IGNORECASE)
# The library's words for the slips that people make most, in words that tell what to do.
_CLEARER = {
    "mapping values are not allowed": "unexpected ':'; indent the line as its neighbours, or quote the text",
    "exceeded maximum nesting depth": f"nested deeper than {DEEPEST} levels",
    "did not find expected": "the indentation or the brackets do not fit the lines above",
    "expected <block end>, but found": "the indentation does not fit the lines above",
    "could not find expected ':'": "expected ':' after this key",
    "found character '%' that cannot start any token": "text that starts with '%' must be quoted",
    "found character '@' that cannot start any token": "text that starts with '@' must be quoted",
    "found character '`' that cannot start any token": "text that starts with '`' must be quoted",
    "found unexpected end of stream": "the quoted text is never closed",
}
_PLAIN_WORDS: dict[str, bool | None] = {"true": True, "false": False, "null": None, "~": None, "": None}


@dataclass(frozen=True)
class Document:
    """What was read: `name` of the file, `data` (plain values), and positions (line, column from 1) by path.

    `values[path]` is where a value starts and `keys[path]` where its key does; a path is a tuple of keys and indices.
    """

    name: str
    data: Any
    values: dict[Path_, Position] = field(default_factory=dict)
    keys: dict[Path_, Position] = field(default_factory=dict)

    def position(self, path: Path_) -> Position:
        """Where the value at `path` starts; for a path that does not exist, its nearest parent that does."""
        while path and path not in self.values:
            path = path[:-1]
        return self.values.get(path, (1, 1))

    def sentence(self, path: Path_, what: str, at_key: bool = False) -> str:
        """`what`, headed by file, line and column of the value (or of its key) at `path`."""
        line, column = self.keys[path] if at_key and path in self.keys else self.position(path)
        return f"{self.name}:{line}:{column}: {short_words(what)}"

    def error(self, path: Path_, what: str, at_key: bool = False) -> BadInput:
        """A BadInput that says `what` about the value at `path`, to be raised by the caller."""
        return BadInput(self.sentence(path, what, at_key))


class _Refused(yaml.MarkedYAMLError):
    """A construct that YAML has and this subset leaves out."""


def _refuse(mark: Any, what: str) -> NoReturn:
    raise _Refused(problem=what, problem_mark=mark)


_FAST = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the library's quick half is not everywhere


def read_text(text: str, name: str) -> Document:
    """The single document in `text`; BadInput with `name`, line and column when it is not in the subset."""
    tab = text.find("\t")
    if tab >= 0:
        line = text.count("\n", 0, tab) + 1
        column = tab - (text.rfind("\n", 0, tab) + 1) + 1
        raise BadInput(f"{name}:{line}:{column}: a tab is not allowed; indent with spaces")
    try:
        return _composed(text, name)
    except UnicodeEncodeError as error:
        raise BadInput(
            f"{name}: holds half a letter (U+{ord(text[error.start]):04X}); save the file as UTF-8"
        ) from None
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        where = f"{mark.line + 1}:{mark.column + 1}" if mark else "1:1"
        problem = error.problem or "not YAML"
        words = next((clear for known, clear in _CLEARER.items() if known in problem), problem)
        raise BadInput(f"{name}:{where}: {words}") from None
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + 1
        column = error.position - (text.rfind("\n", 0, error.position) + 1) + 1
        code = error.character if isinstance(error.character, int) else ord(error.character)
        raise BadInput(
            f"{name}:{line}:{column}: character U+{code:04X} is not allowed in a text file"
        ) from None


def _composed(text: str, name: str) -> Document:
    """The document, read by the quick parser; where it refuses a file of usual size, the slow one says why and where."""
    try:
        return _Composer(name, yaml.parse(text, Loader=_FAST)).document()
    except _Refused:
        raise
    except yaml.YAMLError as error:
        if len(text) > SLOWLY_READ or "nesting depth" in str(error):
            raise
        return _Composer(name, yaml.parse(text, Loader=yaml.SafeLoader)).document()


def read_file(path: Path | str) -> Document:
    """The single document in a UTF-8 file of at most 4 MB; BadInput naming the file if it cannot be read."""
    path = Path(path)
    try:
        if path.is_dir():
            raise BadInput(f"{path}: is a folder; expected a .yaml file")
        if not path.exists():
            raise BadInput(f"{path}: no such file")
        if not path.is_file():
            raise BadInput(f"{path}: is not an ordinary file; expected a .yaml file")
        with path.open("rb") as stream:
            content = stream.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:  # a name may hold what no system takes
        raise BadInput(f"{path}: cannot be read: {getattr(error, 'strerror', None) or error}") from None
    if len(content) > LARGEST_BYTES:
        raise BadInput(f"{path}: larger than {LARGEST_BYTES} bytes; expected a smaller file")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        column = error.start - (content.rfind(b"\n", 0, error.start) + 1) + 1
        raise BadInput(f"{path}:{line}:{column}: not UTF-8 text; save the file as UTF-8") from None
    return read_text(text, str(path))


class _Composer:
    """Plain values straight from parsing events: nothing is constructed by tag, and positions are noted on the way."""

    def __init__(self, name: str, events: Iterator[Any]) -> None:
        self.events, self.read = events, Document(name, None)
        self.count = 0

    def document(self) -> Document:
        """The only document of the stream (no value at all when it is empty)."""
        next(self.events)
        event = next(self.events)
        if isinstance(event, yaml.StreamEndEvent):
            return self.read
        data = self._value(next(self.events), ())
        next(self.events)
        after = next(self.events)
        if not isinstance(after, yaml.StreamEndEvent):
            _refuse(after.start_mark, "a second document starts here; expected a single document")
        return Document(self.read.name, data, self.read.values, self.read.keys)

    def _value(self, event: Any, path: Path_) -> Any:
        """The value that begins with `event`; where it stands is noted under `path`."""
        mark = self._admitted(event)
        if len(path) >= DEEPEST:
            _refuse(mark, f"nested deeper than {DEEPEST} levels")
        self.read.values[path] = (mark.line + 1, mark.column + 1)
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(path)
        if isinstance(event, yaml.SequenceStartEvent):
            items: list[Any] = []
            while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
                items.append(self._value(event, (*path, len(items))))
            return items
        return _scalar(event)

    def _admitted(self, event: Any) -> Any:
        """The mark of a value that begins, after refusing aliases, anchors, tags and too many values."""
        mark = event.start_mark
        if isinstance(event, yaml.AliasEvent):
            _refuse(mark, f"alias '*{_short(str(event.anchor))}' is not allowed; write the value out")
        if event.anchor:
            _refuse(mark, f"anchor '&{_short(event.anchor)}' is not allowed; write the value out")
        if event.tag is not None:
            _refuse(mark, f"tag '{_short(event.tag)}' is not allowed; write the plain value")
        self.count += 1
        if self.count > MOST_VALUES:
            _refuse(mark, f"more than {MOST_VALUES} values; expected a smaller file")
        return mark

    def _mapping(self, path: Path_) -> dict[str, Any]:
        """Keys, each a plain word not yet used in this mapping, with their values."""
        mapping: dict[str, Any] = {}
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            mark = self._admitted(event)
            found = _scalar(event) if isinstance(event, yaml.ScalarEvent) else None
            if not isinstance(found, str):
                _refuse(mark, "a key must be a word")
            if found == "<<":
                _refuse(mark, "merge key '<<' is not allowed; write the keys out")
            if found in mapping:
                _refuse(mark, f"key '{_short(found)}' is given twice; keep one")
            at = (*path, found)
            self.read.keys[at] = (mark.line + 1, mark.column + 1)
            mapping[found] = self._value(next(self.events), at)
        return mapping


def _scalar(event: Any) -> str | int | float | bool | None:
    """A scalar: text when quoted or a block, otherwise the YAML 1.2 core meaning in decimal."""
    text = str(event.value)
    odd = UNPRINTABLE.search(text)
    if odd:
        _refuse(
            event.start_mark, f"the text holds the character U+{ord(odd[0]):04X}, which no text file can show"
        )
    if event.style:
        return text
    if text.lower() in _PLAIN_WORDS and text in (text.lower(), text.capitalize(), text.upper()):
        return _PLAIN_WORDS[text.lower()]
    if text[0] not in _BEGINS_A_NUMBER:
        return text
    if _INTEGER.fullmatch(text):
        if len(text.lstrip("+-")) > LONGEST_INTEGER:
            _refuse(event.start_mark, f"number of more than {LONGEST_INTEGER} digits")
        return int(text)
    if _NOT_FINITE.fullmatch(text) or (_DECIMAL.fullmatch(text) and not math.isfinite(float(text))):
        _refuse(event.start_mark, f"'{_short(text)}' is not a finite number")
    return float(text) if _DECIMAL.fullmatch(text) else text


def _short(text: str) -> str:
    """A word of the file, short enough for a sentence."""
    return text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 3] + "..."
