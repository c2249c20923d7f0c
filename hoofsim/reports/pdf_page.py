"""A report as a PDF on A4, set with the program's typeface through matplotlib; it runs on when one page is too few."""

import io
from collections.abc import Sequence
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from hoofsim.drawing.palette import INK
from hoofsim.reports.page import Bullets, Page, PageBlock, PagePicture, PageTable, Paragraph
from hoofsim.reports.plot_style import QUIET, shared_style

if TYPE_CHECKING:
    from matplotlib.backends.backend_pdf import PdfPages
    from matplotlib.figure import Figure

WIDTH, HEIGHT, MARGIN = 8.27, 11.69, 0.7
_POINT = 1.0 / 72.0
_LEADING = 1.38
_ASCENT = 0.95  # from a line's top to the line its letters stand on, as a share of the type size
_CELL_LEADING, _CELL_GAP = 1.3, 0.12
_CHARACTER = 0.5  # mean width of a character, as a share of the type size
_WARNING = "#96190f"


class _Sheet:
    """Pages filled from the top; `room` makes a new page when less than so many inches are left."""

    def __init__(self, pages: "PdfPages", footer: str) -> None:
        self.pages, self.footer = pages, footer
        self.figure: Figure | None = None
        self.left_over = 0.0

    def room(self, inches: float) -> "Figure":
        """A page with at least `inches` left (or a fresh one)."""
        from matplotlib.figure import Figure

        if self.figure is None or (inches > self.left_over and self.left_over < HEIGHT - 2 * MARGIN):
            self.close()
            self.figure = Figure(figsize=(WIDTH, HEIGHT), facecolor="#ffffff")
            self.left_over = HEIGHT - 2 * MARGIN
            self.figure.text(MARGIN / WIDTH, 0.35 / HEIGHT, self.footer, fontsize=7, color=QUIET)
        return self.figure

    def close(self) -> None:
        """Put the page away."""
        if self.figure is not None:
            self.pages.savefig(self.figure)  # type: ignore[no-untyped-call]

    def skip(self, inches: float) -> None:
        """Leave space."""
        self.left_over -= inches

    @property
    def y(self) -> float:
        """Height of the next line's top, as a share of the page."""
        return (MARGIN + self.left_over) / HEIGHT

    def write(self, x: float, text: str, size: float, down: float = 0.0, **look: Any) -> None:
        """One line whose letters stand level with all others `down` inches below the next line's top; x in inches."""
        y = self.y - (down + _ASCENT * size * _POINT) / HEIGHT
        self.room(0.0).text(x / WIDTH, y, text, fontsize=size, va="baseline", parse_math=False, **look)

    def lines(
        self,
        text: str,
        size: float,
        colour: str = INK,
        weight: int = 400,
        indent: float = 0.0,
        mark: str = "",
    ) -> None:
        """Wrapped text."""
        width = WIDTH - 2 * MARGIN - indent
        for number, line in enumerate(wrap(text, int(width / (size * _POINT * _CHARACTER))) or [""]):
            step = size * _POINT * _LEADING
            self.room(step)
            if mark and number == 0:
                self.write(MARGIN + indent - 0.14, mark, size, color=colour)
            self.write(MARGIN + indent, line, size, color=colour, fontweight=weight)
            self.skip(step)


def pdf(page: Page) -> bytes:
    """The whole document."""
    from matplotlib.backends.backend_pdf import PdfPages

    stream = io.BytesIO()
    with shared_style(), PdfPages(stream, metadata={"Title": page.title, "CreationDate": None}) as pages:
        sheet = _Sheet(pages, page.title)
        sheet.lines(page.title, 16, weight=600)
        sheet.skip(0.08)
        if page.label:
            sheet.lines(page.label, 9.5, _WARNING, 600)
        for section in page.sections:
            sheet.room(0.9)
            sheet.skip(0.12)
            sheet.lines(section.heading, 11, weight=600)
            for block in section.blocks:
                _block(sheet, block)
        sheet.close()
    return stream.getvalue()


def _block(sheet: _Sheet, block: PageBlock) -> None:
    if isinstance(block, Paragraph):
        sheet.lines(block.text, 9.5 if block.strong else 9, weight=600 if block.strong else 400)
        sheet.skip(0.06)
    elif isinstance(block, Bullets):
        for item in block.items:
            sheet.lines(item, 7.8, indent=0.16, mark="\N{BULLET}")
        sheet.skip(0.04)
    elif isinstance(block, PagePicture):
        _picture(sheet, block)
    else:
        _table(sheet, block)


def _picture(sheet: _Sheet, picture: PagePicture) -> None:
    from matplotlib import image

    pixels = image.imread(io.BytesIO(picture.png), format="png")
    width = WIDTH - 2 * MARGIN
    height = min(width * pixels.shape[0] / pixels.shape[1], HEIGHT - 2 * MARGIN - 0.5)
    figure = sheet.room(height + 0.1)
    bottom = sheet.y - height / HEIGHT
    axes = figure.add_axes((MARGIN / WIDTH, bottom, width / WIDTH, height / HEIGHT))
    axes.imshow(pixels, aspect="auto" if height < width * pixels.shape[0] / pixels.shape[1] else "equal")
    axes.set_axis_off()
    sheet.skip(height + 0.1)


def _table(sheet: _Sheet, table: PageTable) -> None:
    sheet.lines(table.caption, 8, QUIET)
    size = 7.2
    widths = _widths([table.head, *table.rows])
    for number, row in enumerate([table.head, *table.rows]):
        cells = [wrap(cell, max(int(width / (size * _POINT * _CHARACTER)) - 1, 4)) or [""]
                 for cell, width in zip(row, widths, strict=True)]  # fmt: skip
        step = size * _POINT * _CELL_LEADING
        height = max(len(cell) for cell in cells) * step + 0.03
        sheet.room(height)
        x = MARGIN
        for at, (cell, width) in enumerate(zip(cells, widths, strict=True)):
            right = at in table.numeric
            look = {"ha": "right" if right else "left", "fontweight": 600 if number == 0 else 400}
            for row_of_cell, line in enumerate(cell):
                sheet.write(
                    x + (width - _CELL_GAP if right else 0.0),
                    line,
                    size,
                    row_of_cell * step,
                    color=INK,
                    **look,
                )
            x += width
        sheet.skip(height)
    sheet.skip(0.08)


def _widths(rows: Sequence[Sequence[str]]) -> list[float]:
    """Column widths in inches: no narrower than the longest word, and no wordy column starves the others."""
    wanted = []
    for at in range(len(rows[0])):
        cells = [row[at] for row in rows]
        word = max(len(word) for cell in cells for word in (cell.split() or [""]))
        wanted.append(max(word + 4.0, min(max(map(len, cells)), 20) + 1.0))
    return [(WIDTH - 2 * MARGIN) * one / sum(wanted) for one in wanted]
