"""What a one-page report holds, free of any format: headings, paragraphs, tables, pictures, cautions and sources."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hoofsim.cautions import CAUTIONS, LIMITS
from hoofsim.measures import MEASURES, NOT_IN_A_SAGITTAL_VIEW
from hoofsim.sources import SOURCES


@dataclass(frozen=True)
class Paragraph:
    """Running text; `strong` for the sentence to be read first."""

    text: str
    strong: bool = False


@dataclass(frozen=True)
class PageTable:
    """A table with a caption. Columns of numbers are named in `numeric` by index and set to the right."""

    caption: str
    head: Sequence[str]
    rows: Sequence[Sequence[str]]
    numeric: Sequence[int] = ()


@dataclass(frozen=True)
class PagePicture:
    """A PNG with the words that stand for it where it cannot be seen."""

    png: bytes
    words: str


@dataclass(frozen=True)
class Bullets:
    """A list of short sentences."""

    items: Sequence[str]


PageBlock = Paragraph | PageTable | PagePicture | Bullets


@dataclass(frozen=True)
class Section:
    """Blocks under one heading."""

    heading: str
    blocks: Sequence[PageBlock]


@dataclass(frozen=True)
class Page:
    """One report. `label` is a warning that stands above everything, such as that the data are invented."""

    title: str
    sections: Sequence[Section]
    label: str = ""


def closing_sections(measures: Iterable[str]) -> list[Section]:
    """What every report ends with: the measures' meaning, the limits, the cautions, the sources."""
    shown = [MEASURES[name] for name in dict.fromkeys(measures)]
    meanings = [f"{one.label}: {one.definition} ({one.sign})" for one in shown]
    ids = dict.fromkeys(
        source
        for one in shown
        for source in (one.source, one.reference.source if one.reference else one.source)
    )
    cited = [SOURCES[name] for name in (*ids, "R9") if name in SOURCES]
    return [
        Section("What the measures are", [Bullets(meanings)]),
        Section("Limits", [Paragraph(f"{NOT_IN_A_SAGITTAL_VIEW} {LIMITS}")]),
        Section("Cautions", [Bullets(list(CAUTIONS))]),
        Section(
            "Sources",
            [
                Bullets(
                    [f"{one.id}: {one.what}. {one.citation} [{one.status}]" for one in dict.fromkeys(cited)]
                )
            ],
        ),
    ]
