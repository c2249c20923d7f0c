"""One picture through every backend: each draws all of it, the same each time, and nothing outside it."""

import io
from xml.etree import ElementTree

import numpy as np
import pygame
import pytest

from hoofsim.drawing.backend_matplotlib import figure, image_bytes
from hoofsim.drawing.backend_pygame import PicturePainter, bar, strip
from hoofsim.drawing.backend_svg import svg
from hoofsim.drawing.backend_text import LETTERS, characters, dump
from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import Arrow, Circle, DisplayList, Group, Polygon, Polyline, Text, Tie
from hoofsim.drawing.lowering import AreaMark, DiscMark, marks
from hoofsim.drawing.palette import HIGH_CONTRAST, NORMAL
from hoofsim.frames import Array

SPACE = "{http://www.w3.org/2000/svg}"
BONE = Polygon(((10.0, 10.0), (40.0, 10.0), (40.0, 40.0), (10.0, 40.0)), "bone", "p3")
PICTURE = DisplayList(
    (
        Group((Polygon(((0.0, 0.0), (100.0, 0.0), (100.0, 6.0), (0.0, 6.0)), "ground", "ground"),), still=True),
        BONE,
        Polygon(((50.0, 10.0), (90.0, 10.0), (70.0, 40.0)), "bone_beyond", "palmar_process"),
        Polyline(((5.0, 45.0), (50.0, 50.0), (95.0, 45.0)), "ghost", "ghost"),
        Arrow((20.0, 60.0), (20.0, 42.0), "force", "load"),
        Circle((25.0, 25.0), 2.0, "joint_centre", "cor"),
        Tie((40.0, 20.0), (50.0, 20.0), "lamina", 0.2, 0.9, 0.0, "laminae"),
        Text((50.0, 56.0), "P3 & <coffin> \"bone\"", "label", 4.0, ("centre", "middle"), 0, "p3"),
        Text((97.0, 30.0), "upward", "label", 4.0, ("right", "middle"), 90),
    ),
    (0.0, 0.0, 100.0, 64.0),
    "A <test> & title",
    "What it shows & why",
)  # fmt: skip


def pixels(fine: bool = True, picture: DisplayList = PICTURE) -> Array:
    surface = PicturePainter(fine=fine).paint(picture, Camera.fit(picture.bounds, (500, 320), margin=0.0))
    return np.transpose(pygame.surfarray.array3d(surface), (1, 0, 2)).astype(float)


def at(image: Array, x: float, y: float) -> Array:
    """The colour drawn at a place in mm."""
    column, row = Camera.fit(PICTURE.bounds, (500, 320), margin=0.0).to_pixels((x, y))
    return image[int(row), int(column)]


# text ---------------------------------------------------------------------------------------------------------------


def test_the_dump_has_a_line_for_every_primitive() -> None:
    lines = dump(PICTURE).splitlines()
    assert len(lines) == 3 + len(list(PICTURE.primitives()))
    assert lines[4] == "polygon bone p3 10.00,10.00 40.00,10.00 40.00,40.00 10.00,40.00"
    assert lines[-2] == 'text label p3 50.00,56.00 4.00 centre-middle 0 P3 & <coffin> "bone"'


def test_the_dump_never_prints_a_negative_nought() -> None:
    picture = DisplayList((Circle((-1e-9, 0.0), 1.0, "landmark"),), (0, 0, 1, 1))
    assert "circle landmark - 0.00,0.00 1.00" in dump(picture)


def test_the_letters_show_areas_and_words() -> None:
    sketch = characters(PICTURE, columns=80)
    assert max(len(line) for line in sketch.splitlines()) <= 80
    assert sketch.count(LETTERS["bone"]) > 100
    assert "P3 & <coffin>" in sketch


# SVG ----------------------------------------------------------------------------------------------------------------


def test_svg_is_well_formed_escaped_and_titled() -> None:
    tree = ElementTree.fromstring(svg(PICTURE))
    assert tree.findtext(f"{SPACE}title") == "A <test> & title"
    assert tree.findtext(f"{SPACE}desc") == "What it shows & why"
    assert [text.text for text in tree.iter(f"{SPACE}text")] == ['P3 & <coffin> "bone"', "upward"]


def test_svg_needs_nothing_from_outside() -> None:
    written = svg(PICTURE).replace("http://www.w3.org/2000/svg", "")
    for word in ("http", "href", "url(", "@import", "<script", "<style"):
        assert word not in written


def test_svg_names_the_parts() -> None:
    tree = ElementTree.fromstring(svg(PICTURE))
    parts = {group.get("data-part") for group in tree.iter(f"{SPACE}g")}
    assert {"p3", "ground", "load", "cor", "laminae"} <= parts


def test_svg_stays_in_its_frame() -> None:
    tree = ElementTree.fromstring(svg(PICTURE, width=1000))
    assert tree.get("viewBox") == "0 0 1000 640"
    for path in tree.iter(f"{SPACE}path"):
        numbers = [
            float(n) for n in path.get("d", "").replace("M", " ").replace("L", " ").replace("Z", " ").split()
        ]
        assert min(numbers) >= -1
        assert max(numbers[::2]) <= 1001


def test_palettes_change_colours_only() -> None:
    normal, strong = svg(PICTURE), svg(PICTURE, palette=HIGH_CONTRAST)
    assert normal != strong
    assert normal.count("<path") == strong.count("<path")


# matplotlib ---------------------------------------------------------------------------------------------------------


def test_matplotlib_page_has_the_shape_and_words_of_the_picture() -> None:
    drawn = figure(PICTURE, width_inches=5.0)
    assert drawn.get_size_inches() == pytest.approx([5.0, 3.2])
    assert [text.get_text() for text in drawn.axes[0].texts] == ['P3 & <coffin> "bone"', "upward"]


