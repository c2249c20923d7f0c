"""The few probabilities that the claims need: chi-square tail and Student's t quantile, in plain Python."""

import math
from functools import lru_cache
from statistics import NormalDist

NORMAL = NormalDist()
_TINY = 1e-300
_CLOSE = 1e-14


def chi_square_tail(value: float, degrees: int) -> float:
    """Chance that a chi-square of `degrees` >= 1 degrees of freedom exceeds `value`; 1 when `degrees` is 0."""
    if degrees == 0 or value <= 0.0:
        return 1.0
    shape, x = 0.5 * degrees, 0.5 * value
    front = math.exp(shape * math.log(x) - x - math.lgamma(shape))
    if x < shape + 1.0:
        term = total = 1.0 / shape
        count = shape
        while abs(term) > abs(total) * _CLOSE:
            count += 1.0
            term *= x / count
            total += term
        return 1.0 - front * total
    return front * _gamma_fraction(shape, x)


def _gamma_fraction(shape: float, x: float) -> float:
    """Continued fraction of the upper incomplete gamma function (Lentz's method)."""
    b = x + 1.0 - shape
    c, d = 1.0 / _TINY, 1.0 / b
    total = d
    for step in range(1, 1000):
        a = -step * (step - shape)
        b += 2.0
        d = 1.0 / (a * d + b or _TINY)
        c = b + a / c or _TINY
        factor = c * d
        total *= factor
        if abs(factor - 1.0) < _CLOSE:
            break
    return total


@lru_cache(maxsize=256)
def student_t_quantile(probability: float, degrees: int) -> float:
    """The value below which Student's t with `degrees` >= 1 lies with `probability` (0.5 to 1), by bisection."""
    low, high = 0.0, 1.0
    while _student_t_below(high, degrees) < probability:
        high *= 2.0
    for _ in range(80):
        middle = 0.5 * (low + high)
        if _student_t_below(middle, degrees) < probability:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def _student_t_below(value: float, degrees: int) -> float:
    """Chance that t is below a non-negative value: the finite sums over cosines for whole degrees of freedom."""
    angle = math.atan2(value, math.sqrt(degrees))
    sine, cosine = math.sin(angle), math.cos(angle)
    if degrees % 2:
        term, total = cosine, (cosine if degrees > 1 else 0.0)
        for step in range(3, degrees - 1, 2):
            term *= cosine * cosine * (step - 1) / step
            total += term
        inside = 2.0 / math.pi * (angle + sine * total)
    else:
        term, total = 1.0, 1.0
        for step in range(2, degrees - 1, 2):
            term *= cosine * cosine * (step - 1) / step
            total += term
        inside = sine * total
    return 0.5 + 0.5 * inside
