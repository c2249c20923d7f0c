"""Display lists on a pygame surface, anti-aliased.

Fine mode draws at twice the size and shrinks; plain mode draws anti-aliased edges directly and is faster. Text is
always drawn at the final size, on top. Groups marked `still` at the back of the list are kept as a picture between
frames.
"""

import threading
from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import chain, islice, takewhile

import numpy as np
import pygame
from pygame import gfxdraw

from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import Bounds, DisplayList, Group, Item, Point, flatten
from hoofsim.drawing.kept import Kept, raster_bytes
from hoofsim.drawing.lowering import (
    AreaMark,
    DiscMark,
    DotsMark,
    LineMark,
    LinesMark,
    TextMark,
    bundles,
)
from hoofsim.drawing.palette import NORMAL, Palette, red_green_blue_alpha
from hoofsim.drawing.typeface import typeface_file
from hoofsim.foot.curves import left_of
from hoofsim.frames import Array

FontSource = Callable[[int, bool], pygame.font.Font]
Pixels = list[tuple[float, float]]
SUPERSAMPLING, SMALLEST_TYPE, LARGEST_TYPE, FAR = 2, 7, 120, 16000.0  # times, px, px, px
FONTS_KEPT, TEXT_BYTES_KEPT = 16, 8_000_000


@lru_cache(maxsize=FONTS_KEPT)
def _opened_font(size: int, bold: bool) -> pygame.font.Font:
    return pygame.font.Font(typeface_file(bold), size)


def default_font(size: int, bold: bool) -> pygame.font.Font:
    """The carried typeface at `size` px."""
    if not pygame.font.get_init():
        pygame.font.init()
    try:
        _opened_font(size, bold).get_height()
    except pygame.error:  # opened before a window was closed, which closes every font
        _opened_font.cache_clear()
    return _opened_font(size, bold)


# As seen: two pictures painted at once, in two threads, spoil a few pixels of each other.
_ONE_AT_A_TIME = threading.Lock()


