"""Reading a table: what is good comes through whatever its axes and units; what is bad is refused by row and column."""

import numpy as np
import pytest

from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.generate import table_text
from hoofsim.claims.evidence.reader import films_in, read_table
from hoofsim.errors import BadInput
from tests.claims.evidence.tables import cases_of, films, good_rows, text_of


def refused(text):
    with pytest.raises(BadInput) as refusal:
        paired(films_in(text, "t.csv"), "t.csv")
    return str(refusal.value)


def spoilt(row, **cells):
    rows = good_rows()
    rows[row].update(cells)
    return text_of(rows)


def test_a_generated_table_reads_back_as_it_was():
    made = films(cases=3)
    read = films_in(table_text(made, "test"), "t.csv")
    assert [(film.case, film.film) for film in read] == [(film.case, film.film) for film in made]
    for before, after in zip(made, read, strict=True):
        assert set(after.points) == set(before.points)
        for name, xy in after.points.items():
            assert xy - after.points["tip"] == pytest.approx(
                before.points[name] - before.points["tip"], abs=3e-3
            )


def test_pixels_mirrored_upside_down_and_tilted_come_into_the_same_frame():
    rows = good_rows()
    straight = films_in(text_of(rows), "t.csv")[0].points
    tilt, scale = np.radians(7.0), 5.0
    turn = np.array([[np.cos(tilt), -np.sin(tilt)], [np.sin(tilt), np.cos(tilt)]])
    row = rows[0]
    for name in {column[:-2] for column in row if column.endswith("_x")}:
        if row[f"{name}_x"]:
            x, y = turn @ [float(row[f"{name}_x"]), float(row[f"{name}_y"])]
            row[f"{name}_x"], row[f"{name}_y"] = f"{900 - scale * x:.6f}", f"{1200 - scale * y:.6f}"
    row.update(mm_per_unit="", known_length_mm="40", ruler_a_x="10", ruler_a_y="20", ruler_b_x="10", ruler_b_y="220",
               toe_points="left", y_points="down")  # fmt: skip
    moved = films_in(text_of([row]), "t.csv")[0].points
    shift = moved["tip"] - straight["tip"]
    assert shift[1] == pytest.approx(0.0, abs=1e-3)  # the ground is at y = 0 in both
    for name, xy in moved.items():
        assert xy - shift == pytest.approx(straight[name], abs=1e-3), name


BAD = {
    "not a number": ({"tip_x": "abc"}, "row 2, column tip_x: 'abc' is not a finite number"),
    "not finite": ({"tip_x": "inf"}, "row 2, column tip_x: 'inf' is not a finite number"),
    "a comma for a point": ({"tip_x": "12;5"}, "column tip_x"),
    "half a point": ({"frog_point_y": ""}, "column frog_point_y: is empty although"),
    "required empty": ({"cor_x": ""}, "column cor_x: is empty; expected centre of rotation"),
    "no error": ({"reading_error_mm": "0"}, "column reading_error_mm: must be above 0"),
    "huge error": ({"reading_error_mm": "50"}, "at most 10 mm"),
    "unknown film": ({"film": "after"}, "column film: 'after' is not allowed; expected baseline or case"),
    "unknown side": ({"toe_points": "up"}, "column toe_points: 'up' is not allowed"),
    "unknown tip": ({"tip_lost": "perhaps"}, "column tip_lost: 'perhaps' is not allowed; expected yes or no"),
    "no scale": ({"mm_per_unit": ""}, "give either mm_per_unit, or known_length_mm"),
    "two scales": ({"known_length_mm": "40"}, "give either mm_per_unit, or known_length_mm"),
    "scale zero": ({"mm_per_unit": "0"}, "must be above 0"),
    "scale in cm": ({"mm_per_unit": "10"}, "allowed 20 to 90 mm: check the scale"),
    "length without its ends": ({"mm_per_unit": "", "known_length_mm": "40"}, "needs the marker's two ends"),
    "ruler of no length": (
        {"mm_per_unit": "", "known_length_mm": "40", "ruler_a_x": "1", "ruler_a_y": "1", "ruler_b_x": "1", "ruler_b_y": "1"},
        "column ruler_b_x: ruler_a and ruler_b are the same point",
    ),
    "toe on the other side": ({"toe_points": "left"}, "palmar_process lies in front of the tip: check toe_points"),
    "upside down": ({"y_points": "down"}, "the foot stands on its head: check y_points"),
    "marker not said": ({"founder_marker": ""}, "column founder_marker: say which marker 'founder' is"),
    "marker empty": ({"founder_x": "", "founder_y": ""}, "column founder_x: is empty although founder_marker says"),
    "marker mistaken": ({"founder_marker": "hairline"}, "says hairline, but 'founder' lies"),
    "ground too short": ({"ground_b_x": "-99"}, "less than 50 mm apart"),
    "stray point": ({"frog_point_x": "900"}, "column frog_point_x: frog_point lies"),
    "case without a name": ({"case": ""}, "column case: is empty"),
    "case too long": ({"case": "x" * 41}, "column case: expected a printable word"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_a_bad_cell_is_refused_by_row_and_column(name):
    cells, words = BAD[name]
    message = refused(spoilt(0, **cells))
    assert message.startswith("t.csv: row 2")
    assert words in message


def test_a_firm_horn_marker_at_the_hairline_is_not_believed():
    row = good_rows()[0]
    near = {"founder_x": row["toe_hairline_x"], "founder_y": row["toe_hairline_y"]}
    assert "says firm_horn, but 'founder' lies 0.0 mm from the hairline" in refused(spoilt(0, **near))


BAD_TABLES = {
    "empty": ("", "the table is empty"),
    "only remarks": ("# nothing\n\n", "the table is empty"),
    "no rows": (text_of(good_rows()).splitlines()[0] + "\n", "no rows"),
    "unknown column": ("case,film,tipp_x\n", "unknown column 'tipp_x'; did you mean 'tip_x'?"),
    "column twice": ("case,case\n", "given twice"),
    "column missing": ("case,film\n", "column 'reading_error_mm' is missing"),
    "too few cells": (
        text_of(good_rows()).splitlines()[0] + "\na,case\n",
        "row 2: 2 cells where the first line has",
    ),
    "open quote": (text_of(good_rows()).splitlines()[0] + '\n"a,case\n', "row 2: not CSV"),
    "zero byte": ("case\x00", "zero byte"),
}


@pytest.mark.parametrize("name", BAD_TABLES)
def test_a_bad_table_is_refused(name):
    text, words = BAD_TABLES[name]
    assert words in refused(text)


def test_films_must_pair_up():
    rows = good_rows()
    assert "row 2, column case: 'slide_through-001' has a baseline but no row with film 'case'" in refused(
        text_of(rows[:1])
    )
    assert "has a second 'case' film (first in row 3)" in refused(text_of([*rows, rows[1]]))


def test_a_bone_that_grew_between_films_is_another_scale_or_another_foot():
    rows = good_rows()
    rows[1]["mm_per_unit"] = "1.25"
    assert "the bone is +2" in refused(text_of(rows))
    rows[1]["mm_per_unit"] = "1.07"
    assert "the two scales may differ" in " ".join(cases_of(rows)[0].traps)


def test_files_that_cannot_be_read_are_refused(tmp_path):
    with pytest.raises(BadInput, match="no such file"):
        read_table(tmp_path / "none.csv")
    (tmp_path / "latin.csv").write_bytes(b"case\n\xe9\n")
    with pytest.raises(BadInput, match="row 2: not UTF-8"):
        read_table(tmp_path / "latin.csv")
