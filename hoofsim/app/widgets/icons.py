"""Signs for buttons, drawn from lines in a unit square so that they scale; each is our own."""

import itertools
import math
from collections.abc import Callable
from functools import lru_cache

import pygame

from hoofsim.app.theme import Colour
from hoofsim.app.widgets.painter import FINER, Painter

Point = tuple[float, float]


class _Pen:
    """Draws in a unit square (0..1, y down) of a surface."""

    def __init__(self, surface: pygame.Surface, rect: pygame.Rect, colour: Colour) -> None:
        self.surface, self.rect, self.ink = surface, rect, colour
        self.width = max(2, round(rect.w * 0.085))

    def at(self, point: Point) -> Point:
        """Window position of a point of the square."""
        return self.rect.x + point[0] * self.rect.w, self.rect.y + point[1] * self.rect.h

    def stroke(self, *points: Point) -> None:
        """An open line with round joints."""
        placed = [self.at(point) for point in points]
        for start, end in itertools.pairwise(placed):
            thick_line(self.surface, self.ink, start, end, self.width)

    def area(self, *points: Point) -> None:
        """A filled shape."""
        placed = [self.at(point) for point in points]
        pygame.draw.polygon(self.surface, self.ink, placed)

    def ring(self, centre: Point, radius: float, start: float = 0.0, end: float = 360.0) -> None:
        """An arc of a circle, degrees anticlockwise from the right."""
        steps = 24
        angles = [math.radians(start + (end - start) * step / steps) for step in range(steps + 1)]
        self.stroke(*[(centre[0] + radius * math.cos(a), centre[1] - radius * math.sin(a)) for a in angles])

    def dot(self, centre: Point, radius: float) -> None:
        """A filled disc."""
        pygame.draw.circle(self.surface, self.ink, self.at(centre), radius * self.rect.w)


def thick_line(surface: pygame.Surface, colour: Colour, start: Point, end: Point, width: int) -> None:
    """A line of any width with smooth edges and round ends."""
    if width <= 1:
        pygame.draw.aaline(surface, colour, start, end)
        return
    length = math.hypot(end[0] - start[0], end[1] - start[1])
    radius = width / 2
    if length > 0:
        across = ((start[1] - end[1]) / length * radius, (end[0] - start[0]) / length * radius)
        corners = [
            (start[0] + across[0], start[1] + across[1]),
            (end[0] + across[0], end[1] + across[1]),
            (end[0] - across[0], end[1] - across[1]),
            (start[0] - across[0], start[1] - across[1]),
        ]
        pygame.draw.polygon(surface, colour, corners)
    pygame.draw.circle(surface, colour, start, radius)
    pygame.draw.circle(surface, colour, end, radius)


def _back(pen: _Pen) -> None:
    pen.stroke((0.62, 0.15), (0.27, 0.5), (0.62, 0.85))


def _undo(pen: _Pen) -> None:
    pen.ring((0.52, 0.56), 0.33, -60, 150)
    pen.area((0.08, 0.32), (0.42, 0.36), (0.17, 0.62))


def _redo(pen: _Pen) -> None:
    pen.ring((0.48, 0.56), 0.33, 240, 30)
    pen.area((0.92, 0.32), (0.58, 0.36), (0.83, 0.62))


def _ghost(pen: _Pen) -> None:
    hoof = [(0.12, 0.82), (0.4, 0.2), (0.72, 0.2), (0.9, 0.82)]
    for start, end in zip(hoof, hoof[1:] + hoof[:1], strict=True):
        for step in (0.0, 0.4, 0.8):
            first = (start[0] + (end[0] - start[0]) * step, start[1] + (end[1] - start[1]) * step)
            stop = min(1.0, step + 0.22)
            last = (start[0] + (end[0] - start[0]) * stop, start[1] + (end[1] - start[1]) * stop)
            pen.stroke(first, last)


def _baseline(pen: _Pen) -> None:
    pen.stroke((0.2, 0.12), (0.2, 0.9))
    pen.area((0.22, 0.14), (0.85, 0.32), (0.22, 0.52))


def _keep(pen: _Pen) -> None:
    pen.stroke((0.22, 0.12), (0.78, 0.12), (0.78, 0.88), (0.22, 0.88), (0.22, 0.12))
    pen.stroke((0.36, 0.36), (0.64, 0.36))
    pen.stroke((0.36, 0.55), (0.64, 0.55))


