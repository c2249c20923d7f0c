"""Opening, sizing and losing the window; nothing but display and font of pygame is started."""

import os
import sys

import pygame

from hoofsim.errors import HoofsimError

START_SIZE = (1280, 800)
LEAST_SIZE = (640, 480)


class NoDisplay(HoofsimError):
    """There is no screen to open a window on."""

    exit_code = 2


def prepare_environment() -> None:
    """What SDL reads when it starts; what the person has set stays."""
    # Own pixels instead of a picture enlarged by the system; what is drawn is enlarged by `hoofsim.app.density`.
    os.environ.setdefault("SDL_WINDOWS_DPI_AWARENESS", "system")
    if not has_graphics_device():
        os.environ.setdefault("SDL_FRAMEBUFFER_ACCELERATION", "0")


def has_graphics_device() -> bool:
    """Whether the machine seems to have a graphics processor; without one an accelerated frame buffer is slower."""
    return not sys.platform.startswith("linux") or os.path.isdir("/dev/dri")


def start_display() -> None:
    """Start display and font, where they are not; NoDisplay in one sentence when there is no screen."""
    try:
        pygame.display.init()
        pygame.font.init()
    except pygame.error as problem:
        raise no_display(problem) from None


def no_display(problem: pygame.error) -> NoDisplay:
    """The sentence for a window that cannot be opened."""
    return NoDisplay(
        f"no window can be opened ({problem}): run hoofsim where there is a screen, or use its commands "
        "that need none, such as 'hoofsim solve'"
    )


def start_size(scale: float) -> tuple[int, int]:
    """The size of a first window that is drawn `scale` times as large as usual, in pixels."""
    return round(START_SIZE[0] * scale), round(START_SIZE[1] * scale)


def open_window(size: tuple[int, int] = START_SIZE, fullscreen: bool = False) -> pygame.Surface:
    """A resizable window, no larger than the desktop; NoDisplay in one sentence when there is no screen."""
    start_display()
    try:
        desktops = pygame.display.get_desktop_sizes()
        if desktops and not fullscreen:
            wide, high = desktops[0]
            size = (max(LEAST_SIZE[0], min(size[0], wide)), max(LEAST_SIZE[1], min(size[1], high)))
        flags = pygame.FULLSCREEN if fullscreen else pygame.RESIZABLE
        surface = pygame.display.set_mode((0, 0) if fullscreen else size, flags)
    except pygame.error as problem:
        raise no_display(problem) from None
    pygame.display.set_caption("hoofsim")
    pygame.display.set_icon(icon())
    pygame.key.set_repeat(350, 40)
    return surface


def icon() -> pygame.Surface:
    """The window's sign: a hoof in outline on a round sheet."""
    surface = pygame.Surface((64, 64), pygame.SRCALPHA)
    pygame.draw.aacircle(surface, (251, 248, 241), (32, 32), 31)
    hoof = [(10, 50), (17, 27), (31, 18), (41, 18), (56, 50)]
    pygame.draw.polygon(surface, (164, 143, 116), hoof)
    pygame.draw.aalines(surface, (37, 33, 28), True, hoof)
    pygame.draw.polygon(surface, (246, 235, 205), [(20, 40), (34, 23), (48, 44)])
    return surface


def close_window() -> None:
    """Close the window. Type stays open: faces that are kept for drawing would be void without it."""
    pygame.display.quit()
