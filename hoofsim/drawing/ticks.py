"""Round numbers for the axes of a chart."""

import math

from hoofsim.units import MINUS


def ticks(low: float, high: float, most: int = 7) -> list[float]:
    """Round values from low to high, at most `most` of them, in steps of 1, 2 or 5 times a power of ten."""
    span = high - low
    if not (math.isfinite(span) and span > 0):
        return [low]
    raw = span / max(most - 1, 1)
    power = 10.0 ** math.floor(math.log10(raw))
    step = next(factor * power for factor in (1.0, 2.0, 5.0, 10.0) if factor * power >= raw * (1 - 1e-9))
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [index * step for index in range(first, last + 1)]


def tick_words(values: list[float]) -> list[str]:
    """The values with just the decimals that tell them apart."""
    step = abs(values[1] - values[0]) if len(values) > 1 else abs(values[0]) or 1.0
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    return [f"{value:.{decimals}f}".replace("-", MINUS) if round(value, decimals) else f"{0:.{decimals}f}"
            for value in values]  # fmt: skip


def padded(values: list[float], share: float = 0.06) -> tuple[float, float]:
    """A range that shows all finite values with some room; 0 to 1 when there is none, and never empty."""
    finite = [value for value in values if math.isfinite(value)]
    if not finite:
        return 0.0, 1.0
    low, high = min(finite), max(finite)
    room = share * (high - low) or max(0.05 * abs(high), 0.5)
    return low - room, high + room
