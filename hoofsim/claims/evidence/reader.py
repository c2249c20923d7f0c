"""Read an evidence table: CSV, every refusal with row and column, and nothing taken over unless all of it is good."""

import csv
import io
import math
from collections.abc import Mapping
from pathlib import Path
from typing import Literal

import numpy as np

from hoofsim.claims.evidence.columns import (
    LANDMARKS,
    MARKS,
    REQUIRED_LANDMARKS,
    all_columns,
    point_columns,
)
from hoofsim.claims.evidence.film import Film, Marker, into_frame, refuse_nonsense
from hoofsim.errors import BadInput, nearest
from hoofsim.frames import Array
from hoofsim.plain_text import short_words

LARGEST_BYTES = 5_000_000
MOST_ROWS = 5_000
LARGEST_ERROR_MM = 10.0
LONGEST_CASE = 40
LARGEST_NUMBER = 1e6
_COLUMNS = {column.name: column for column in all_columns()}


class TableRow:
    """One row of the table, with the words to complain about it."""

    def __init__(self, table: str, number: int, cells: Mapping[str, str]) -> None:
        self.table, self.number, self.cells = table, number, cells

    def error(self, column: str, what: str) -> BadInput:
        """BadInput naming file, row and column."""
        return BadInput(f"{self.table}: row {self.number}, column {column}: {short_words(what)}")

    def text(self, column: str) -> str:
        """The cell, "" when the column is absent or empty."""
        return self.cells.get(column, "")

    def choice(self, column: str, options: tuple[str, ...]) -> str:
        """One of `options`, or "" when empty."""
        word = self.text(column).lower()
        if word and word not in options:
            raise self.error(column, f"'{self.text(column)}' is not allowed; expected {' or '.join(options)}")
        return word

    def number_in(self, column: str) -> float | None:
        """A finite number, or None when empty."""
        text = self.text(column)
        if not text:
            return None
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not math.isfinite(value) or "_" in text or not text.isascii():
            raise self.error(column, f"'{text[:30]}' is not a finite number (write 12.5, with a point)")
        if abs(value) > LARGEST_NUMBER:
            raise self.error(column, f"{text[:30]} is too large; allowed up to {LARGEST_NUMBER:g}")
        return value

    def point(self, name: str) -> Array | None:
        """A point (2,) in the film's units, or None when both coordinates are empty."""
        x_column, y_column = point_columns(name)
        x, y = self.number_in(x_column), self.number_in(y_column)
        if (x is None) != (y is None):
            missing = x_column if x is None else y_column
            raise self.error(missing, f"is empty although the other coordinate of '{name}' is given")
        return None if x is None or y is None else np.array([x, y])


def read_table(path: Path | str) -> list[Film]:
    """Every film of a CSV file; BadInput naming file, row and column when any of it cannot be used."""
    path = Path(path)
    if not path.is_file():
        raise BadInput(f"{path}: no such file" if not path.exists() else f"{path}: is not a file")
    try:
        with path.open("rb") as stream:
            content = stream.read(LARGEST_BYTES + 1)
    except OSError as error:
        raise BadInput(f"{path}: cannot be read: {error.strerror or error}") from None
    if len(content) > LARGEST_BYTES:
        raise BadInput(f"{path}: larger than {LARGEST_BYTES} bytes")
    try:
        return films_in(content.decode("utf-8-sig"), str(path))
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise BadInput(f"{path}: row {line}: not UTF-8 text; save the table as CSV in UTF-8") from None


def films_in(text: str, table: str) -> list[Film]:
    """Every film of a table given as CSV text. Lines that start with # are remarks; the first other line has the
    names.
    """
    if "\x00" in text:
        raise BadInput(f"{table}: holds a zero byte: not a text file")
    lines = text.splitlines()
    kept = [
        (number, line)
        for number, line in enumerate(lines, start=1)
        if line.strip() and not line.startswith("#")
    ]
    if not kept:
        raise BadInput(f"{table}: the table is empty; expected a first line of column names")
    header = _header(table, kept[0][0], _cells(table, *kept[0]))
    if len(kept) - 1 > MOST_ROWS:
        raise BadInput(f"{table}: {len(kept) - 1} rows; at most {MOST_ROWS}")
    films = [_film(_row(table, number, header, line)) for number, line in kept[1:]]
    if not films:
        raise BadInput(f"{table}: there are column names but no rows")
    return films


def _cells(table: str, number: int, line: str) -> list[str]:
    try:
        return next(csv.reader(io.StringIO(line), strict=True))
    except csv.Error as error:
        raise BadInput(f"{table}: row {number}: not CSV: {error}") from None


