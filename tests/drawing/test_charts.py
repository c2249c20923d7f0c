"""Charts: values at their places, cut at the frame, round ticks, words that do not overlap."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.drawing.bounds import bounds_of
from hoofsim.drawing.charts import ChartBand, MarkAt, Series, chart, clipped
from hoofsim.drawing.display_list import Circle, DisplayList, Polygon, Polyline, Text
from hoofsim.drawing.labels import colliding
from hoofsim.drawing.ticks import padded, tick_words, ticks
from hoofsim.errors import BadInput

X = np.linspace(0.0, 10.0, 11)
FRAME = {
    "x_label": "heel change (mm)",
    "y_label": "angle (deg)",
    "x_range": (0.0, 10.0),
    "y_range": (0.0, 8.0),
}


def lines(picture: DisplayList, role: str) -> list[Polyline]:
    return [item for item in picture.primitives() if isinstance(item, Polyline) and item.role == role]


def test_a_line_runs_through_its_values() -> None:
    picture = chart([Series("a", X, 0.5 * X)], **FRAME, size=(100.0, 80.0))
    (line,) = lines(picture, "series_1")
    assert line.points[0] == pytest.approx((0.0, 0.0))
    assert line.points[-1] == pytest.approx((100.0, 50.0))
    assert line.part == "a"


def test_a_line_is_cut_at_the_frame_and_broken_where_there_is_no_number() -> None:
    y = np.array([1, 2, np.nan, 4, 20, 4, 3, 2, 1, 1, 1], dtype=float)
    picture = chart([Series("a", X, y)], **FRAME, size=(100.0, 80.0))
    pieces = lines(picture, "series_1")
    assert len(pieces) == 3
    assert max(height for piece in pieces for _, height in piece.points) == pytest.approx(80.0)


def test_points_have_error_bars_and_shapes_of_their_own() -> None:
    series = [Series(f"run {n}", [1 + n], [3.0], points=True, y_error=[0.5], x_error=[0.2]) for n in range(3)]
    picture = chart(series, **FRAME)
    assert len(lines(picture, "error_bar")) == 6
    discs = [item for item in picture.primitives() if isinstance(item, Circle)]
    others = [
        item for item in picture.primitives() if isinstance(item, Polygon) and item.role.endswith("_point")
    ]
    assert len(discs) == 1
    assert sorted(len(item.points) for item in others) == [3, 4]


def test_bands_and_marks_stand_at_their_values() -> None:
    picture = chart([Series("a", X, X / 2)], **FRAME, size=(100.0, 80.0),
                    bands=[ChartBand(3, 5, "usual"), ChartBand(20, 30)],
                    marks=[MarkAt(5.0, "now"), MarkAt(2.0, "least", level=True), MarkAt(99.0, "gone")])  # fmt: skip
    (band,) = [item for item in picture.primitives() if item.role == "band"]
    assert isinstance(band, Polygon)
    assert {y for _, y in band.points} == {30.0, 50.0}
    assert {line.points[0] for line in lines(picture, "construction")} == {(50.0, 0.0), (0.0, 20.0)}
    said = {item.text for item in picture.primitives() if isinstance(item, Text)}
    assert {"now", "least", "usual"} <= said
    assert "gone" not in said


def test_words_of_a_crowded_chart_do_not_overlap_and_nothing_is_cut_off() -> None:
    series = [Series(f"account number {n}", X, X * 0.1 * n) for n in range(6)]
    picture = chart(series, x_label="heel", y_label="angle", title="Six accounts", note="Invented. " * 20)
    said = [item for item in picture.primitives() if isinstance(item, Text)]
    assert colliding(said) == []
    needed = bounds_of(picture.primitives())
    assert picture.bounds[0] <= needed[0]
    assert picture.bounds[3] >= needed[3]


def test_a_chart_without_numbers_is_an_empty_frame() -> None:
    picture = chart([Series("none", [np.nan], [np.nan])], x_label="x", y_label="y")
    assert lines(picture, "series_1") == []
    assert "account" not in picture.description


def test_rows_of_two_lengths_are_refused() -> None:
    with pytest.raises(BadInput, match="series 'a' has x of shape"):
        chart([Series("a", [1, 2, 3], [1, 2])], x_label="x", y_label="y")


def test_an_empty_range_is_refused() -> None:
    with pytest.raises(BadInput, match="x range of chart 'heels' is 3 to 3"):
        chart([Series("a", X, X)], x_label="x", y_label="y", title="heels", x_range=(3.0, 3.0))


@given(st.floats(-1e4, 1e4), st.floats(1e-3, 1e4))
def test_ticks_are_round_few_and_in_range(low: float, span: float) -> None:
    found = ticks(low, low + span)
    assert 1 <= len(found) <= 8
    assert all(low - 1e-6 * span <= value <= low + span + 1e-6 * span for value in found)
    assert len(set(tick_words(found))) == len(found)


def test_tick_words_use_a_true_minus_and_no_negative_nought() -> None:
    assert tick_words([-0.5, -0.0, 0.5]) == ["−0.5", "0.0", "0.5"]


def test_a_range_has_room_and_is_never_empty() -> None:
    assert padded([3.0, 3.0])[1] > 3.0
    assert padded([]) == (0.0, 1.0)
    low, high = padded([0.0, 10.0, float("nan")])
    assert low < 0 < 10 < high


def test_clipping_keeps_one_piece_in_one_piece() -> None:
    line = np.array([[-5.0, 5.0], [2.0, 5.0], [4.0, 6.0], [20.0, 6.0]])
    (piece,) = clipped(line, 10.0, 10.0)
    assert piece == pytest.approx(np.array([[0.0, 5.0], [2.0, 5.0], [4.0, 6.0], [10.0, 6.0]]))
