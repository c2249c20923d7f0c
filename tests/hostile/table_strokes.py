"""Strokes that spoil an evidence table, on its rows: each says whether what comes out must be refused."""

from collections.abc import Callable
from random import Random

from hoofsim.claims.evidence.columns import REQUIRED_LANDMARKS, point_columns

Rows = list[dict[str, str]]
POINTS = [column for name in REQUIRED_LANDMARKS for column in point_columns(name)]


def _decimal_commas(rows: Rows, chance: Random) -> bool:
    for row in rows:
        for column in POINTS:
            row[column] = row[column].replace(".", ",")
    return True


def _axes_swapped(rows: Rows, chance: Random) -> bool:
    for row in rows:
        for name in REQUIRED_LANDMARKS:
            x, y = point_columns(name)
            row[x], row[y] = row[y], row[x]
    return True


def _mirrored(rows: Rows, chance: Random) -> bool:
    axis = chance.choice((0, 1))
    for row in rows:
        for name in REQUIRED_LANDMARKS:
            column = point_columns(name)[axis]
            row[column] = f"{-float(row[column]):g}"
    return True


def _no_scale(rows: Rows, chance: Random) -> bool:
    for row in rows:
        row["mm_per_unit"] = ""
    return True


def _wrong_scale(rows: Rows, chance: Random) -> bool:
    for row in rows:
        row["mm_per_unit"] = chance.choice(("0", "-1", "25.4", "0.001", "1e300", "nan", "inf", "1,0"))
    return True


def _a_cell(rows: Rows, chance: Random) -> bool:
    row = chance.choice(rows)
    column = chance.choice(POINTS)
    row[column] = chance.choice(
        ("", "nan", "inf", "-inf", "1e999", "1_0", "0x10", "=A1", "twelve", "1e9", "٣", "12.5mm", "1;2")
    )
    return True


def _a_formula(rows: Rows, chance: Random) -> bool:
    word = chance.choice(("=cmd|'/C calc'!A0", "+1+1", "@x", "-2+3", "<script>", '"', "a\nb", "'"))
    for row in rows:
        row["case"] = word
    return False


def _long_case(rows: Rows, chance: Random) -> bool:
    rows[0]["case"] = chance.choice(("x" * 5000, "\x07bell", "a\u202eb" * 20))
    return True


def _unknown_column(rows: Rows, chance: Random) -> bool:
    for row in rows:
        row[chance.choice(("tip_z", "=1+1", "x" * 5000, "Tip_x"))] = "1"
    return True


def _lost_column(rows: Rows, chance: Random) -> bool:
    column = chance.choice(POINTS)
    for row in rows:
        del row[column]
    return True


def ragged(rows: Rows, chance: Random) -> bool:
    rows[-1]["film"] = 'case","extra'
    return True


def _no_rows(rows: Rows, chance: Random) -> bool:
    for row in rows:
        row["film"] = chance.choice(("", "later", "Case!"))
    return True


ON_TABLE: tuple[Callable[[Rows, Random], bool], ...] = (
    _decimal_commas, _axes_swapped, _mirrored, _no_scale, _wrong_scale, _a_cell, _a_cell, _a_formula, _long_case,
    _unknown_column, _lost_column, ragged, _no_rows,
)  # fmt: skip
