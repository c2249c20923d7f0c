"""A strict reader of YAML: plain values, and where in the file each of them stands.

The subset is small on purpose, so that what a person sees is what is read: one document, no anchors or aliases, no
tags, no merge keys, no tabs, words as keys, each key once, numbers finite. `yes`, `on` and `12:30` are text, as in
YAML 1.2; only `true`/`false`, `null` and decimal numbers are more than text.
"""

import math
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NoReturn

import yaml

from hoofsim.errors import BadInput

LARGEST_BYTES = 1_000_000
DEEPEST = 40
LONGEST_INTEGER = 15

Path_ = tuple[str | int, ...]
Position = tuple[int, int]

_INTEGER = re.compile(r"[-+]?[0-9]+")
_DECIMAL = re.compile(r"[-+]?(?:[0-9]+\.[0-9]*|\.[0-9]+|[0-9]+)(?:[eE][-+]?[0-9]+)?")
_NOT_FINITE = re.compile(r"(?:[-+]?\.inf|\.nan)", re.IGNORECASE)
# The library's words for the slips that people make most, in words that tell what to do.
_CLEARER = {
    "mapping values are not allowed here": "unexpected ':'; indent the line as its neighbours, or quote the text",
    "expected <block end>, but found": "the indentation does not fit the lines above",
    "could not find expected ':'": "expected ':' after this key",
    "found character '%' that cannot start any token": "text that starts with '%' must be quoted",
    "found character '@' that cannot start any token": "text that starts with '@' must be quoted",
    "found character '`' that cannot start any token": "text that starts with '`' must be quoted",
    "found unexpected end of stream": "the quoted text is never closed",
    "but found another document": "a second document starts here; expected a single document",
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
        return f"{self.name}:{line}:{column}: {what}"

    def error(self, path: Path_, what: str, at_key: bool = False) -> BadInput:
        """A BadInput that says `what` about the value at `path`, to be raised by the caller."""
        return BadInput(self.sentence(path, what, at_key))


class _Loader(yaml.SafeLoader):
    """Composes nodes only (nothing is ever constructed by tag) and refuses the constructs left out above."""

    yaml_implicit_resolvers: dict[str, list[tuple[str, re.Pattern[str]]]] = {}  # noqa: RUF012 (the library's own)

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.depth = 0

    def compose_node(self, parent: yaml.Node | None, index: int) -> yaml.Node | None:
        """One node, after checking depth, aliases, anchors and tags."""
        event = self.peek_event()  # type: ignore[no-untyped-call]
        if isinstance(event, yaml.AliasEvent):
            _refuse(event.start_mark, f"alias '*{event.anchor}' is not allowed; write the value out")
        if getattr(event, "anchor", None):
            _refuse(event.start_mark, f"anchor '&{event.anchor}' is not allowed; write the value out")
        if getattr(event, "tag", None) is not None:
            _refuse(event.start_mark, f"tag '{event.tag}' is not allowed; write the plain value")
        self.depth += 1
        if self.depth > DEEPEST:
            _refuse(event.start_mark, f"nested deeper than {DEEPEST} levels")
        node = super().compose_node(parent, index)
        self.depth -= 1
        return node


def _refuse(mark: Any, what: str) -> NoReturn:
    raise yaml.MarkedYAMLError(problem=what, problem_mark=mark)


def read_text(text: str, name: str) -> Document:
    """The single document in `text`; BadInput with `name`, line and column when it is not in the subset."""
    tab = text.find("\t")
    if tab >= 0:
        line = text.count("\n", 0, tab) + 1
        column = tab - (text.rfind("\n", 0, tab) + 1) + 1
        raise BadInput(f"{name}:{line}:{column}: a tab is not allowed; indent with spaces")
    document = Document(name, None)
    try:
        node = _Loader(text).get_single_node()
        data = None if node is None else _plain(node, (), document)
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
    return Document(name, data, document.values, document.keys)


def read_file(path: Path | str) -> Document:
    """The single document in a file of at most 1 MB of UTF-8; BadInput naming the file when it cannot be read."""
    path = Path(path)
    if path.is_dir():
        raise BadInput(f"{path}: is a folder; expected a .yaml file")
    if not path.exists():
        raise BadInput(f"{path}: no such file")
    if not path.is_file():
        raise BadInput(f"{path}: is not an ordinary file; expected a .yaml file")
    try:
        with path.open("rb") as stream:
            content = stream.read(LARGEST_BYTES + 1)
    except OSError as error:
        raise BadInput(f"{path}: cannot be read: {error.strerror or error}") from None
    if len(content) > LARGEST_BYTES:
        raise BadInput(f"{path}: larger than {LARGEST_BYTES} bytes; expected a file written by a person")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        column = error.start - (content.rfind(b"\n", 0, error.start) + 1) + 1
        raise BadInput(f"{path}:{line}:{column}: not UTF-8 text; save the file as UTF-8") from None
    return read_text(text, str(path))


def _plain(node: yaml.Node, path: Path_, document: Document) -> Any:
    """Plain value of a node, its position and those of everything under it written into `document`."""
    document.values[path] = (node.start_mark.line + 1, node.start_mark.column + 1)
    if isinstance(node, yaml.MappingNode):
        mapping: dict[str, Any] = {}
        for key_node, value_node in node.value:
            key = _key(key_node, mapping)
            document.keys[(*path, key)] = (key_node.start_mark.line + 1, key_node.start_mark.column + 1)
            mapping[key] = _plain(value_node, (*path, key), document)
        return mapping
    if isinstance(node, yaml.SequenceNode):
        return [_plain(child, (*path, index), document) for index, child in enumerate(node.value)]
    return _scalar(node)


def _key(node: yaml.Node, mapping: dict[str, Any]) -> str:
    """The key, which must be a plain word not yet used in this mapping."""
    if not isinstance(node, yaml.ScalarNode) or not isinstance(_scalar(node), str):
        _refuse(node.start_mark, "a key must be a word")
    key = str(node.value)
    if key == "<<":
        _refuse(node.start_mark, "merge key '<<' is not allowed; write the keys out")
    if key in mapping:
        _refuse(node.start_mark, f"key '{key}' is given twice; keep one")
    return key


def _scalar(node: yaml.Node) -> str | int | float | bool | None:
    """A scalar: text when quoted or a block, otherwise the YAML 1.2 core meaning in decimal."""
    text = str(node.value)
    if getattr(node, "style", None) is not None:
        return text
    if text.lower() in _PLAIN_WORDS and text in (text.lower(), text.capitalize(), text.upper()):
        return _PLAIN_WORDS[text.lower()]
    if _INTEGER.fullmatch(text):
        if len(text.lstrip("+-")) > LONGEST_INTEGER:
            _refuse(node.start_mark, f"number of more than {LONGEST_INTEGER} digits")
        return int(text)
    if _NOT_FINITE.fullmatch(text) or (_DECIMAL.fullmatch(text) and not math.isfinite(float(text))):
        _refuse(node.start_mark, f"'{text}' is not a finite number")
    return float(text) if _DECIMAL.fullmatch(text) else text