class PicturePainter:
    """Paints display lists; keep one per viewport, since it holds the pictures of the still layers and of the texts."""

    def __init__(self, palette: Palette = NORMAL, fine: bool = True, font: FontSource = default_font) -> None:
        self.palette = palette
        self.fine = fine
        self.font = font
        self._still_key: tuple[object, ...] | None = None
        self._still_layer: pygame.Surface | None = None
        self._still_texts: list[TextMark] = []
        self._texts: Kept[tuple[object, ...], pygame.Surface] = Kept(TEXT_BYTES_KEPT, raster_bytes)

    def paint(self, picture: DisplayList, camera: Camera) -> pygame.Surface:
        """A new surface of `camera.size` px with the picture on the palette's paper."""
        with _ONE_AT_A_TIME:
            return self._paint(picture, camera)

    def _paint(self, picture: DisplayList, camera: Camera) -> pygame.Surface:
        view = _View(camera.enlarged(SUPERSAMPLING) if self.fine else camera, picture.bounds)
        still, moving = _split(picture.items)
        surface = self._background(still, view).copy()
        texts = [*self._still_texts, *self._draw_all(surface, moving, view)]
        if self.fine:
            surface = pygame.transform.smoothscale(surface, camera.size)
        for mark in texts:
            self._write(surface, mark, camera)
        return surface

    def _background(self, still: tuple[Item, ...], view: "_View") -> pygame.Surface:
        key = (still, view.camera, self.palette.name)
        if self._still_layer is None or key != self._still_key:
            layer = pygame.Surface(view.camera.size)
            layer.fill(_colour(self.palette.style("paper").fill or "#ffffff")[:3])
            self._still_texts = self._draw_all(layer, still, view)
            self._still_key, self._still_layer = key, layer
        return self._still_layer

    def _draw_all(self, surface: pygame.Surface, items: Sequence[Item], view: "_View") -> list[TextMark]:
        """Draw all but the texts, which are given back."""
        texts: list[TextMark] = []
        for primitive in flatten(items):
            made = bundles(primitive, self.palette)
            edged = isinstance(made[-1], LineMark) and made[-1].closed if made else False
            for bundle in made:
                if isinstance(bundle, TextMark):
                    texts.append(bundle)
                else:
                    self._draw(surface, bundle, view, edged)
        return texts

    def _draw(
        self, surface: pygame.Surface, bundle: AreaMark | LineMark | LinesMark | DiscMark | DotsMark,
        view: "_View", edged: bool,
    ) -> None:  # fmt: skip
        if isinstance(bundle, AreaMark):
            self._fill(surface, view.pixels(bundle.points), _colour(bundle.colour), edged)
        elif isinstance(bundle, LineMark):
            lines = [view.pixels(bundle.points)]
            self._strokes(surface, lines, bundle.colour, bundle.width * view.scale, bundle.closed)
        elif isinstance(bundle, LinesMark):
            places = iter(view.pixels(tuple(chain.from_iterable(bundle.lines))))
            lines = [list(islice(places, len(line))) for line in bundle.lines]
            self._strokes(surface, lines, bundle.colour, bundle.width * view.scale, False)
        elif isinstance(bundle, DiscMark):
            self._disc(surface, bundle, view)
        else:
            self._dots(surface, bundle, view)

    def _fill(
        self, surface: pygame.Surface, corners: Pixels, colour: tuple[int, int, int, int], edged: bool = False
    ) -> None:
        """A filled shape; the rim of an area that is `edged` comes to lie under its edge and needs no smoothing."""
        if len(corners) < 3:
            return
        if colour[3] < 255:
            gfxdraw.filled_polygon(surface, corners, colour)
            return
        pygame.draw.polygon(surface, colour[:3], corners)
        if not (self.fine or edged):
            pygame.draw.aalines(surface, colour[:3], True, corners)

    def _strokes(
        self, surface: pygame.Surface, lines: Sequence[Pixels], colour: str, width: float, closed: bool
    ) -> None:
        """Lines of `width` px."""
        ink = _colour(colour)
        fine_line = pygame.draw.lines if self.fine else pygame.draw.aalines
        body = (
            width if self.fine else width - 1.0
        )  # the smooth line round it adds half a pixel on either side
        for pixels in lines:
            if len(pixels) < 2:
                continue
            if width < 1.6:
                fine_line(surface, ink[:3], closed, pixels)
            elif len(pixels) == 2:
                self._fill(surface, bar(pixels[0], pixels[1], body), ink)
            else:
                self._fill(surface, strip(np.array(pixels), body, closed).tolist(), ink)

    def _dots(self, surface: pygame.Surface, mark: DotsMark, view: "_View") -> None:
        """Dots of a pattern: alike, so that one is drawn and then stamped."""
        colour, radius = _colour(mark.colour)[:3], mark.radius * view.scale
        places = view.pixels(mark.centres)
        if not (self.fine or radius < 2.0):
            for place in places:
                pygame.draw.aacircle(surface, colour, place, radius)
            return
        stamp, middle = _stamp(colour, radius)
        surface.fblits([(stamp, (int(x) - middle, int(y) - middle)) for x, y in places])

    def _disc(self, surface: pygame.Surface, mark: DiscMark, view: "_View") -> None:
        ((x, y),) = view.pixels((mark.centre,))
        rim = 0.5 * mark.width * view.scale if mark.rim else 0.0
        radius = mark.radius * view.scale
        for reach, colour in ((radius + rim, mark.rim), (radius - rim, mark.colour)):
            if colour is None:
                continue
            draw = _dot if self.fine or reach < 2.0 else pygame.draw.aacircle
            draw(surface, _colour(colour)[:3], (x, y), reach)

    def _write(self, surface: pygame.Surface, mark: TextMark, camera: Camera) -> None:
        text = mark.text
        # A view zoomed far in before its words are placed anew would ask for letters larger than the sheet.
        size = min(max(SMALLEST_TYPE, round(text.height * camera.scale)), LARGEST_TYPE)
        key = (text.text, size, mark.colour, mark.halo, mark.bold, text.turn)
        lettering = self._texts.get(key, lambda: self._lettering(mark, size))
        x, y = camera.to_pixels(text.at)
        left = x - {"left": 0.0, "centre": 0.5, "right": 1.0}[text.anchor[0]] * lettering.get_width()
        top = y - {"top": 0.0, "middle": 0.5, "bottom": 1.0}[text.anchor[1]] * lettering.get_height()
        surface.blit(lettering, (round(left), round(top)))

    def _lettering(self, mark: TextMark, size: int) -> pygame.Surface:
        font = self.font(size, mark.bold)
        front = font.render(mark.text.text, True, _colour(mark.colour)[:3])
        if mark.halo is not None:
            behind = font.render(mark.text.text, True, _colour(mark.halo)[:3])
            both = pygame.Surface((front.get_width() + 2, front.get_height() + 2), pygame.SRCALPHA)
            for right in (0, 1, 2):
                for down in (0, 1, 2):
                    both.blit(behind, (right, down))
            both.blit(front, (1, 1))
            front = both
        return pygame.transform.rotate(front, 90) if mark.text.turn == 90 else front


