"""Between millimetres and pixels: y turned over, fitting, zooming and panning."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from hoofsim.drawing.display_list import Bounds, Point
from hoofsim.frames import Array

CLOSEST_SCALE, WIDEST_SCALE = 200.0, 0.05  # px/mm: beyond these a picture is one flat colour or one dot


@dataclass(frozen=True)
class Camera:
    """A view: `scale` px/mm, `centre` mm shown in the middle of a picture of `size` (width, height) px."""

    scale: float
    centre: Point
    size: tuple[int, int]

    @classmethod
    def fit(cls, bounds: Bounds, size: tuple[int, int], margin: float = 0.02) -> "Camera":
        """The largest view that shows all of `bounds` (left, bottom, right, top in mm) with a margin each side."""
        left, bottom, right, top = bounds
        room = 1.0 - 2.0 * margin
        scale = room * min(size[0] / max(right - left, 1e-9), size[1] / max(top - bottom, 1e-9))
        return cls(scale, ((left + right) / 2.0, (bottom + top) / 2.0), size)

    def to_pixels(self, points: ArrayLike) -> Array:
        """Pixels (..., 2), y down, of points (..., 2) in mm."""
        offset = np.asarray(points, dtype=float) - np.array(self.centre)
        flip = np.array([self.scale, -self.scale])
        pixels: Array = offset * flip + np.array(self.size) / 2.0
        return pixels

    def to_mm(self, pixels: ArrayLike) -> Array:
        """Points (..., 2) in mm under pixels (..., 2)."""
        offset = np.asarray(pixels, dtype=float) - np.array(self.size) / 2.0
        points: Array = offset / np.array([self.scale, -self.scale]) + np.array(self.centre)
        return points

    def zoomed(self, factor: float, about: Point | None = None) -> "Camera":
        """Nearer by `factor`; the place under pixel `about` (default: the middle) stays where it is."""
        pixel = about if about is not None else (self.size[0] / 2.0, self.size[1] / 2.0)
        scale = float(np.clip(self.scale * factor, WIDEST_SCALE, CLOSEST_SCALE))
        fixed = self.to_mm(pixel)
        shift = (fixed - np.array(self.centre)) * (1.0 - self.scale / scale)
        return replace(
            self, scale=scale, centre=(self.centre[0] + float(shift[0]), self.centre[1] + float(shift[1]))
        )

    def panned(self, right: float, down: float) -> "Camera":
        """The picture moved by so many pixels."""
        return replace(self, centre=(self.centre[0] - right / self.scale, self.centre[1] + down / self.scale))

    def resized(self, size: tuple[int, int]) -> "Camera":
        """The same area, fitted to another picture size."""
        factor = min(size[0] / self.size[0], size[1] / self.size[1])
        return Camera(self.scale * factor, self.centre, size)

    def enlarged(self, factor: int) -> "Camera":
        """The same view on a picture with `factor` times the pixels each way (for supersampling)."""
        return Camera(self.scale * factor, self.centre, (self.size[0] * factor, self.size[1] * factor))

    def seen(self) -> Bounds:
        """The area in mm that is in view: left, bottom, right, top."""
        (left, top), (right, bottom) = self.to_mm((0.0, 0.0)), self.to_mm(self.size)
        return float(left), float(bottom), float(right), float(top)
