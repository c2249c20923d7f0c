"""Running text with headings, lists, bold, italic and links, from a few marks that are easy to type.

`# heading` (any number of `#`), `- item`, `1. item`, blank line between paragraphs, `**bold**`, `*italic*`, `` `code` ``,
`[words](target)`.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pygame

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.button import ACTIVATING_KEYS
from hoofsim.app.widgets.painter import Painter

_MARKS = re.compile(
    r"\*\*(?P<bold>.+?)\*\*|\*(?P<italic>.+?)\*|`(?P<code>.+?)`|\[(?P<words>.+?)\]\((?P<target>.+?)\)"
)
_LINE = re.compile(r"(?:(?P<heading>#+)|-|(?P<number>\d+\.)) (?P<words>.*)")


@dataclass(frozen=True)
class Span:
    """Text of one role; `link` is where it leads, if anywhere."""

    text: str
    role: str = "body"
    link: str | None = None


@dataclass(frozen=True)
class Block:
    """A heading, a paragraph or an item of a list."""

    kind: str
    spans: tuple[Span, ...]
    sign: str = "•"  # before an item


@dataclass(frozen=True)
class PlacedSpan:
    """A piece of one line: its rectangle relative to the text's top left corner."""

    span: Span
    rect: tuple[int, int, int, int]


def parse(text: str) -> list[Block]:
    """Blocks of the marked text."""
    blocks = []
    for chunk in re.split(r"\n\s*\n", text.strip()):
        gathered: list[tuple[str, str, str]] = []  # kind, sign, words
        for line in chunk.splitlines():
            stripped = line.strip()
            marked = _LINE.match(stripped)
            if marked and marked["heading"]:
                gathered.append(("heading", "", marked["words"]))
            elif marked:
                gathered.append(("item", marked["number"] or "•", marked["words"]))
            elif gathered and gathered[-1][0] != "heading":
                kind, sign, words = gathered[-1]
                gathered[-1] = (kind, sign, f"{words} {stripped}")
            else:
                gathered.append(("paragraph", "", stripped))
        blocks += [
            Block(kind, spans(words, "heading" if kind == "heading" else "body"), sign)
            for kind, sign, words in gathered
        ]
    return blocks


def spans(line: str, role: str = "body") -> tuple[Span, ...]:
    """Spans of one line of marked text."""
    found, last = [], 0
    for match in _MARKS.finditer(line):
        if match.start() > last:
            found.append(Span(line[last : match.start()], role))
        if match["words"]:
            found.append(Span(match["words"], role, match["target"]))
        else:
            kind = next(name for name in ("bold", "italic", "code") if match[name])
            found.append(Span(match[kind], kind))
        last = match.end()
    if last < len(line):
        found.append(Span(line[last:], role))
    return tuple(found)


def place_blocks(blocks: Sequence[Block], width: int, theme: Theme) -> tuple[list[PlacedSpan], int]:
    """Where every piece of every line goes in a column of `width` pixels, and the height used."""
    placed: list[PlacedSpan] = []
    y = 0
    for index, block in enumerate(blocks):
        if index:
            y += theme.px(0.25 if block.kind == "item" else 0.7)
        sign = theme.text_width(block.sign)
        indent = max(theme.px(1.2), theme.px(0.6) + sign) if block.kind == "item" else 0
        height = theme.line_height("heading" if block.kind == "heading" else "body")
        if block.kind == "item":
            placed.append(PlacedSpan(Span(block.sign), (theme.px(0.3), y, sign, height)))
        y = _place_words(placed, _words(block.spans), indent, y, height, width, theme)
        y += height
    return placed, y


def _place_words(
    placed: list[PlacedSpan],
    words: Sequence[tuple[Span, str]],
    indent: int,
    y: int,
    height: int,
    width: int,
    theme: Theme,
) -> int:
    """Add the words of one block to `placed`; words of one look are kept together, as one piece of the line.

    Returns the top of the block's last line. A piece is measured whole, since letters are set closer in company.
    """
    x = start = indent
    joined = ""  # what stands in the piece that is being added to, which begins at `start`
    look: Span | None = None
    for span, word in words:
        same = look is not None and (look.role, look.link) == (span.role, span.link)
        if not same:
            start, joined = x, ""
        reach = start + theme.text_width((joined + word).rstrip(), span.role)
        if reach > width and x > indent:
            x = start = indent
            y, joined, same = y + height, "", False
            word = word.lstrip()
        joined += word
        x = start + theme.text_width(joined, span.role)
        piece = PlacedSpan(Span(joined, span.role, span.link), (start, y, x - start, height))
        if same:
            placed[-1] = piece
        else:
            placed.append(piece)
        look = span
    return y


def _words(parts: Sequence[Span]) -> list[tuple[Span, str]]:
    """Words with the space after them, so that a line breaks between words and never inside one."""
    return [(span, word) for span in parts for word in re.findall(r"\s*\S+\s*|\s+", span.text)]


class Link(Widget):
    """The pieces of one link: pressed with the pointer or, when focused, with Enter."""

    focusable = True

    def __init__(self, span: Span, follow: Callable[[str], None]) -> None:
        super().__init__(span.text.strip())
        self.target = span.link or ""
        self.follow = follow

    def press(self, position: tuple[int, int], theme: Theme, double: bool = False) -> bool:
        """Follow at once."""
        self.follow(self.target)
        return False

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Enter and Space follow."""
        if event.key in ACTIVATING_KEYS:
            self.follow(self.target)
            return True
        return False


class RichText(Widget):
    """Marked text in a column; `follow(target)` is called when a link is used."""

    def __init__(self, text: str, follow: Callable[[str], None] | None = None, colour: str = "ink") -> None:
        super().__init__("text")
        self.blocks = parse(text)
        self.follow = follow or (lambda target: None)
        self.colour = colour
        self._placed: list[PlacedSpan] = []
        self._kept: dict[tuple[int, Theme], tuple[list[PlacedSpan], int]] = {}
        self._links: list[Link] = []

    def height_for(self, width: int, theme: Theme) -> int:
        """Height of the wrapped text."""
        return self._wrapped(width, theme)[1]

    def _wrapped(self, width: int, theme: Theme) -> tuple[list[PlacedSpan], int]:
        """Wrapping for a width, kept: a page that scrolls is placed again at every step."""
        key = (width, theme)
        if key not in self._kept:
            self._kept = {key: place_blocks(self.blocks, width, theme), **dict(list(self._kept.items())[:1])}
        return self._kept[key]

    def place(self, rect: Rect, theme: Theme) -> None:
        """Wrap to the rectangle and put a link widget over every linked piece."""
        super().place(rect, theme)
        self._placed, _ = self._wrapped(rect.w, theme)
        linked = [piece for piece in self._placed if piece.span.link]
        if len(linked) != len(self._links):
            self._links = [Link(piece.span, self.follow) for piece in linked]
        for link, piece in zip(self._links, linked, strict=True):
            link.rect = Rect(piece.rect).move(rect.topleft)
            link.clip = self.clip

    def children(self) -> Sequence[Widget]:
        """The links."""
        return self._links

    def draw(self, painter: Painter) -> None:
        """Every piece; links underlined."""
        for piece in self._placed:
            rect = Rect(piece.rect).move(self.rect.topleft)
            linked = piece.span.link is not None
            painter.text(piece.span.text, rect, piece.span.role, "accent" if linked else self.colour)
            if linked:
                y = rect.bottom - painter.theme.px(0.15)
                painter.line((rect.x, y), (rect.right, y), "accent", painter.theme.hairline)
