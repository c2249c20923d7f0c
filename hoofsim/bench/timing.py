"""How a bench measures, and the row it prints."""

import time
import tracemalloc
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Row:
    """One line of a bench: what was timed, its value and unit, and beside what it stands (a ratio, in words)."""

    bench: str
    what: str
    value: float
    unit: str
    beside: str = ""


def best_seconds(work: Callable[[], object], repeats: int) -> float:
    """Shortest of several runs in seconds, after one that is not counted: what the work costs when little disturbs it."""
    work()
    shortest = float("inf")
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        shortest = min(shortest, time.perf_counter() - start)
    return shortest


def busy_clock() -> Callable[[], float]:
    """Seconds that this program has kept a processor busy, so that a late frame is its own and no other program's.

    The time of day where the system counts the former too coarsely.
    """
    fine = time.get_clock_info("process_time").resolution < 1e-4
    return time.process_time if fine else time.perf_counter


def peak_megabytes(work: Callable[[], object]) -> float:
    """Largest memory that the work held at once, in MB, as the interpreter counts it."""
    tracemalloc.start()
    try:
        work()
        return tracemalloc.get_traced_memory()[1] / 1e6
    finally:
        tracemalloc.stop()


def times(ratio: float) -> str:
    """A ratio in words."""
    return f"{ratio:.3g} times"