def _header(table: str, number: int, names: list[str]) -> list[str]:
    names = [name.strip() for name in names]
    for name in names:
        if name not in _COLUMNS:
            raise BadInput(f"{table}: row {number}: unknown column '{name[:40]}'; {nearest(name, _COLUMNS)}")
        if names.count(name) > 1:
            raise BadInput(f"{table}: row {number}: column '{name}' is given twice")
    for column in _COLUMNS.values():
        if column.required and column.name not in names:
            raise BadInput(f"{table}: row {number}: column '{column.name}' is missing ({column.meaning})")
    return names


def _row(table: str, number: int, header: list[str], line: str) -> TableRow:
    cells = _cells(table, number, line)
    if len(cells) != len(header):
        raise BadInput(
            f"{table}: row {number}: {len(cells)} cells where the first line has {len(header)} columns"
        )
    row = TableRow(table, number, {name: cell.strip() for name, cell in zip(header, cells, strict=True)})
    for name, column in _COLUMNS.items():
        if column.required and not row.text(name):
            raise row.error(name, f"is empty; expected {column.meaning}")
    return row


def _film(row: TableRow) -> Film:
    case = row.text("case")
    if len(case) > LONGEST_CASE or not case.isprintable():
        raise row.error("case", f"expected a printable word of at most {LONGEST_CASE} characters")
    which = row.choice("film", ("baseline", "case"))
    error = row.number_in("reading_error_mm")
    if error is None or not 0.0 < error <= LARGEST_ERROR_MM:
        raise row.error("reading_error_mm", f"must be above 0 and at most {LARGEST_ERROR_MM:g} mm")
    marks = {name: xy for name in (*LANDMARKS, *MARKS) if (xy := row.point(name)) is not None}
    toe_right = row.choice("toe_points", ("right", "left")) != "left"
    y_up = row.choice("y_points", ("up", "down")) != "down"
    try:
        points, has_ground = into_frame(marks, _scale(row, marks), toe_right, y_up)
        refuse_nonsense(points)
    except BadInput as refusal:
        words = str(refusal)
        raise (refusal if words.startswith(row.table) else row.error(_blamed(words), words)) from None
    marker = _marker(row, points)
    lost = {"yes": True, "no": False}.get(row.choice("tip_lost", ("yes", "no")))
    founder = points.pop("founder", None)
    if marker == "firm_horn" and founder is not None:
        points["firm_horn"] = founder
    kind: Literal["baseline", "case"] = "baseline" if which == "baseline" else "case"
    return Film(case, kind, row.number, points, error, has_ground, marker, lost)


def _blamed(words: str) -> str:
    """The column to name in a complaint about a point: the first landmark it speaks of."""
    named = [name for name in (*LANDMARKS, *MARKS, "toe_points", "y_points") if name in words]
    first = min(named, key=words.index) if named else REQUIRED_LANDMARKS[0]
    return first if first in ("toe_points", "y_points") else point_columns(first)[0]


def _scale(row: TableRow, marks: Mapping[str, Array]) -> float:
    """mm per unit of the coordinates."""
    direct, length = row.number_in("mm_per_unit"), row.number_in("known_length_mm")
    if (direct is None) == (length is None):
        raise row.error("mm_per_unit", "give either mm_per_unit, or known_length_mm with ruler_a and ruler_b")
    if direct is not None:
        if direct <= 0.0:
            raise row.error("mm_per_unit", f"{direct:g} must be above 0")
        return direct
    if length is None or length <= 0.0:
        raise row.error("known_length_mm", "must be above 0")
    if "ruler_a" not in marks or "ruler_b" not in marks:
        raise row.error("known_length_mm", "needs the marker's two ends, ruler_a and ruler_b")
    drawn = float(np.linalg.norm(marks["ruler_b"] - marks["ruler_a"]))
    if drawn == 0.0:
        raise row.error("ruler_b_x", "ruler_a and ruler_b are the same point")
    return length / drawn


FOUNDER_APART_MM = 4.0
"""A firm-horn marker this near to the hairline, or a hairline marker this far from it, is not what it is said to be.
"""


def _marker(row: TableRow, points: Mapping[str, Array]) -> Marker | None:
    """What the founder point is, checked against where the hairline lies."""
    said = row.choice("founder_marker", ("firm_horn", "hairline"))
    if "founder" not in points:
        if said == "firm_horn":
            raise row.error("founder_x", "is empty although founder_marker says 'firm_horn'")
        return "hairline" if said else None
    if not said:
        raise row.error(
            "founder_marker",
            "say which marker 'founder' is: firm_horn or hairline; they read 7 to 10 mm apart",
        )
    apart = float(np.linalg.norm(points["founder"] - points["toe_hairline"]))
    if said == "firm_horn" and apart < FOUNDER_APART_MM:
        raise row.error(
            "founder_marker", f"says firm_horn, but 'founder' lies {apart:.1f} mm from the hairline"
        )
    if said == "hairline" and apart >= FOUNDER_APART_MM:
        raise row.error(
            "founder_marker", f"says hairline, but 'founder' lies {apart:.1f} mm from toe_hairline"
        )
    return "firm_horn" if said == "firm_horn" else "hairline"
