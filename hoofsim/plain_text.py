"""Text that came from a person, made safe for what is written: tables that a spreadsheet opens, pictures and pages."""

import csv
import io
import re
from collections.abc import Iterable, Sequence

# Control signs and halves of letters, which a quoted escape or a broken file can smuggle in; no picture, table or page
# can hold them. Line ends and tabs stay.
UNPRINTABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")
LONGEST_WORD = 60
_ENDLESS = re.compile(rf"\S{{{LONGEST_WORD + 4},}}")
# Spreadsheets take a cell that begins so for a formula.
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\N{FULLWIDTH EQUALS SIGN}", "\N{FULLWIDTH COMMERCIAL AT}",
                  "\N{FULLWIDTH PLUS SIGN}", "\N{FULLWIDTH HYPHEN-MINUS}")  # fmt: skip


def printable(text: str) -> str:
    """The text without signs that no page can hold."""
    return UNPRINTABLE.sub("", text)


def short_words(text: str) -> str:
    """A sentence with every endless word cut, so that what somebody wrote cannot bury what is said about it."""
    return _ENDLESS.sub(lambda match: f"{match[0][:LONGEST_WORD]}...", text)


def csv_lines(rows: Iterable[Sequence[object]]) -> str:
    """Rows as CSV with plain line ends; cells that a spreadsheet would run as a formula are made plain text."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerows([neutral(str(cell)) for cell in row] for row in rows)
    return stream.getvalue()


def neutral(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula: an apostrophe is put before what could be one. Numbers stay."""
    if not cell.lstrip().startswith(FORMULA_STARTS) and not cell.startswith(FORMULA_STARTS):
        return cell
    try:
        float(cell)
    except ValueError:
        return f"'{cell}"
    return cell
