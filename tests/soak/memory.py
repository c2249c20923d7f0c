"""What a long form holds in memory as it goes on, and whether that grew; and its words on the command line."""

import argparse
import ctypes
import gc
import resource
import time
from dataclasses import dataclass, field
from pathlib import Path
from statistics import mean

MOST_GROWTH = 0.05


def held_mb() -> float:
    """Memory held, MB (Linux), without what is only waiting to be used again."""
    gc.collect()
    if hasattr(library := ctypes.CDLL(None), "malloc_trim"):
        library.malloc_trim(0)
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * resource.getpagesize() / 1e6


@dataclass
class Marks:
    """Memory held, marked as a run goes on."""

    held: list[float] = field(default_factory=list)
    began: float = field(default_factory=time.monotonic)

    def mark(self, done: str) -> None:
        """Mark it now, and say so."""
        self.held.append(held_mb())
        print(f"{done}, {self.held[-1]:.1f} MB held", flush=True)

    @property
    def growth(self) -> float:
        """Share by which the last quarter of the marks lies above the second; in the first, everything is new."""
        quarter = max(1, len(self.held) // 4)
        return mean(self.held[-quarter:]) / mean(self.held[quarter : 2 * quarter] or self.held) - 1

    def end(self, tally: object) -> int:
        """Say how it went; the exit code."""
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e3
        print(
            f"{tally}\n{self.held[-1]:.1f} MB held at the end ({self.growth:+.1%}), {peak:.0f} MB at most, "
            f"{time.monotonic() - self.began:.0f} s"
        )
        return 0 if self.growth < MOST_GROWTH else 1


def parser(description: str | None, **defaults: int) -> argparse.ArgumentParser:
    """A parser with a whole number for every field of a plan."""
    made = argparse.ArgumentParser(
        description=description, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    for name, default in defaults.items():
        made.add_argument(f"--{name.replace('_', '-')}", type=int, default=default)
    return made
