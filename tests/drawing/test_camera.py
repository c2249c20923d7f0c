"""Millimetres to pixels and back."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.drawing.camera import Camera

number = st.floats(-500, 500, allow_nan=False)


def test_y_is_turned_over_and_the_centre_is_in_the_middle() -> None:
    camera = Camera(2.0, (10.0, 20.0), (100, 80))
    assert camera.to_pixels((10.0, 20.0)) == pytest.approx([50, 40])
    assert camera.to_pixels((11.0, 21.0)) == pytest.approx([52, 38])


@given(number, number, st.floats(0.1, 50))
def test_there_and_back(x: float, y: float, scale: float) -> None:
    camera = Camera(scale, (3.0, -7.0), (640, 480))
    assert camera.to_mm(camera.to_pixels((x, y))) == pytest.approx([x, y], abs=1e-6)


def test_fit_shows_all_of_the_bounds_and_no_more_than_it_must() -> None:
    camera = Camera.fit((-10, 0, 30, 20), (800, 300), margin=0.0)
    left, bottom, right, top = camera.seen()
    assert bottom == pytest.approx(0)
    assert top == pytest.approx(20)
    assert left < -10
    assert right > 30


@given(st.floats(0.3, 3.0), st.floats(0, 640), st.floats(0, 480))
def test_zoom_keeps_the_place_under_the_pointer(factor: float, x: float, y: float) -> None:
    camera = Camera(4.0, (3.0, -7.0), (640, 480))
    nearer = camera.zoomed(factor, (x, y))
    assert nearer.to_mm((x, y)) == pytest.approx(camera.to_mm((x, y)), abs=1e-6)


def test_zoom_stops_before_the_picture_is_a_dot() -> None:
    assert Camera(1.0, (0, 0), (10, 10)).zoomed(1e-9).scale > 0.01


def test_pan_moves_the_picture_with_the_hand() -> None:
    camera = Camera(2.0, (0.0, 0.0), (100, 100))
    assert camera.panned(10, 6).to_pixels((0.0, 0.0)) == pytest.approx([60, 56])


def test_enlarged_and_resized_keep_the_view() -> None:
    camera = Camera(2.0, (5.0, 5.0), (100, 50))
    assert camera.enlarged(2).to_pixels((9.0, 4.0)) == pytest.approx(2 * camera.to_pixels((9.0, 4.0)))
    assert np.allclose(camera.resized((200, 100)).seen(), camera.seen())
