"""Opening the window, and drawing a screen without one."""

import os
import sys
from pathlib import Path

import pygame

from hoofsim.app.application import Application
from hoofsim.app.density import read_display, scale_factor
from hoofsim.app.loop import Loop
from hoofsim.app.lost_display import watch
from hoofsim.app.png import png_bytes
from hoofsim.app.settings import Settings, load_settings
from hoofsim.app.window import (
    LEAST_SIZE,
    close_window,
    open_window,
    prepare_environment,
    start_display,
    start_size,
)
from hoofsim.errors import BadInput, HoofsimError
from hoofsim.lessons.store import Store
from hoofsim.session.store import user_folder
from hoofsim.writing import clear_unfinished

LARGEST_SIDE = 8000


def main(path: str | None = None) -> int:
    """Open the window, on a sandbox file if one is given; the exit code of the program."""
    prepare_environment()
    clear_leftovers()
    settings, trouble = load_settings()
    try:
        start_display()
        density = scale_factor(read_display())
        surface = open_window(start_size(settings.screen_factor(density)))
    except HoofsimError as problem:
        print(f"hoofsim: {problem}", file=sys.stderr)
        return problem.exit_code
    try:
        app = Application(surface.get_size(), settings, density=density)
        app.open("start")
        if path is not None:
            app.open_file(Path(path))
        if not settings.cautions_seen:
            app.open("cautions")
        if trouble:
            app.say(trouble)
        watch(app.keep_recovery)
        Loop(app, surface).run()
        app.recovery.release()
    except pygame.error as problem:
        print(
            f"hoofsim: the window was lost ({problem}); the sitting was kept, start again to continue",
            file=sys.stderr,
        )
        return 1
    finally:
        close_window()
    return 0


def clear_leftovers() -> None:
    """Remove what a killed program left unfinished among the files that it keeps."""
    try:
        folder, lessons = user_folder(), Store.default().folder
        clear_unfinished(folder, "settings.yaml", "recovery*.yaml")
        for learner in lessons.iterdir() if lessons.is_dir() else ():
            clear_unfinished(learner, "*")
    except (BadInput, OSError):  # nowhere to keep files, which is said when one is to be kept
        return


def render_screen(name: str, size: tuple[int, int] = (1280, 800), text_scale: float = 1.0) -> pygame.Surface:
    """A screen drawn without a window; BadInput for an unknown name or an impossible size."""
    if not all(least <= side <= LARGEST_SIDE for least, side in zip(LEAST_SIZE, size, strict=True)):
        raise BadInput(
            f"size {size[0]}x{size[1]} is out of range: allowed {LEAST_SIZE[0]}x{LEAST_SIZE[1]} to "
            f"{LARGEST_SIDE}x{LARGEST_SIDE}"
        )
    if not 0.8 <= text_scale <= 2.0:
        raise BadInput(f"text scale {text_scale:g} is out of range: allowed 0.8 to 2")
    app, surface = without_window(name, size, text_scale)
    for _ in range(90):  # a second and a half: what arrives by and by has arrived
        app.advance(1 / 60)
    app.draw(surface)
    return surface


def without_window(
    name: str, size: tuple[int, int] = (1280, 800), text_scale: float = 1.0
) -> tuple[Application, pygame.Surface]:
    """The program on one of its screens, and a surface to draw it on, with no window and nothing kept on disk."""
    os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
    prepare_environment()
    pygame.font.init()
    app = Application(size, Settings(text_percent=round(100 * text_scale), cautions_seen=True), keep=False)
    app.open(name)
    return app, pygame.Surface(size)


def screen_png(name: str, size: tuple[int, int] = (1280, 800), text_scale: float = 1.0) -> bytes:
    """A screen drawn without a window, as the bytes of a PNG file."""
    return png_bytes(render_screen(name, size, text_scale))