@pytest.mark.parametrize(("ending", "start"), [("png", b"\x89PNG"), ("pdf", b"%PDF")])
def test_matplotlib_gives_files_equal_whenever_they_are_made(ending: str, start: bytes) -> None:
    first, again = (image_bytes(PICTURE, ending, width_inches=3.0, dots_per_inch=60) for _ in range(2))
    assert first.startswith(start)
    assert first == again


def test_a_dollar_sign_is_a_dollar_sign() -> None:
    drawn = figure(DisplayList((Text((1.0, 1.0), "5 $ or 6 $", "label"),), (0, 0, 20, 10)), width_inches=2.0)
    drawn.savefig(io.BytesIO(), format="png")
    assert drawn.axes[0].texts[0].get_text() == r"5 \$ or 6 \$"


# pygame -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("fine", [True, False])
def test_pygame_puts_colours_where_they_belong(fine: bool) -> None:
    image = pixels(fine)
    assert at(image, 15, 15) == pytest.approx(np.array([246, 235, 205]), abs=2)
    assert at(image, 45, 30) == pytest.approx(np.array([251, 249, 244]), abs=2)
    assert at(image, 20, 52)[0] > at(image, 20, 52)[2] + 60, "the force arrow is red"


def test_pygame_repeats_itself_and_keeps_still_layers() -> None:
    painter, camera = PicturePainter(), Camera.fit(PICTURE.bounds, (300, 200))
    first, again = (pygame.image.tobytes(painter.paint(PICTURE, camera), "RGB") for _ in range(2))
    fresh = pygame.image.tobytes(PicturePainter().paint(PICTURE, camera), "RGB")
    assert first == again == fresh


def test_pygame_redraws_a_still_layer_that_changed() -> None:
    painter, camera = PicturePainter(), Camera.fit(PICTURE.bounds, (300, 200))
    before = pygame.image.tobytes(painter.paint(PICTURE, camera), "RGB")
    moved = Group((Polygon(((0.0, 0.0), (50.0, 0.0), (50.0, 6.0)), "ground"),), still=True)
    other = DisplayList((moved, *PICTURE.items[1:]), PICTURE.bounds)
    assert pygame.image.tobytes(painter.paint(other, camera), "RGB") != before
    assert pygame.image.tobytes(painter.paint(PICTURE, camera), "RGB") == before


def test_pygame_edges_are_smooth() -> None:
    """A slanting edge shows more than the two colours on its sides."""
    picture = DisplayList((Polygon(((0.0, 0.0), (100.0, 0.0), (100.0, 20.0)), "capsule"),), (0, 0, 100, 64))
    for fine in (True, False):
        row = pixels(fine, picture)[300]
        assert len({tuple(colour) for colour in row.tolist()}) > 4


def test_pygame_survives_a_view_far_away() -> None:
    surface = PicturePainter().paint(PICTURE, Camera(200.0, (1e5, 1e5), (100, 100)))
    assert surface.get_at((50, 50))[:3] == (251, 249, 244)


def test_pygame_draws_the_same_with_and_without_keeping_places_in_reach() -> None:
    """Bounds far beyond the picture make every place be held within what a surface can take."""
    wide = DisplayList(PICTURE.items, (-1e6, -1e6, 1e6, 1e6))
    camera = Camera.fit(PICTURE.bounds, (500, 320))
    for fine in (True, False):
        kept, free = (pygame.image.tobytes(PicturePainter(fine=fine).paint(one, camera), "RGB")
                      for one in (wide, PICTURE))  # fmt: skip
        assert kept == free


@pytest.mark.parametrize("scale", [2.0, 4.4])
def test_pygame_stamps_dots_where_discs_would_be(scale: float) -> None:
    area = Polygon(((0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)), "cushion")
    camera = Camera(scale, (15.0, 10.0), (200, 160))
    painter = PicturePainter(fine=False)
    stamped = painter.paint(DisplayList((area,), (0.0, 0.0, 30.0, 20.0)), camera)
    drawn = painter.paint(DisplayList((), (0.0, 0.0, 30.0, 20.0)), camera)
    for mark in marks(area, NORMAL):
        places = [camera.to_pixels(place) for place in getattr(mark, "points", ())]
        if isinstance(mark, AreaMark):
            pygame.draw.polygon(drawn, mark.colour, places)
        elif isinstance(mark, DiscMark):
            place, radius = camera.to_pixels(mark.centre), mark.radius * scale
            if radius < 1.0:
                drawn.set_at([int(value) for value in place], mark.colour)
            pygame.draw.circle(drawn, mark.colour, place, radius)
        else:
            pygame.draw.aalines(drawn, mark.colour, True, places)
    assert pygame.image.tobytes(stamped, "RGB") == pygame.image.tobytes(drawn, "RGB")


def test_pygame_writes_after_a_window_was_closed() -> None:
    before = pixels()
    pygame.font.quit()
    pygame.font.init()
    assert np.array_equal(pixels(), before)


def test_a_strip_has_the_width_asked_for() -> None:
    outline = strip(np.array([[0.0, 0.0], [10.0, 0.0], [20.0, 0.0]]), 4.0, closed=False)
    assert outline[:, 1].min() == -2.0
    assert outline[:, 1].max() == 2.0
    assert np.array(bar((0.0, 0.0), (10.0, 0.0), 4.0))[:, 1].tolist() == [2.0, 2.0, -2.0, -2.0]


def test_every_primitive_is_drawn_by_the_normal_palette() -> None:
    for primitive in PICTURE.primitives():
        assert NORMAL.style(primitive.role)
