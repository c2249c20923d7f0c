"""Labels stand beside the picture in the order of their targets, and never on each other."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.drawing.display_list import Polyline, Text
from hoofsim.drawing.labels import PictureLabel, colliding, overlaps, place, stacked
from hoofsim.drawing.text_size import text_box, text_width, unbroken, wrapped

coordinate = st.floats(-50, 50, allow_nan=False)
words = st.sampled_from(["frog", "digital cushion", "deep flexor tendon (DDFT)", "P3, coffin bone", "sole"])
labels = st.lists(
    st.builds(lambda x, y, said: PictureLabel((x, y), said), coordinate, coordinate, words),
    min_size=1,
    max_size=25,
)


def texts_of(made: list[PictureLabel]) -> list[Text]:
    items = place(made, lambda low, high: -60.0, lambda low, high: 60.0, height=4.0)
    return [item for item in items if isinstance(item, Text)]


@given(labels)
def test_no_two_labels_overlap_and_none_stands_on_the_picture(made: list[PictureLabel]) -> None:
    texts = texts_of(made)
    assert colliding(texts) == []
    for text in texts:
        left, _, right, _ = text_box(text)
        assert right <= -60 or left >= 60


def test_the_overlap_check_sees_an_overlap() -> None:
    one, other = Text((0.0, 0.0), "frog", "label"), Text((2.0, 1.0), "sole", "label")
    assert colliding([one, other]) == [(other, one)]
    assert not overlaps((0, 0, 1, 1), (1, 0, 2, 1))


@given(labels)
def test_leaders_of_one_side_keep_the_order_of_their_targets(made: list[PictureLabel]) -> None:
    items = place(
        [PictureLabel(one.target, one.words, side="right") for one in made], lambda *_: -60.0, lambda *_: 60.0
    )
    leaders = [item.points for item in items if isinstance(item, Polyline)]
    ends = [end[1] for _, end in sorted(leaders, key=lambda leader: leader[0][1])]
    targets = sorted(start[1] for start, _ in leaders)
    for lower, upper, below, above in zip(targets, targets[1:], ends, ends[1:], strict=False):
        assert lower == upper or below < above


def test_a_label_alone_stands_level_with_its_target_on_the_nearer_side() -> None:
    (text,) = texts_of([PictureLabel((-20.0, 7.0), "frog")])
    assert text.at[1] == pytest.approx(7.0)
    assert text.anchor[0] == "right"
    assert text.at[0] < -60


@given(st.lists(st.tuples(coordinate, st.floats(1, 10)), min_size=1, max_size=20))
def test_stacked_blocks_never_overlap(blocks: list[tuple[float, float]]) -> None:
    wanted, sizes = zip(*sorted(blocks), strict=True)
    centres = stacked(wanted, sizes, 1.0)
    for index in range(len(blocks) - 1):
        room = centres[index + 1] - centres[index] - 0.5 * (sizes[index] + sizes[index + 1])
        assert room >= 1.0 - 1e-6


def test_two_blocks_that_want_one_place_share_the_way() -> None:
    assert stacked([10.0, 10.0], [4.0, 4.0], 2.0) == pytest.approx([7.0, 13.0])


def test_blocks_with_room_stay_where_they_want() -> None:
    assert stacked([0.0, 50.0], [4.0, 4.0], 2.0) == pytest.approx([0.0, 50.0])


def test_words_wrap_but_a_number_keeps_its_unit() -> None:
    lines = wrapped(f"sole depth under the tip: {unbroken('12.5 mm')}", 4.0, 40.0)
    assert len(lines) > 1
    assert any("12.5\N{NO-BREAK SPACE}mm" in line for line in lines)
    assert all(text_width(line, 4.0) <= 40.0 for line in lines)


def test_a_word_wider_than_the_column_keeps_a_line() -> None:
    assert wrapped("interphalangeal", 4.0, 5.0) == ["interphalangeal"]


@pytest.mark.parametrize("bold", [False, True])
def test_estimated_widths_are_generous_for_the_carried_typeface(bold: bool) -> None:
    """The boxes that labels are laid out with must hold the words as the typeface draws them."""
    from PIL import ImageFont

    from hoofsim.drawing.parts import PARTS
    from hoofsim.drawing.typeface import typeface_file

    font = ImageFont.truetype(typeface_file(bold), 100)
    for part in PARTS.values():
        assert font.getlength(part.short) <= text_width(part.short, 100.0), part.short
    assert np.mean([font.getlength(p.short) / text_width(p.short, 100.0) for p in PARTS.values()]) > 0.75
