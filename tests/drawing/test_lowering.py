"""Primitives become areas, lines, discs and words; ties thin and break."""

import numpy as np
import pytest

from hoofsim.drawing.display_list import Arrow, Circle, Polygon, Polyline, Text, Tie
from hoofsim.drawing.lowering import AreaMark, DiscMark, LineMark, TextMark, arrow_head, dashes, marks
from hoofsim.drawing.palette import NORMAL

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


def widths(tie: Tie) -> list[float]:
    return [mark.width for mark in marks(tie, NORMAL) if isinstance(mark, LineMark)]


def lamina(**state: float) -> Tie:
    return Tie((0.0, 0.0), (7.0, 0.0), "lamina", **state)


def test_an_area_has_fill_pattern_and_edge_in_that_order() -> None:
    made = marks(Polygon(SQUARE, "frog"), NORMAL)
    assert isinstance(made[0], AreaMark)
    assert isinstance(made[-1], LineMark)
    assert made[-1].closed
    assert len(made) > 6


def test_dots_are_discs() -> None:
    assert any(isinstance(mark, DiscMark) for mark in marks(Polygon(SQUARE, "cushion"), NORMAL))


def test_words_and_circles_keep_their_place() -> None:
    (words,) = marks(Text((1.0, 2.0), "frog", "label"), NORMAL)
    (disc,) = marks(Circle((1.0, 2.0), 3.0, "landmark"), NORMAL)
    assert isinstance(words, TextMark)
    assert words.text.text == "frog"
    assert isinstance(disc, DiscMark)
    assert disc.radius == 3.0


def test_a_tie_thins_as_it_stretches() -> None:
    assert widths(lamina(stretch=0.0)) > widths(lamina(stretch=0.5)) > widths(lamina(stretch=1.5))


def test_a_tie_thins_as_fewer_fibres_hold() -> None:
    assert widths(lamina()) > widths(lamina(attached=0.5)) > widths(lamina(attached=0.5, damage=0.4))


@pytest.mark.parametrize("state", [{"attached": 0.0}, {"damage": 1.0}, {"attached": 0.3, "damage": 0.6}])
def test_a_broken_tie_is_two_stubs_with_a_gap(state: dict[str, float]) -> None:
    stubs = [mark for mark in marks(lamina(**state), NORMAL) if isinstance(mark, LineMark)]
    assert len(stubs) == 2
    assert max(x for x, _ in stubs[0].points) < min(x for x, _ in stubs[1].points) - 1.0


def test_dashes_cover_their_share_of_the_line() -> None:
    line = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]])
    drawn = sum(float(np.hypot(*np.diff(piece, axis=0).T).sum()) for piece in dashes(line, 3.0, 1.0))
    assert drawn == pytest.approx(15.0)


def test_a_dashed_line_turns_the_corner() -> None:
    pieces = dashes(np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]]), 4.0, 2.0)
    assert any(len(piece) == 3 for piece in pieces) or all(len(piece) == 2 for piece in pieces)
    assert marks(Polyline(SQUARE, "ghost"), NORMAL)[0] != marks(Polyline(SQUARE, "axis"), NORMAL)[0]


def test_an_arrows_tip_is_where_it_ends() -> None:
    found = arrow_head((0.0, 0.0), (10.0, 0.0), 4.0)
    assert found is not None
    triangle, stop = found
    assert triangle[0] == pytest.approx([10.0, 0.0])
    assert 6.0 < stop[0] < 10.0


def test_an_arrow_of_no_length_draws_nothing() -> None:
    assert marks(Arrow((1.0, 1.0), (1.0, 1.0), "force"), NORMAL) == ()
