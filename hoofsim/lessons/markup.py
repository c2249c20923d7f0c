"""The small markup of lesson texts: bold, links to the glossary, and live values that the solver gives when played.

`**bold**`, `[words](term:distal_phalanx)`, and values in braces: `{measure:tip_to_frog}` (now, on the step's foot),
`{measure:tip_to_frog@raised}` (on a named foot), `{change:tendon_tension@raised}` (that foot against the first one),
`{control:heel_change_mm}`, `{predicted:guess_heel}` (the learner's own answer) and `{outcome:guess_heel}`. Nothing else
in braces is allowed, and nothing is evaluated. What comes out is plain marked text: bold and links, values filled in.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from hoofsim.errors import nearest

_BRACES = re.compile(r"\{[^{}]*\}|[{}]")
_VALUE = re.compile(r"\{([a-z_]+):([a-z0-9_-]+)(?:@([a-z0-9_-]+))?\}")
_MARKS = re.compile(r"\*\*(?P<bold>[^*]+?)\*\*|\[(?P<words>[^\[\]]+?)\]\((?P<target>[^()\s]+?)\)")
VALUE_KINDS = ("measure", "change", "control", "predicted", "outcome")
TERM = "term:"


@dataclass(frozen=True)
class Value:
    """One live value: its kind, the name it speaks of, and the foot it is taken on (None: the step's own)."""

    kind: str
    name: str
    foot: str | None


@dataclass(frozen=True)
class TextRun:
    """A run of text: bold or not, and the glossary term it links to, if any."""

    text: str
    bold: bool = False
    term: str | None = None


def values(text: str) -> Iterator[Value]:
    """The live values of a text; ValueError with one sentence for braces that are none."""
    for found in _BRACES.finditer(text):
        match = _VALUE.fullmatch(found[0])
        if match is None:
            raise ValueError(
                f"'{found[0][:40]}' is no live value; write such as {{measure:tip_to_frog}} or {{measure:tip_to_frog@start}}"
            )
        if match[1] not in VALUE_KINDS:
            raise ValueError(f"unknown value '{match[1]}'; {nearest(match[1], VALUE_KINDS)}")
        yield Value(match[1], match[2], match[3])


def fill(text: str, give: Callable[[Value], str]) -> str:
    """The text with every live value replaced by what `give` says of it; bold and links stay as marks."""
    return _VALUE.sub(lambda match: give(Value(match[1], match[2], match[3])), text)


def spans(text: str) -> list[TextRun]:
    """The filled text as runs, for a backend that draws them."""
    found, last = [], 0
    for match in _MARKS.finditer(text):
        if match.start() > last:
            found.append(TextRun(text[last : match.start()]))
        if match["bold"] is not None:
            found.append(TextRun(match["bold"], bold=True))
        elif match["target"].startswith(TERM):
            found.append(TextRun(match["words"], term=match["target"].removeprefix(TERM)))
        else:
            found.append(TextRun(match["words"]))
        last = match.end()
    if last < len(text):
        found.append(TextRun(text[last:]))
    return found


def links(text: str) -> list[tuple[str, str]]:
    """(words, target) of every link, in order."""
    return [
        (match["words"], match["target"]) for match in _MARKS.finditer(text) if match["words"] is not None
    ]


def plain(text: str) -> str:
    """The text without its marks, for a reader or a measure of reading level."""
    return "".join(span.text for span in spans(text))