def _hand(pen: _Pen) -> None:
    pen.stroke((0.5, 0.08), (0.5, 0.92))
    pen.stroke((0.08, 0.5), (0.92, 0.5))
    pen.area((0.5, 0.02), (0.36, 0.2), (0.64, 0.2))
    pen.area((0.5, 0.98), (0.36, 0.8), (0.64, 0.8))
    pen.area((0.02, 0.5), (0.2, 0.36), (0.2, 0.64))
    pen.area((0.98, 0.5), (0.8, 0.36), (0.8, 0.64))


def _blade(pen: _Pen) -> None:
    pen.area((0.9, 0.08), (0.5, 0.62), (0.36, 0.5))
    pen.stroke((0.43, 0.58), (0.12, 0.9))


def _brush_away(pen: _Pen) -> None:
    for y in (0.2, 0.42, 0.64, 0.86):
        pen.stroke((0.12, y), (0.4, y))
        pen.stroke((0.62, y), (0.9, y))
    pen.stroke((0.51, 0.05), (0.51, 0.97))


def _brush_back(pen: _Pen) -> None:
    for y in (0.2, 0.42, 0.64, 0.86):
        pen.stroke((0.12, y), (0.9, y))


def _eye(pen: _Pen) -> None:
    pen.stroke((0.04, 0.5), (0.25, 0.29), (0.5, 0.22), (0.75, 0.29), (0.96, 0.5))
    pen.stroke((0.04, 0.5), (0.25, 0.71), (0.5, 0.78), (0.75, 0.71), (0.96, 0.5))
    pen.dot((0.5, 0.5), 0.15)


def _presenter(pen: _Pen) -> None:
    pen.stroke((0.06, 0.14), (0.94, 0.14), (0.94, 0.66), (0.06, 0.66), (0.06, 0.14))
    pen.stroke((0.3, 0.94), (0.5, 0.68), (0.7, 0.94))


def _caution(pen: _Pen) -> None:
    pen.stroke((0.5, 0.1), (0.95, 0.88), (0.05, 0.88), (0.5, 0.1))
    pen.stroke((0.5, 0.4), (0.5, 0.62))
    pen.dot((0.5, 0.76), 0.05)


def _settings(pen: _Pen) -> None:
    for y, x in ((0.2, 0.68), (0.5, 0.3), (0.8, 0.6)):
        pen.stroke((0.06, y), (0.94, y))
        pen.dot((x, y), 0.12)


def _open(pen: _Pen) -> None:
    pen.stroke((0.06, 0.84), (0.06, 0.2), (0.38, 0.2), (0.48, 0.34), (0.94, 0.34), (0.94, 0.84), (0.06, 0.84))


def _save(pen: _Pen) -> None:
    pen.stroke((0.5, 0.08), (0.5, 0.6))
    pen.area((0.26, 0.46), (0.74, 0.46), (0.5, 0.72))
    pen.stroke((0.1, 0.66), (0.1, 0.9), (0.9, 0.9), (0.9, 0.66))


def _more(pen: _Pen) -> None:
    for x in (0.18, 0.5, 0.82):
        pen.dot((x, 0.5), 0.09)


def _picture(pen: _Pen) -> None:
    pen.stroke((0.06, 0.16), (0.94, 0.16), (0.94, 0.84), (0.06, 0.84), (0.06, 0.16))
    pen.area((0.16, 0.76), (0.4, 0.4), (0.58, 0.62), (0.7, 0.5), (0.86, 0.76))
    pen.dot((0.72, 0.32), 0.07)


def _pen_sign(pen: _Pen) -> None:
    pen.stroke((0.14, 0.86), (0.22, 0.6), (0.74, 0.1), (0.9, 0.26), (0.4, 0.78), (0.14, 0.86))


def _reset(pen: _Pen) -> None:
    pen.ring((0.5, 0.52), 0.36, 110, 420)
    pen.area((0.38, 0.02), (0.38, 0.34), (0.66, 0.18))


def _play(pen: _Pen) -> None:
    pen.area((0.22, 0.1), (0.88, 0.5), (0.22, 0.9))


def _pause(pen: _Pen) -> None:
    pen.area((0.2, 0.1), (0.4, 0.1), (0.4, 0.9), (0.2, 0.9))
    pen.area((0.6, 0.1), (0.8, 0.1), (0.8, 0.9), (0.6, 0.9))


def _tick(pen: _Pen) -> None:
    pen.stroke((0.12, 0.54), (0.4, 0.82), (0.9, 0.2))


def _two(pen: _Pen) -> None:
    for x in (0.02, 0.52):
        pen.stroke((x, 0.8), (x + 0.16, 0.24), (x + 0.32, 0.24), (x + 0.44, 0.8), (x, 0.8))


