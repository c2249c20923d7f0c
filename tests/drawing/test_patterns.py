"""Hatching and dots stay inside, evenly spaced, and travel with their area."""

import numpy as np
import pytest

from hoofsim.drawing.patterns import ANGLES, dots, hatch
from hoofsim.foot.curves import inside

SQUARE = np.array([[0.0, 0.0], [20.0, 0.0], [20.0, 20.0], [0.0, 20.0]])
RING = np.array([[0, 0], [30, 0], [30, 30], [20, 30], [20, 10], [10, 10], [10, 30], [0, 30]], dtype=float)


@pytest.mark.parametrize("pattern", sorted(ANGLES))
@pytest.mark.parametrize("area", [SQUARE, RING], ids=["square", "horseshoe"])
def test_lines_lie_inside(pattern: str, area: np.ndarray) -> None:
    lines = hatch(area, pattern, 2.5)
    middles = np.array([line.mean(axis=0) for line in lines])
    assert len(lines) >= 8
    assert inside(area, middles).all()


def test_level_lines_of_a_square_are_as_many_as_fit() -> None:
    assert len(hatch(SQUARE, "level", 4.0)) == 5


def test_total_length_of_hatching_is_area_over_spacing() -> None:
    total = sum(float(np.hypot(*(line[1] - line[0]))) for line in hatch(RING, "rising", 0.5))
    assert total * 0.5 == pytest.approx(700, rel=0.03)


def test_dots_lie_inside_and_cover_evenly() -> None:
    places = dots(RING, 1.5)
    for shift in ([0.39, 0.0], [-0.39, 0.0]):
        assert inside(RING, places + shift).all()
    assert len(places) * 1.5 * 1.5 * 0.87 == pytest.approx(700, rel=0.15)


def test_a_pattern_travels_with_its_area() -> None:
    shift = np.array([3.3, -1.7])
    assert dots(SQUARE + shift, 2.0) == pytest.approx(dots(SQUARE, 2.0) + shift)
