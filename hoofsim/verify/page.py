"""The comparison as one HTML file: picture, table, and a paragraph for whatever is outside."""

from collections.abc import Sequence

from hoofsim.cautions import CAUTIONS, LIMITS
from hoofsim.reports.page import Bullets, Page, PageBlock, PagePicture, PageTable, Paragraph, Section
from hoofsim.reports.plot_style import image_bytes
from hoofsim.sources import SOURCES, STATUSES
from hoofsim.verify.compare import Comparison
from hoofsim.verify.figure import comparison_figure
from hoofsim.verify.findings import findings
from hoofsim.verify.referees.referee import Verdict
from hoofsim.verify.wording import COLUMNS, HOW_TO_READ, cells, groups, tally

REFEREE_COLUMNS = ("what", "found", "asked", "by", "verdict")


def comparison_page(rows: Sequence[Comparison], outcomes: Sequence[Verdict]) -> Page:
    """The whole page."""
    picture = PagePicture(
        image_bytes(comparison_figure(rows)), "Each published spread as a bar, the model as a mark on it."
    )
    tables: list[PageBlock] = [
        PageTable(name, [heading for heading, _ in COLUMNS], [cells(row) for row in members], numeric=(1, 2))
        for name, members in groups(rows).items()
    ]
    used = dict.fromkeys(row.published.source for row in rows)
    return Page(
        "The model against the outside world",
        [
            Section("In short", [Paragraph(tally(rows), strong=True), Paragraph(HOW_TO_READ), picture]),
            Section("Published values", tables),
            Section("Outside, and why", [Paragraph(text) for text in outside_words(rows)]),
            Section("Computed a second time, independently", [
                PageTable("Largest differences", REFEREE_COLUMNS, [one.cells for one in outcomes]),
            ]),
            Section("Limits", [Paragraph(LIMITS)]),
            Section("Cautions", [Bullets(CAUTIONS)]),
            Section("Sources", [
                Bullets([f"{one}: {SOURCES[one].what}. {SOURCES[one].citation} [{SOURCES[one].status}]" for one in used]),
                Bullets([f"{status}: {meaning}" for status, meaning in STATUSES.items()]),
            ]),
        ],
    )  # fmt: skip


def outside_words(rows: Sequence[Comparison]) -> list[str]:
    """A paragraph for each row outside, led by what it is about."""
    why = findings()
    return [
        f"{row.published.what}: {why.get(row.published.id, 'no paragraph is kept for this row.')}"
        for row in rows
        if not row.inside
    ]
