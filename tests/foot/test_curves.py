"""Smooth plane curves: each helper on a shape whose answer is known."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.foot import curves

SQUARE = np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]])
places = st.floats(-100, 100, allow_nan=False)


def test_a_smooth_curve_passes_through_its_points() -> None:
    through = np.array([[0.0, 0.0], [3.0, 5.0], [9.0, 4.0], [12.0, -2.0]])
    curve = curves.smooth(through)
    for point in through:
        assert np.hypot(*(curve - point).T).min() < 1e-9


def test_a_closed_smooth_curve_through_a_circle_is_nearly_that_circle() -> None:
    angle = np.linspace(0, 2 * np.pi, 12, endpoint=False)
    curve = curves.smooth(10 * np.stack([np.cos(angle), np.sin(angle)], axis=1), closed=True)
    assert np.hypot(*curve.T) == pytest.approx(10.0, abs=0.1)


@given(st.lists(st.tuples(places, places), min_size=3, max_size=8, unique=True))
def test_a_smooth_curve_is_finite_whatever_its_points(through: list[tuple[float, float]]) -> None:
    assert np.isfinite(curves.smooth(np.array(through))).all()


def test_a_bend_leaves_and_arrives_along_the_lines_to_its_pull() -> None:
    curve = curves.bend(np.array([0.0, 0.0]), np.array([10.0, 0.0]), np.array([10.0, 10.0]), spacing=0.01)
    first, last = curve[1] - curve[0], curve[-1] - curve[-2]
    assert abs(first[1] / first[0]) < 0.01
    assert abs(last[0] / last[1]) < 0.01


def test_an_arc_keeps_its_radius_and_goes_the_way_it_is_told() -> None:
    centre, start, end = np.array([1.0, 1.0]), np.array([3.0, 1.0]), np.array([1.0, 3.0])
    short = curves.arc(centre, start, end, clockwise=False)
    long = curves.arc(centre, start, end, clockwise=True)
    assert np.hypot(*(short - centre).T) == pytest.approx(2.0)
    assert curves.lengths(short)[-1] == pytest.approx(np.pi, rel=0.02)
    assert curves.lengths(long)[-1] == pytest.approx(3 * np.pi, rel=0.02)


def test_a_band_about_a_straight_line_is_a_rectangle() -> None:
    line = np.stack([np.linspace(0, 10, 11), np.zeros(11)], axis=1)
    assert curves.area(curves.band(line, 1.0, 2.0)) == pytest.approx(30.0)


def test_a_ray_meets_the_nearest_of_two_walls() -> None:
    walls = np.array([[5.0, -1.0], [5.0, 1.0], [8.0, 1.0], [8.0, -1.0]])
    found = curves.crossing(np.array([0.0, 0.0]), np.array([1.0, 0.0]), walls)
    assert found == pytest.approx([5.0, 0.0])
    assert curves.crossing(np.array([0.0, 0.0]), np.array([-1.0, 0.0]), walls) is None


def test_area_and_inside_of_a_square() -> None:
    assert curves.area(SQUARE) == curves.area(SQUARE[::-1]) == 16.0
    assert curves.inside(SQUARE, [[1, 1], [5, 1], [-1, 2]]).tolist() == [True, False, False]


def test_a_piece_of_a_line_has_the_length_asked_for() -> None:
    line = np.array([[0.0, 0.0], [3.0, 0.0], [3.0, 4.0]])
    part = curves.piece(line, 1.0, 5.0)
    assert curves.lengths(part)[-1] == pytest.approx(4.0)
    assert part[0] == pytest.approx([1.0, 0.0])


def test_resampling_keeps_the_ends_and_spreads_evenly() -> None:
    line = np.array([[0.0, 0.0], [1.0, 0.0], [10.0, 0.0]])
    assert curves.resampled(line, 11)[:, 0] == pytest.approx(np.arange(11.0))
