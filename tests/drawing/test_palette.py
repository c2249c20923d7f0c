"""Colours can be read, told apart without colour vision, and every role that is drawn has a look."""

import re
from pathlib import Path

import numpy as np
import pytest

import hoofsim.drawing
from hoofsim.drawing.palette import HIGH_CONTRAST, NORMAL, PALETTES, PATTERNS, Palette, red_green_blue_alpha
from hoofsim.errors import BadInput

TEXT_ROLES = ("title", "label", "note", "warning", "dimension_text", "force_text", "tick_text")
# Pairs of tissues that touch in the picture.
NEIGHBOURS = (
    ("bone", "lamellar_zone"), ("lamellar_zone", "horn"), ("bone", "solar_dermis"), ("solar_dermis", "sole"),
    ("solar_dermis", "frog"), ("sole", "frog"), ("sole", "white_line"), ("white_line", "horn"), ("cushion", "tendon"),
    ("cushion", "frog"), ("cushion", "solar_dermis"), ("tendon", "bone"), ("tendon", "skin"), ("extensor", "bone"),
    ("coronet", "horn"), ("coronet", "skin"), ("joint", "bone"), ("ligament", "bone"), ("skin", "bone"),
    ("horn", "skin"), ("frog", "ground"), ("wedge", "ground"),
)  # fmt: skip
# Linear-light matrices for full colour blindness of each kind (Machado, Oliveira and Fernandes 2009, severity 1).
BLINDNESS = {
    "none": np.eye(3),
    "protan": np.array([[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216],
                        [-0.003882, -0.048116, 1.051998]]),
    "deutan": np.array([[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413],
                        [-0.011820, 0.042940, 0.968881]]),
    "tritan": np.array([[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602],
                        [0.004733, 0.691367, 0.303900]]),
}  # fmt: skip
TELLABLE = 8.0  # CIE 1976 colour difference that two touching areas need unless their patterns differ


def linear(colour: str) -> np.ndarray:
    """Red, green and blue light, 0 to 1."""
    share = np.array(red_green_blue_alpha(colour)[:3]) / 255
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours as the web accessibility guidelines define it."""
    light, dark = sorted((float(linear(c) @ [0.2126, 0.7152, 0.0722]) for c in (one, other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def lab(light: np.ndarray) -> np.ndarray:
    """CIE L*a*b* of linear light."""
    to_xyz = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
    x, y, z = np.cbrt(np.clip(to_xyz @ light / [0.9505, 1.0, 1.089], 1e-4, None))
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


def difference(one: str, other: str, blindness: str) -> float:
    seen = [lab(np.clip(BLINDNESS[blindness] @ linear(colour), 0, 1)) for colour in (one, other)]
    return float(np.linalg.norm(seen[0] - seen[1]))


def test_contrast_of_black_on_white_is_twenty_one() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)


def test_red_and_green_of_one_lightness_are_alike_to_a_deutan_eye() -> None:
    assert difference("#c05050", "#7f7f32", "deutan") < 0.5 * difference("#c05050", "#7f7f32", "none")


@pytest.mark.parametrize("palette", [NORMAL, HIGH_CONTRAST], ids=lambda palette: palette.name)
@pytest.mark.parametrize("role", TEXT_ROLES)
def test_words_can_be_read(palette: Palette, role: str) -> None:
    style = palette.style(role)
    least = 4.5 if palette is NORMAL else 7.0
    for ground in (palette.style("paper").fill, palette.style("chart_frame").fill, style.halo):
        assert style.fill is not None
        assert ground is not None
        assert contrast(style.fill, ground) >= least, ground


@pytest.mark.parametrize("palette", [NORMAL, HIGH_CONTRAST], ids=lambda palette: palette.name)
@pytest.mark.parametrize("blindness", sorted(BLINDNESS))
def test_touching_tissues_can_be_told_apart(palette: Palette, blindness: str) -> None:
    for one, other in NEIGHBOURS:
        first, second = palette.style(one), palette.style(other)
        assert first.fill is not None
        assert second.fill is not None
        apart = difference(first.fill, second.fill, blindness)
        assert apart >= TELLABLE or first.pattern != second.pattern, f"{one} against {other}: {apart:.1f}"


@pytest.mark.parametrize("blindness", sorted(BLINDNESS))
def test_edges_stand_out_from_their_fill(blindness: str) -> None:
    for role, style in NORMAL.styles.items():
        if style.fill and style.edge and not role.startswith("series_") and len(style.fill) == 7:
            assert difference(style.fill, style.edge, blindness) > 15, role


def test_only_areas_are_translucent() -> None:
    for palette in PALETTES.values():
        for role, style in palette.styles.items():
            for colour in (style.edge, style.pattern_colour, style.halo):
                assert colour is None or len(colour) == 7, role
            assert style.pattern in PATTERNS
            assert (style.pattern == "none") == (style.pattern_colour is None), role


def test_series_differ_without_colour() -> None:
    looks = [NORMAL.style(f"series_{number}").dash for number in range(1, 7)]
    assert len(set(looks)) == 6


def test_both_palettes_know_the_same_roles() -> None:
    assert set(NORMAL.styles) == set(HIGH_CONTRAST.styles)


def test_every_role_named_in_the_room_has_a_look() -> None:
    """Roles are written as plain words; each second argument of a primitive in this room must be in the palette."""
    folder = Path(hoofsim.drawing.__file__).parent
    named = set()
    for file in folder.glob("*.py"):
        named |= set(re.findall(r'(?<=[ (])role="(\w+)"', file.read_text(encoding="utf-8")))
        named |= set(re.findall(r'(?:Polygon|Polyline)\([^"]*?, "(\w+)"', file.read_text(encoding="utf-8")))
    assert len(named) > 8
    assert named <= set(NORMAL.styles)


def test_an_unknown_role_is_answered_with_the_nearest() -> None:
    with pytest.raises(BadInput, match="drawing role 'bonne' is not known; did you mean 'bone'"):
        NORMAL.style("bonne")