def _split(items: tuple[Item, ...]) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    still = list(takewhile(lambda item: isinstance(item, Group) and item.still, items))
    return items[: len(still)], items[len(still) :]


_colour = lru_cache(maxsize=256)(red_green_blue_alpha)


@lru_cache(maxsize=32)
def _stamp(colour: tuple[int, int, int], radius: float) -> tuple[pygame.Surface, int]:
    """A dot on a surface that is clear elsewhere, and the pixel of its middle."""
    middle = int(radius) + 1
    stamp = pygame.Surface((2 * middle + 1, 2 * middle + 1))
    clear = (colour[0] ^ 1, colour[1], colour[2])
    stamp.fill(clear)
    stamp.set_colorkey(clear)
    _dot(stamp, colour, (middle, middle), radius)
    return stamp, middle


def _dot(
    surface: pygame.Surface, colour: tuple[int, int, int], place: tuple[float, float], radius: float
) -> None:
    """A disc, of one pixel at least."""
    if radius < 1.0:
        surface.set_at((int(place[0]), int(place[1])), colour)
    else:
        pygame.draw.circle(surface, colour, place, radius)


class _View:
    """A camera as three numbers: the many short lines of a picture are turned to pixels without building arrays."""

    def __init__(self, camera: Camera, bounds: Bounds) -> None:
        self.camera = camera
        self.scale = camera.scale
        self._left, self._top = (float(value) for value in camera.to_pixels((0.0, 0.0)))
        corners = camera.to_pixels((bounds[:2], bounds[2:]))
        # As much room again as FAR leaves, for a line that reaches a little out of the bounds.
        self._last: Sequence[Point] = ()
        self._last_pixels: Pixels = []
        self._near = bool(np.abs(corners).max() < 0.5 * FAR)

    def pixels(self, points: Sequence[Point]) -> Pixels:
        """Points in mm as pixels, kept within what the surface's integers can hold."""
        if points is self._last:  # an area and its edge
            return self._last_pixels
        scale, left, top = self.scale, self._left, self._top
        pixels = [(left + scale * x, top - scale * y) for x, y in points]
        if not self._near:
            pixels = [(min(max(x, -FAR), FAR), min(max(y, -FAR), FAR)) for x, y in pixels]
        self._last, self._last_pixels = points, pixels
        return pixels


def bar(start: Point, end: Point, width: float) -> Pixels:
    """The four corners of a straight line of `width`."""
    across, down = end[0] - start[0], end[1] - start[1]
    share = 0.5 * width / max((across * across + down * down) ** 0.5, 1e-9)
    x, y = -down * share, across * share
    return [
        (start[0] + x, start[1] + y),
        (end[0] + x, end[1] + y),
        (end[0] - x, end[1] - y),
        (start[0] - x, start[1] - y),
    ]


def strip(points: Array, width: float, closed: bool) -> Array:
    """The outline of a line of `width` along points (N, 2): along its left side, and back along its right."""
    track = np.concatenate([points, points[:1]]) if closed else points
    steps = track[1:] - track[:-1]
    sizes = np.hypot(steps[:, 0], steps[:, 1])
    keep = sizes > 1e-9
    if not keep.all():
        track, steps, sizes = np.concatenate([track[:-1][keep], track[-1:]]), steps[keep], sizes[keep]
    if len(steps) == 0:
        return np.empty((0, 2))
    ahead = steps / sizes[:, None]
    joint = np.empty_like(track)  # the directions on both sides of each point, added
    joint[1:-1] = ahead[:-1] + ahead[1:]
    joint[0], joint[-1] = ahead[0] + ahead[-1 if closed else 0], ahead[-1] + ahead[0 if closed else -1]
    length = np.maximum(np.hypot(joint[:, 0], joint[:, 1]), 1e-9)
    mitre = np.minimum(2.0 / length, 1.6)  # a longer mitre would be a spike
    offset = left_of(joint) * (0.5 * width * mitre / length)[:, None]
    outline: Array = np.concatenate([track + offset, (track - offset)[::-1]])
    return outline