def _book(pen: _Pen) -> None:
    pen.stroke((0.5, 0.24), (0.28, 0.14), (0.06, 0.2), (0.06, 0.84), (0.28, 0.78), (0.5, 0.88))
    pen.stroke((0.5, 0.24), (0.72, 0.14), (0.94, 0.2), (0.94, 0.84), (0.72, 0.78), (0.5, 0.88))
    pen.stroke((0.5, 0.24), (0.5, 0.88))


def _foot(pen: _Pen) -> None:
    pen.stroke((0.08, 0.86), (0.14, 0.5), (0.34, 0.3), (0.58, 0.3), (0.95, 0.86), (0.08, 0.86))
    pen.stroke((0.3, 0.32), (0.16, 0.06))
    pen.stroke((0.56, 0.3), (0.4, 0.04))


def _grow(pen: _Pen) -> None:
    pen.stroke((0.5, 0.1), (0.5, 0.9))
    pen.stroke((0.1, 0.5), (0.9, 0.5))


def _shrink(pen: _Pen) -> None:
    pen.stroke((0.1, 0.5), (0.9, 0.5))


def _tendon(pen: _Pen) -> None:
    pen.stroke((0.1, 0.06), (0.3, 0.5), (0.62, 0.78), (0.92, 0.84))
    pen.stroke((0.34, 0.06), (0.5, 0.42), (0.72, 0.6), (0.92, 0.66))


def _weight(pen: _Pen) -> None:
    pen.stroke((0.5, 0.06), (0.5, 0.56))
    pen.area((0.26, 0.44), (0.74, 0.44), (0.5, 0.74))
    pen.stroke((0.08, 0.92), (0.92, 0.92))


def _ruler(pen: _Pen) -> None:
    pen.stroke((0.06, 0.94), (0.94, 0.94), (0.06, 0.06), (0.06, 0.94))
    pen.stroke((0.3, 0.7), (0.3, 0.58))
    pen.stroke((0.5, 0.94), (0.5, 0.82))


def _dots(pen: _Pen) -> None:
    for x, y in ((0.25, 0.25), (0.7, 0.2), (0.48, 0.5), (0.2, 0.75), (0.76, 0.72)):
        pen.dot((x, y), 0.1)


def _gauge(pen: _Pen) -> None:
    pen.ring((0.5, 0.68), 0.42, 0, 180)
    pen.stroke((0.5, 0.68), (0.72, 0.4))
    pen.stroke((0.08, 0.84), (0.92, 0.84))


def _curve(pen: _Pen) -> None:
    pen.stroke((0.1, 0.06), (0.1, 0.9), (0.94, 0.9))
    pen.stroke((0.2, 0.76), (0.44, 0.66), (0.62, 0.4), (0.9, 0.2))


ICONS: dict[str, Callable[[_Pen], None]] = {
    "back": _back,
    "undo": _undo,
    "redo": _redo,
    "ghost": _ghost,
    "baseline": _baseline,
    "keep": _keep,
    "hand": _hand,
    "blade": _blade,
    "brush_away": _brush_away,
    "brush_back": _brush_back,
    "eye": _eye,
    "presenter": _presenter,
    "caution": _caution,
    "settings": _settings,
    "open": _open,
    "save": _save,
    "more": _more,
    "picture": _picture,
    "pen": _pen_sign,
    "reset": _reset,
    "play": _play,
    "pause": _pause,
    "tick": _tick,
    "two": _two,
    "book": _book,
    "foot": _foot,
    "grow": _grow,
    "shrink": _shrink,
    "tendon": _tendon,
    "weight": _weight,
    "ruler": _ruler,
    "dots": _dots,
    "gauge": _gauge,
    "curve": _curve,
}


@lru_cache(maxsize=512)
def rendered(name: str, size: int, ink: Colour) -> pygame.Surface:
    """One sign in a square of `size` pixels, drawn larger and shrunk; do not draw into what is returned."""
    large = pygame.Surface((size * FINER, size * FINER), pygame.SRCALPHA)
    large.fill((*ink, 0))
    ICONS[name](_Pen(large, large.get_rect(), ink))
    return pygame.transform.smoothscale(large, (size, size))


def draw_icon(painter: Painter, name: str, rect: pygame.Rect, role: str | Colour = "ink") -> None:
    """Draw one sign in a square; KeyError for an unknown name."""
    painter.surface.blit(rendered(name, max(4, rect.w), painter.colour(role)), rect)
