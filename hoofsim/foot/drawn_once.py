"""Curves that several outlines share, drawn once for the landmarks of one moment."""

from collections.abc import Callable, Hashable, Mapping
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar

import numpy as np

from hoofsim.frames import Array

P = ParamSpec("P")
Drawn = TypeVar("Drawn")


class Landmarks(dict[str, Array]):
    """Landmarks (2,) mm of one foot at one moment, by name, with what has been drawn from them; never changed."""

    def __init__(self, points: Mapping[str, Array]) -> None:
        super().__init__(points)
        self.drawn: dict[Hashable, object] = {}

    def __reduce__(self) -> tuple[type["Landmarks"], tuple[dict[str, Array]]]:
        """Copies and pickles take the landmarks alone."""
        return Landmarks, (dict(self),)


def drawn_once(
    build: Callable[Concatenate[Mapping[str, Array], P], Drawn],
) -> Callable[Concatenate[Mapping[str, Array], P], Drawn]:
    """What `build` makes of `Landmarks` (and of plain numbers) is kept with them and may not be written to.

    From any other mapping, which may be changed in between, it is made each time.
    """

    @wraps(build)
    def kept(points: Mapping[str, Array], /, *args: P.args, **more: P.kwargs) -> Drawn:
        if not isinstance(points, Landmarks):
            return build(points, *args, **more)
        key = (build, *args, *more.items())
        if key not in points.drawn:
            made = build(points, *args, **more)
            for part in made if isinstance(made, tuple) else (made,):
                if isinstance(part, np.ndarray):
                    part.setflags(write=False)
            points.drawn[key] = made
        return points.drawn[key]  # type: ignore[return-value]

    return kept
