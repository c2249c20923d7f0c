"""A progress bar that appears only when work takes longer than a second, and only where somebody can see it."""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import Progress

PATIENCE_SECONDS = 1.0


@contextmanager
def shown_when_slow(title: str) -> Iterator[Callable[[int, int], None]]:
    """Gives `report(done, of)`; the bar is drawn on the error stream, so that results can be piped."""
    bar = Progress(console=Console(stderr=True), transient=True)
    if not bar.console.is_terminal:
        yield lambda done, of: None
        return
    task = bar.add_task(title, total=1)
    began = time.monotonic()
    shown = False

    def report(done: int, of: int) -> None:
        nonlocal shown
        if not shown and time.monotonic() - began > PATIENCE_SECONDS:
            bar.start()
            shown = True
        bar.update(task, completed=done, total=of)

    try:
        yield report
    finally:
        if shown:
            bar.stop()
