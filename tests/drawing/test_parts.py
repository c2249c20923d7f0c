"""Every part has its words, and every part of a picture is told."""

import pytest

from hoofsim.drawing.foot_picture import foot_picture
from hoofsim.drawing.foot_shown import LABELLED, LANDMARKS, Options
from hoofsim.drawing.parts import PARTS, part
from hoofsim.errors import BadInput
from hoofsim.foot.outlines import ORDER
from hoofsim.model import LoadedFoot


def test_names_are_unique_and_sentences_are_sentences() -> None:
    for name, told in PARTS.items():
        assert told.name == name
        assert told.sentence.endswith(".")
        assert len(told.sentence) < 130, name
        assert len(told.short) <= 32, name


def test_both_names_are_given_where_two_are_used() -> None:
    for name, both in {"p3": ("distal phalanx", "coffin bone"), "navicular": ("navicular", "sesamoid"),
                       "flexor_tendon": ("deep digital flexor", "DDFT")}.items():  # fmt: skip
        assert all(word in part(name).label for word in both)


def test_every_outline_and_landmark_is_told() -> None:
    for name in (*ORDER, *LANDMARKS, *LABELLED):
        assert name in PARTS


def test_everything_pickable_in_a_picture_is_told(one: LoadedFoot) -> None:
    assert set(foot_picture(one, baseline=one.baseline, show=Options()).parts()) <= set(PARTS)


def test_an_unknown_part_is_answered_with_the_nearest() -> None:
    with pytest.raises(BadInput, match="part 'frogg' is not known; did you mean 'frog'"):
        part("frogg")
