"""How a bench measures, and the row it prints."""

import math
import time
import tracemalloc
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Row:
    """One line of a bench: what was timed, its value and unit, and beside what it stands (a ratio, in words)."""

    bench: str
    what: str
    value: float
    unit: str
    beside: str = ""


def busy_clock() -> Callable[[], float]:
    """Seconds that this program has kept a processor busy, so that a late frame is its own and no other program's.

    The time of day where the system counts the former too coarsely.
    """
    fine = time.get_clock_info("process_time").resolution < 1e-4
    return time.process_time if fine else time.perf_counter


def best_seconds(work: Callable[[], object], repeats: int, clock: Callable[[], float] | None = None) -> float:
    """Shortest of several runs in seconds, after one that is not counted: what the work costs when little disturbs it.

    `clock`: seconds; by default those in which this program keeps a processor busy.
    """
    return best_of_each((work,), repeats, clock)[0]


def best_of_each(
    works: Sequence[Callable[[], object]], repeats: int, clock: Callable[[], float] | None = None
) -> list[float]:
    """As `best_seconds` for several works done in turn, so that a machine that slows down slows all of them."""
    tell = clock or busy_clock()
    shortest = [math.inf] * len(works)
    for number in range(-1, repeats):
        for index, work in enumerate(works):
            start = tell()
            work()
            if number >= 0:
                shortest[index] = min(shortest[index], tell() - start)
    return shortest


def peak_megabytes(work: Callable[[], object]) -> float:
    """Largest memory that the work held at once, in MB, as the interpreter counts it."""
    tracemalloc.start()
    try:
        work()
        return tracemalloc.get_traced_memory()[1] / 1e6
    finally:
        tracemalloc.stop()


def array_megabytes(held: object) -> float:
    """What the numbers of a result take, in MB: all arrays in it, each once, however deep in tuples, tables and objects."""
    arrays: dict[int, int] = {}
    seen: set[int] = set()
    waiting = [held]
    while waiting:
        one = waiting.pop()
        if id(one) in seen:
            continue
        seen.add(id(one))
        if isinstance(one, np.ndarray):
            whole = one if one.base is None else one.base
            arrays[id(whole)] = max(arrays.get(id(whole), 0), getattr(whole, "nbytes", one.nbytes))
        elif isinstance(one, dict):
            waiting += one.values()
        elif isinstance(one, list | tuple):
            waiting += one
        elif hasattr(one, "__dict__"):
            waiting += vars(one).values()
    return sum(arrays.values()) / 1e6


def memory_row(bench: str, what: str, work: Callable[[], object], numbers: str) -> Row:
    """Peak memory of the work, beside what the numbers of its result take, which no program could do without."""
    peak = peak_megabytes(work)
    least = array_megabytes(work())
    words = f"{times(peak / least)} the {least:.3g} MB of {numbers}"
    return Row(bench, f"peak memory of {what}", peak, "MB", words)


def times(ratio: float) -> str:
    """A ratio in words."""
    return f"{ratio:.3g} times"
