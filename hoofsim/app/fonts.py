"""Typefaces: four faces carried with the program, opened once a size, with rendered words kept for reuse."""

from functools import lru_cache

import pygame

from hoofsim.drawing.kept import Kept, raster_bytes
from hoofsim.resources import assets_folder

FACES = {
    "regular": "OpenSans-Regular.ttf",
    "bold": "OpenSans-Semibold.ttf",
    "italic": "OpenSans-Italic.ttf",
    "fixed": "DejaVuSansMono.ttf",
}
# Signs that the text faces lack and the fixed-width face has.
ONLY_IN_FIXED = frozenset("→←↑↓▲▼✓✗○●ₙₛ")
KEPT_FACES = 32  # a theme and its enlargement for the presenter take twenty
KEPT_BYTES = 16_000_000  # several windows full of words

Colour = tuple[int, int, int]


class Fonts:
    """Measures and renders single lines of text; holds the opened faces and the most recent renderings."""

    def __init__(self) -> None:
        if not pygame.font.get_init():
            pygame.font.init()
        self._open: Kept[tuple[str, int], pygame.font.Font] = Kept(KEPT_FACES, lambda face: 1)
        self._kept: Kept[tuple[str, str, int, Colour], pygame.Surface] = Kept(KEPT_BYTES, raster_bytes)
        self._widths: dict[tuple[str, str, int], int] = {}

    def face(self, face: str, pixels: int) -> pygame.font.Font:
        """The opened face at a pixel size."""
        return self._open.get(
            (face, pixels),
            lambda: pygame.font.Font(str(assets_folder() / "fonts" / FACES[face]), pixels),
        )

    def line_height(self, face: str, pixels: int) -> int:
        """Distance between base lines in pixels."""
        return self.face(face, pixels).get_linesize()

    def width(self, text: str, face: str, pixels: int) -> int:
        """Width of one line in pixels."""
        key = (text, face, pixels)
        if key not in self._widths:
            if len(self._widths) > 20000:
                self._widths.clear()
            self._widths[key] = sum(
                self.face(run_face, pixels).size(run)[0] for run, run_face in runs(text, face)
            )
        return self._widths[key]

    def render(self, text: str, face: str, pixels: int, colour: Colour) -> pygame.Surface:
        """One line of text on a transparent surface; do not draw into what is returned."""
        return self._kept.get((text, face, pixels, colour), lambda: self._render(text, face, pixels, colour))

    def _render(self, text: str, face: str, pixels: int, colour: Colour) -> pygame.Surface:
        parts = runs(text, face)
        if len(parts) == 1:
            return self.face(parts[0][1], pixels).render(parts[0][0], True, colour)
        base = self.face(face, pixels).get_ascent()
        surface = pygame.Surface(
            (self.width(text, face, pixels), self.line_height(face, pixels)), pygame.SRCALPHA
        )
        x = 0
        for run, run_face in parts:
            opened = self.face(run_face, pixels)
            surface.blit(opened.render(run, True, colour), (x, base - opened.get_ascent()))
            x += opened.size(run)[0]
        return surface


@lru_cache(maxsize=4096)
def runs(text: str, face: str) -> tuple[tuple[str, str], ...]:
    """The text cut where a sign must come from the fixed-width face: pairs of (piece, face)."""
    if not ONLY_IN_FIXED.intersection(text):
        return ((text, face),)
    pieces: list[tuple[str, str]] = []
    for sign in text:
        wanted = "fixed" if sign in ONLY_IN_FIXED else face
        if pieces and pieces[-1][1] == wanted:
            pieces[-1] = (pieces[-1][0] + sign, wanted)
        else:
            pieces.append((sign, wanted))
    return tuple(pieces)
