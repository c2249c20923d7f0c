"""Dividing rectangles, breaking lines, and the report that finds bad text (shown a bad one, it must complain)."""

import itertools

import pygame
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.app.theme import theme_for
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.layout import (
    centred,
    columns,
    flow,
    from_left,
    inset,
    rows,
    split_bottom,
    split_left,
    split_right,
    split_top,
)
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.report import complaints, crowded_texts, cut_texts, outside_texts, overlapping_texts
from hoofsim.app.widgets.wrapping import wrap_lines

SIDES = st.integers(0, 2000)


@given(SIDES, SIDES, st.lists(st.floats(0.1, 5), min_size=1, max_size=6), st.integers(0, 20))
def test_columns_fill_the_width_in_order(width, height, shares, gap):
    area = Rect(3, 4, width + gap * 6, height)
    placed = columns(area, shares, gap)
    assert placed[0].left == area.left
    assert placed[-1].right == area.right
    assert all(a.right + gap == b.left for a, b in itertools.pairwise(placed))


@given(SIDES, SIDES, SIDES, st.integers(0, 30))
def test_splits_never_leave_their_rectangle(width, height, part, gap):
    area = Rect(5, 6, width, height)
    for split in (split_top, split_bottom, split_left, split_right):
        first, second = split(area, part, gap)
        for piece in (first, second):
            assert piece.w >= 0
            assert piece.h >= 0
            assert area.left <= piece.left
            assert area.top <= piece.top
            assert piece.right <= area.right + gap
            assert piece.bottom <= area.bottom + gap
        assert not (first.w and first.h and second.w and second.h and first.colliderect(second))


def test_rows_flow_and_the_rest():
    area = Rect(0, 0, 100, 60)
    assert [rect.y for rect in rows(area, [10, 20], 5)] == [0, 15]
    assert [rect.x for rect in from_left(area, [30, 20], 5)] == [0, 35]
    assert [(rect.x, rect.y) for rect in flow(area, [60, 30, 50], 10, 4)] == [(0, 0), (64, 0), (0, 14)]
    assert centred(area, 500, 20) == Rect(0, 20, 100, 20)
    assert inset(area, 60) == Rect(60, 60, 0, 0)


@given(st.text(alphabet="ab cdef\n", max_size=120), st.integers(1, 30))
def test_wrapped_lines_fit_and_lose_no_letter(text, room):
    lines = wrap_lines(text, len, room)
    assert all(len(line) <= room for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "").replace("\n", "")


def painter():
    return Painter(pygame.Surface((300, 200)), theme_for((640, 480)))


def test_the_report_is_silent_about_good_text():
    one = painter()
    one.text("fits", Rect(5, 5, 200, 24))
    one.text("below", Rect(5, 40, 200, 24))
    assert complaints(one.records, (300, 200)) == []


def test_the_report_complains_about_cut_text():
    one = painter()
    one.text("far too long for its box", Rect(5, 5, 40, 24))
    assert any("is cut" in words for words in cut_texts(one.records))


def test_the_report_complains_about_text_too_high_for_its_box():
    one = painter()
    one.text("many words that need many lines here", Rect(5, 5, 80, 24), wrap=True, valign="top")
    assert any("does not fit" in words for words in cut_texts(one.records))


def test_the_report_complains_about_overlap_within_a_layer_only():
    one = painter()
    one.text("one", Rect(5, 5, 100, 24))
    one.text("two", Rect(10, 10, 100, 24))
    assert len(overlapping_texts(one.records)) == 1
    other = painter()
    other.text("one", Rect(5, 5, 100, 24))
    other.layer += 1
    other.text("two", Rect(10, 10, 100, 24))
    assert overlapping_texts(other.records) == []


def test_the_report_complains_about_words_with_no_room_between_them():
    one = painter()
    width = one.text_width("0.222 MPa")
    one.text("0.222 MPa", Rect(5, 5, width, 24))
    one.sign([(7 + width, 20), (15 + width, 20), (11 + width, 14)], "ink", "▲")
    assert len(crowded_texts(one.records)) == 1
    assert "0.222 MPa" in complaints(one.records, (300, 200))[0]
    for gap, crowded in ((1, 1), (12, 0), (0, 0)):  # at nought a sentence goes on with a word set apart
        other = painter()
        other.text("one", Rect(5, 5, other.text_width("one"), 24))
        other.text("two", Rect(5 + other.text_width("one") + gap, 5, 100, 24), "bold")
        assert len(crowded_texts(other.records)) == crowded, gap
    below = painter()
    below.text("one", Rect(5, 5, below.text_width("one"), 24))
    below.text("two", Rect(6 + below.text_width("one"), 45, 100, 24))
    assert crowded_texts(below.records) == []


def test_the_report_complains_about_text_that_leaves_the_window():
    one = painter()
    one.text("off", Rect(290, 5, 100, 24))
    assert len(outside_texts(one.records, (300, 200))) == 1


def test_an_ellipsis_ends_what_does_not_fit():
    one = painter()
    one.text("far too long for its box", Rect(5, 5, 60, 24))
    assert one.records[0].cut
    assert one.records[0].box[2] <= 60
