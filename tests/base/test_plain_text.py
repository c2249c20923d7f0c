"""A person's text in a table is text, whatever a spreadsheet would like to make of it."""

import csv
import io

import pytest

from hoofsim.plain_text import csv_lines, neutral, printable, short_words


@pytest.mark.parametrize(
    "cell", ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", " =1", "＝1", "\r=1", "-", "- a dash"]
)
def test_what_a_spreadsheet_would_run_is_text(cell: str) -> None:
    assert neutral(cell) == f"'{cell}"


@pytest.mark.parametrize("cell", ["-1.5", "+3", "-1e-05", "", "a=b", "Clover", "−2"])
def test_numbers_and_plain_words_stay(cell: str) -> None:
    assert neutral(cell) == cell


def test_commas_quotes_and_lines_come_back_as_they_were() -> None:
    rows = [["a,b", 'say "no"', "two\nlines"], ["1", "-2", "é"]]
    assert list(csv.reader(io.StringIO(csv_lines(rows)))) == rows


def test_signs_that_no_page_can_hold_fall_out() -> None:
    assert printable("a\x00b\x1b[31m\ud800\tc\nd") == "ab[31m\tc\nd"


def test_an_endless_word_is_cut_and_the_sentence_stays() -> None:
    assert short_words(f"unknown key '{'x' * 500}'; expected 'title'") == (
        f"unknown key '{'x' * 59}... expected 'title'"
    )
    assert short_words("a long sentence " * 20) == "a long sentence " * 20
