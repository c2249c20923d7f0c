"""The progress bar appears after a second of work and only on a terminal; the clock and the terminal are stand-ins."""

import io

import pytest
from rich.console import Console

from hoofsim.cli import progress_bar
from hoofsim.cli.progress_bar import shown_when_slow


class _Clock:
    """A clock that the test moves."""

    now = 0.0

    def monotonic(self) -> float:
        return self.now


def _run(monkeypatch: pytest.MonkeyPatch, seconds_a_step: float, terminal: bool) -> str:
    """What is written while four steps of work are reported."""
    clock, stream = _Clock(), io.StringIO()
    monkeypatch.setattr(progress_bar, "time", clock)
    monkeypatch.setattr(progress_bar, "Console", lambda stderr: Console(file=stream, force_terminal=terminal))
    with shown_when_slow("Heel raised") as report:
        for done in range(1, 5):
            clock.now += seconds_a_step
            report(done, 4)
    return stream.getvalue()


def test_slow_work_shows_a_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "Heel raised" in _run(monkeypatch, 0.4, terminal=True)


def test_quick_work_shows_none(monkeypatch: pytest.MonkeyPatch) -> None:
    assert _run(monkeypatch, 0.2, terminal=True) == ""


def test_nobody_is_shown_a_bar_through_a_pipe(monkeypatch: pytest.MonkeyPatch) -> None:
    assert _run(monkeypatch, 5.0, terminal=False) == ""
