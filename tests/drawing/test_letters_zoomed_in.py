"""A view zoomed far in must not ask for letters larger than the sheet: they once took gigabytes."""

from hoofsim.drawing.backend_pygame import LARGEST_TYPE, PicturePainter
from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import DisplayList, Text


def test_letters_have_a_largest_size(monkeypatch) -> None:
    asked = []
    painter = PicturePainter(fine=False)
    real = painter.font
    painter.font = lambda size, bold: asked.append(size) or real(size, bold)
    word = Text((50.0, 50.0), "coffin bone", "label")
    picture = DisplayList((word,), (0.0, 0.0, 100.0, 100.0))
    camera = Camera.fit(picture.bounds, (300, 300)).zoomed(500.0)
    surface = painter.paint(picture, camera)
    assert asked
    assert max(asked) == LARGEST_TYPE
    assert surface.get_size() == (300, 300)
