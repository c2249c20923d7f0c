"""Smooth plane curves for outlines: splines through points, arcs, bands, and where lines cross. Points (N, 2) in mm."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from hoofsim.frames import Array

SPACING = 0.9  # mm between the points of a drawn curve: finer than a pixel on a common screen


def points_of(*places: ArrayLike) -> Array:
    """Places (2,) as one array (N, 2)."""
    return np.array([np.asarray(place, dtype=float) for place in places])


def unit(vector: Array) -> Array:
    """A vector (2,) of length 1."""
    scaled: Array = vector / max(float(np.hypot(vector[0], vector[1])), 1e-12)
    return scaled


def left_of(direction: Array) -> Array:
    """A direction (..., 2) turned a quarter anticlockwise."""
    turned = np.empty_like(direction)
    turned[..., 0], turned[..., 1] = -direction[..., 1], direction[..., 0]
    return turned


def between(start: Array, end: Array, share: float) -> Array:
    """The point a `share` of the way from start to end."""
    place: Array = start + share * (end - start)
    return place


def smooth(through: ArrayLike, closed: bool = False, spacing: float = SPACING) -> Array:
    """A curve through every point (N, 2), rounded between them: a centripetal Catmull-Rom spline, which never loops."""
    places = np.asarray(through, dtype=float)
    if closed:
        ring = np.concatenate([places[-1:], places, places[:2]])
    else:
        ring = np.concatenate([2 * places[:1] - places[1:2], places, 2 * places[-1:] - places[-2:-1]])
    steps = ring[1:] - ring[:-1]
    gaps = np.maximum(np.sqrt(np.hypot(steps[:, 0], steps[:, 1])), 1e-6)[:, None]
    length = gaps[1:-1]
    samples = np.maximum(1, np.ceil(length[:, 0] ** 2 / spacing)).astype(int)
    slopes = steps / gaps
    speed = slopes[:-1] + slopes[1:] - (ring[2:] - ring[:-2]) / (gaps[:-1] + gaps[1:])
    weights = _spline_weights(tuple(samples.tolist()), closed)
    curve: Array = weights @ np.concatenate([ring[1:-1], length * speed[:-1], length * speed[1:]])
    return curve


@lru_cache(maxsize=256)
def _spline_weights(samples: tuple[int, ...], closed: bool) -> Array:
    """How much of each point, and of the speeds at both ends of each span, makes each place of a spline (Hermite).

    `samples` are the places in each span; an open curve ends with the last point itself. Shape (places, 3 * spans + 1).
    """
    count = len(samples)
    span = np.repeat(np.arange(count), samples)
    t = np.concatenate([np.arange(number) / number for number in samples])
    place = np.arange(len(span))
    weights = np.zeros((len(span), 3 * count + 1))
    weights[place, span] = (1 + 2 * t) * (1 - t) ** 2
    weights[place, span + 1] = t**2 * (3 - 2 * t)
    weights[place, span + count + 1] = t * (1 - t) ** 2
    weights[place, span + 2 * count + 1] = t**2 * (t - 1)
    if not closed:
        weights = np.concatenate([weights, np.eye(1, 3 * count + 1, count)])
    weights.setflags(write=False)
    return weights


def bend(start: Array, pull: Array, end: Array, spacing: float = SPACING) -> Array:
    """A curve from start to end, leaving and arriving along the lines to `pull` (a quadratic Bezier curve)."""
    length = float(np.hypot(*(pull - start)) + np.hypot(*(end - pull)))
    t = np.linspace(0.0, 1.0, max(3, int(np.ceil(length / spacing))))[:, None]
    curve: Array = (1 - t) ** 2 * start + 2 * t * (1 - t) * pull + t**2 * end
    return curve


def arc(centre: Array, start: Array, end: Array, clockwise: bool, spacing: float = SPACING) -> Array:
    """Part of a spiral-free round from start to end about centre; the radius blends when the two differ."""
    first, last = start - centre, end - centre
    from_angle, to_angle = (float(np.arctan2(one[1], one[0])) for one in (first, last))
    sweep = (to_angle - from_angle) % (2 * np.pi)
    if clockwise:
        sweep -= 2 * np.pi
    radii = np.hypot(*first), np.hypot(*last)
    count = max(3, int(np.ceil(abs(sweep) * max(radii) / spacing)))
    share = np.linspace(0.0, 1.0, count)
    angle, radius = from_angle + sweep * share, radii[0] + (radii[1] - radii[0]) * share
    curve: Array = centre + radius[:, None] * np.stack([np.cos(angle), np.sin(angle)], axis=1)
    return curve


def on_circle(centre: Array, toward: Array, radius: float) -> Array:
    """The point of a circle in the direction of `toward`."""
    return centre + radius * unit(toward - centre)


def lengths(line: Array) -> Array:
    """Length along a line (N, 2) from its start to each of its points (N,)."""
    steps = line[1:] - line[:-1]
    along = np.zeros(len(line))
    np.cumsum(np.hypot(steps[:, 0], steps[:, 1]), out=along[1:])
    return along


def resampled(line: Array, count: int) -> Array:
    """`count` points spread evenly along a line (N, 2)."""
    along = lengths(line)
    at = np.linspace(0.0, along[-1], count)
    return np.stack([np.interp(at, along, line[:, axis]) for axis in (0, 1)], axis=1)


def piece(line: Array, start: float, end: float) -> Array:
    """The part of a line between two lengths along it, mm."""
    along = lengths(line)
    inner = line[(along > start) & (along < end)]
    ends = np.stack([np.interp((start, end), along, line[:, axis]) for axis in (0, 1)], axis=1)
    return np.concatenate([ends[:1], inner, ends[1:]])


def sides(line: Array, left: ArrayLike, right: ArrayLike) -> tuple[Array, Array]:
    """The two edges (N, 2) of a band about a line (N, 2), `left` and `right` mm aside (numbers or (N,))."""
    ahead = np.empty_like(line)
    ahead[0], ahead[-1] = line[1] - line[0], line[-1] - line[-2]
    ahead[1:-1] = (line[2:] - line[:-2]) / 2.0
    ahead /= np.maximum(np.hypot(ahead[:, 0], ahead[:, 1]), 1e-12)[:, None]
    aside = left_of(ahead)
    return (line + aside * np.asarray(left, dtype=float).reshape(-1, 1),
            line - aside * np.asarray(right, dtype=float).reshape(-1, 1))  # fmt: skip


def band(line: Array, left: ArrayLike, right: ArrayLike) -> Array:
    """The closed outline of a band about a line."""
    one, other = sides(line, left, right)
    return np.concatenate([one, other[::-1]])


def reaches(starts: Array, directions: Array, line: Array) -> Array:
    """How far (S,) rays from starts (S, 2) along directions (S, 2) run before they meet a line (N, 2); inf: never.

    A reach counts in lengths of its direction.
    """
    along, offset = line[1:] - line[:-1], line[None, :-1] - starts[:, None]
    x, y = directions[:, :1], directions[:, 1:]
    cross = x * along[:, 1] - y * along[:, 0]
    apart = np.abs(cross) > 1e-12
    safe = np.where(apart, cross, 1.0)
    reach = (offset[..., 0] * along[:, 1] - offset[..., 1] * along[:, 0]) / safe
    share = (offset[..., 0] * y - offset[..., 1] * x) / safe
    hits = apart & (share >= -1e-9) & (share <= 1 + 1e-9) & (reach >= 0)
    nearest: Array = np.where(hits, reach, np.inf).min(axis=1)
    return nearest


def crossing(start: Array, direction: Array, line: Array) -> Array | None:
    """Where a ray first meets a line (N, 2), or nothing."""
    reach = float(reaches(start[None], direction[None], line)[0])
    return start + reach * direction if np.isfinite(reach) else None


def joined(pieces: Sequence[Array]) -> Array:
    """Pieces end to end as one closed outline; points that repeat are dropped."""
    whole = np.concatenate(pieces)
    step = np.concatenate([whole[1:], whole[:1]]) - whole
    kept: Array = whole[np.hypot(step[:, 0], step[:, 1]) > 1e-6]
    return kept


def area(outline: Array) -> float:
    """Area of a closed outline in mm², positive whichever way round it runs."""
    x, y = outline[:, 0], outline[:, 1]
    return 0.5 * abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))))


def inside(outline: Array, places: ArrayLike) -> Array:
    """Which of some places (M, 2) lie inside a closed outline: (M,) of True and False."""
    x, y = np.asarray(places, dtype=float).reshape(-1, 2).T
    start, end = outline, np.roll(outline, -1, axis=0)
    spans = (start[:, 1][None, :] <= y[:, None]) != (end[:, 1][None, :] <= y[:, None])
    rise = np.where(np.abs(end[:, 1] - start[:, 1]) < 1e-15, 1e-15, end[:, 1] - start[:, 1])
    at = start[:, 0] + (y[:, None] - start[:, 1]) / rise * (end[:, 0] - start[:, 0])
    hits: Array = np.sum(spans & (x[:, None] < at), axis=1) % 2 == 1
    return hits
