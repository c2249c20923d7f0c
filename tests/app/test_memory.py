"""What the program keeps in memory has a bound, and a program that was left is let go of."""

import gc
import io
import weakref
from pathlib import Path

import pygame
import pytest

from hoofsim.app.application import Application
from hoofsim.app.fonts import KEPT_BYTES, KEPT_FACES, Fonts
from hoofsim.app.loop import Loop
from hoofsim.app.main import render_screen, screen_png, without_window
from hoofsim.app.png import png_bytes
from hoofsim.app.screens.registry import SCREENS
from hoofsim.app.window import close_window, open_window
from hoofsim.drawing.backend_pygame import TEXT_BYTES_KEPT, PicturePainter
from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import DisplayList, Text

BLACK = (0, 0, 0)


def test_words_and_typefaces_are_kept_within_a_bound() -> None:
    fonts = Fonts()
    for number in range(400):
        fonts.render(f"{number} reads as a rather long line of large letters", "bold", 60, BLACK)
    assert KEPT_BYTES / 2 < fonts._kept.weight <= KEPT_BYTES
    for pixels in range(8, 60):
        fonts.render("a", "regular", pixels, BLACK)
    assert len(fonts._open) == KEPT_FACES


def test_words_on_pictures_are_kept_within_a_bound() -> None:
    painter, camera = PicturePainter(), Camera(1.0, (0.0, 0.0), (600, 400))
    for number in range(300):
        words = Text((0.0, 0.0), f"{number} reads as a rather long line", "label", height=80.0)
        painter.paint(DisplayList((words,), (-300.0, -200.0, 300.0, 200.0)), camera)
    assert TEXT_BYTES_KEPT / 2 < painter._texts.weight <= TEXT_BYTES_KEPT


@pytest.mark.parametrize("name", SCREENS)
def test_no_word_in_view_is_rendered_twice_even_on_a_large_screen_at_double_size(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    app, surface = without_window(name, (3840, 2160), 2.0)
    app.draw(surface)
    monkeypatch.setattr(Fonts, "_render", lambda self, text, *rest: pytest.fail(f"rendered anew: {text}"))
    app.draw(surface)


def test_words_out_of_view_are_not_rendered(monkeypatch: pytest.MonkeyPatch) -> None:
    app, surface = without_window("model", (800, 600))
    rendered: list[str] = []
    whole = Fonts._render
    monkeypatch.setattr(
        Fonts, "_render", lambda self, text, *rest: rendered.append(text) or whole(self, text, *rest)
    )
    records = app.draw(surface).records
    assert 20 < len(rendered) < len(records) / 2


def test_a_written_picture_is_the_one_that_was_seen(tmp_path: Path) -> None:
    seen = render_screen("start", (641, 480))
    (tmp_path / "seen.png").write_bytes(png_bytes(seen))
    again = pygame.image.load(tmp_path / "seen.png")
    assert again.get_size() == (641, 480)
    assert pygame.image.tobytes(again, "RGB") == pygame.image.tobytes(seen, "RGB")


def test_nothing_of_a_written_picture_stays_in_memory() -> None:
    before = streams()
    assert screen_png("start", (640, 480)).startswith(b"\x89PNG")
    assert streams() == before


def streams() -> int:
    gc.collect()
    return sum(isinstance(one, io.BytesIO) for one in gc.get_objects())


def test_a_program_that_was_left_is_let_go_of_when_the_next_one_begins() -> None:
    def run() -> weakref.ref[Application]:
        surface = open_window((640, 480))
        app = Application(surface.get_size(), keep=False)
        app.open("start")
        app.open("sandbox")
        pygame.event.post(pygame.event.Event(pygame.QUIT))
        Loop(app, surface).run()
        close_window()
        return weakref.ref(app)

    try:
        left = run()
        run()
        assert left() is None
    finally:
        gc.unfreeze()
