"""Drawing for widgets: boxes and text on one surface, with a record of every text and the box it must fit."""

import math
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache

import pygame

from hoofsim.app.theme import Colour, Theme
from hoofsim.app.widgets.wrapping import wrap_lines

Rect = pygame.Rect
FINER = 4  # times larger that small shapes are drawn before they are shrunk


@dataclass(frozen=True)
class TextRecord:
    """One drawn line of text: where it stands, the box it must fit, the clip in force and its layer."""

    text: str
    box: tuple[int, int, int, int]
    fit: tuple[int, int, int, int]
    clip: tuple[int, int, int, int]
    layer: int
    cut: bool


class Painter:
    """A surface with a theme; text drawn through it is listed in `records`, for the layout report."""

    def __init__(self, surface: pygame.Surface, theme: Theme) -> None:
        self.surface = surface
        self.theme = theme
        self.records: list[TextRecord] = []
        self.layer = 0

    def colour(self, role: str | Colour) -> Colour:
        """A colour, from its role or as it is."""
        return self.theme.colour(role) if isinstance(role, str) else role

    @contextmanager
    def clipped(self, rect: Rect) -> Iterator[None]:
        """Restrict drawing to a rectangle (within the restriction already in force)."""
        before = self.surface.get_clip()
        self.surface.set_clip(before.clip(rect))
        try:
            yield
        finally:
            self.surface.set_clip(before)

    def box(
        self,
        rect: Rect,
        fill: str | Colour | None,
        edge: str | Colour | None = None,
        radius: float = 0.3,
        width: int | None = None,
    ) -> None:
        """A rectangle with rounded corners (radius in body text sizes)."""
        corner = min(self.theme.px(radius), rect.w // 2, rect.h // 2) if radius else 0
        if fill is not None:
            pygame.draw.rect(self.surface, self.colour(fill), rect, border_radius=corner)
        if edge is not None:
            line = self.theme.hairline if width is None else width
            pygame.draw.rect(self.surface, self.colour(edge), rect, line, border_radius=corner)

    def line(
        self, start: tuple[float, float], end: tuple[float, float], role: str | Colour, width: int = 1
    ) -> None:
        """A straight line."""
        if width <= 1:
            pygame.draw.aaline(self.surface, self.colour(role), start, end)
        else:
            pygame.draw.line(self.surface, self.colour(role), start, end, width)

    def smooth(self, points: Sequence[tuple[float, float]], role: str | Colour) -> None:
        """A small filled shape with clean edges: drawn four times as large and shrunk."""
        left, top = (math.floor(min(axis)) - 1 for axis in zip(*points, strict=True))
        right, bottom = (math.ceil(max(axis)) + 1 for axis in zip(*points, strict=True))
        corners = tuple((round((x - left) * FINER), round((y - top) * FINER)) for x, y in points)
        shape = _smooth_shape(corners, (right - left, bottom - top), self.colour(role))
        self.surface.blit(shape, (left, top))

    def sign(self, points: Sequence[tuple[float, float]], role: str | Colour, words: str) -> None:
        """A small filled shape that stands in a line of text as a sign, such as an arrow; recorded as `words`."""
        self.smooth(points, role)
        left, top = (math.floor(min(axis)) for axis in zip(*points, strict=True))
        right, bottom = (math.ceil(max(axis)) for axis in zip(*points, strict=True))
        box, clip = (left, top, right - left, bottom - top), self.surface.get_clip()
        self.records.append(TextRecord(words, box, box, (clip.x, clip.y, clip.w, clip.h), self.layer, False))

    def shade(self, rect: Rect, alpha: int = 110) -> None:
        """Darken a rectangle, behind a dialogue."""
        veil = pygame.Surface(rect.size, pygame.SRCALPHA)
        veil.fill((*self.theme.colour("shade"), alpha))
        self.surface.blit(veil, rect)

    def text_width(self, text: str, role: str = "body") -> int:
        """Width in pixels of one line."""
        pixels, face = self.theme.text_pixels(role)
        return self.theme.fonts.width(text, face, pixels)

    def text(
        self,
        text: str,
        rect: Rect,
        role: str = "body",
        colour: str | Colour = "ink",
        align: str = "left",
        valign: str = "middle",
        wrap: bool = False,
    ) -> int:
        """Draw text inside `rect`; one line unless `wrap`. Returns the height used.

        What does not fit is ended with an ellipsis and recorded as cut: the tests allow none of that.
        """
        pixels, face = self.theme.text_pixels(role)
        fonts = self.theme.fonts
        height = fonts.line_height(face, pixels)
        lines = wrap_lines(text, lambda part: fonts.width(part, face, pixels), rect.w) if wrap else [text]
        used = height * len(lines)
        y = rect.y
        if valign == "middle":
            y += (rect.h - used) // 2
        elif valign == "bottom":
            y += rect.h - used
        for line in lines:
            self._line(line, rect, y, height, face, pixels, self.colour(colour), align)
            y += height
        return used

    def _line(
        self, line: str, fit: Rect, y: int, height: int, face: str, pixels: int, colour: Colour, align: str
    ) -> None:
        fonts = self.theme.fonts
        shown, cut = line, False
        if fonts.width(line, face, pixels) > fit.w:
            cut = True
            while shown and fonts.width(shown + "…", face, pixels) > fit.w:
                shown = shown[:-1]
            shown = shown.rstrip() + "…"
        width = fonts.width(shown, face, pixels)
        x = {"left": fit.x, "centre": fit.x + (fit.w - width) // 2, "right": fit.right - width}[align]
        if line.strip():
            clip = self.surface.get_clip()
            if clip.colliderect((x, y - height, width, 3 * height)):  # letters may reach out of their line
                self.surface.blit(fonts.render(shown, face, pixels, colour), (x, y))
            seen = (clip.x, clip.y, clip.w, clip.h)
            self.records.append(
                TextRecord(line, (x, y, width, height), (fit.x, fit.y, fit.w, fit.h), seen, self.layer, cut)
            )


@lru_cache(maxsize=512)
def _smooth_shape(
    corners: tuple[tuple[int, int], ...], size: tuple[int, int], colour: Colour
) -> pygame.Surface:
    """A filled shape of `size` pixels, its corners in pixels of the enlarged drawing; do not draw into it."""
    large = pygame.Surface((size[0] * FINER, size[1] * FINER), pygame.SRCALPHA)
    large.fill((*colour, 0))
    pygame.draw.polygon(large, colour, corners)
    return pygame.transform.smoothscale(large, size)
