"""Text stays readable: contrast of every pair in use, and sizes that a small window can hold."""

import itertools

import pytest

from hoofsim.app.theme import COLOURS, CONTRAST_COLOURS, TEXT_ROLES, contrast_ratio, theme_for

GROUNDS = ("page", "card", "field", "accent_soft", "warn_soft")
INKS = ("ink", "quiet", "accent", "warn")
GROUPS = ("trim", "bonds", "tendon", "load", "shape", "tissue")


@pytest.mark.parametrize("colours", [COLOURS, CONTRAST_COLOURS], ids=["normal", "contrast"])
def test_every_ink_reads_on_every_ground(colours):
    for ink, ground in itertools.product(INKS + GROUPS, GROUNDS):
        assert contrast_ratio(colours[ink], colours[ground]) >= 4.5, (ink, ground)
    for fill in ("accent", *GROUPS):
        assert contrast_ratio(colours["on_accent"], colours[fill]) >= 4.5, fill
    assert contrast_ratio(colours["card"], colours["ink"]) >= 7


def test_the_focus_ring_and_marks_stand_out():
    for colours in (COLOURS, CONTRAST_COLOURS):
        for ground in ("page", "card", "field"):
            assert contrast_ratio(colours["focus"], colours[ground]) >= 3
            assert contrast_ratio(colours["faint"], colours[ground]) >= 3


def test_contrast_ratio_knows_its_ends():
    assert contrast_ratio((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast_ratio((9, 9, 9), (9, 9, 9)) == 1


def test_text_scale_is_held_where_the_window_is_small():
    large = theme_for((1920, 1080), 2.0)
    assert (large.em, large.limited_to_percent) == (30, None)
    small = theme_for((640, 480), 2.0)
    assert small.em < 30
    assert small.limited_to_percent == round(100 * small.em / 15)
    assert theme_for((1280, 800), 9.0).em == 30
    assert theme_for((1280, 800), 0.1).em == 12


def test_every_role_of_text_has_an_opened_face():
    theme = theme_for((1280, 800))
    for role in TEXT_ROLES:
        assert theme.line_height(role) > 0
        assert theme.text_width("Distal phalanx → 3.0°", role) > 0
