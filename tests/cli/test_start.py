"""`hoofsim` alone: the window where there is a display, the first scenario and one line where there is none."""

import sys
from pathlib import Path
from types import ModuleType

import pytest

from hoofsim.cli import start
from hoofsim.cli.main import main


@pytest.mark.parametrize(
    ("settings", "answer"),
    [
        ({}, False),
        ({"DISPLAY": ":1"}, True),
        ({"WAYLAND_DISPLAY": "wayland-0"}, True),
        ({"DISPLAY": ":1", "SDL_VIDEODRIVER": "dummy"}, False),
        ({"DISPLAY": ""}, False),
    ],
)
def test_a_display_is_recognised(
    monkeypatch: pytest.MonkeyPatch, settings: dict[str, str], answer: bool
) -> None:
    monkeypatch.setattr(sys, "platform", "linux")
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER"):
        monkeypatch.delenv(name, raising=False)
    for name, value in settings.items():
        monkeypatch.setenv(name, value)
    assert start.has_display() is answer


def test_without_a_display_the_first_scenario_runs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(start, "has_display", lambda: False)
    assert main([]) == 0
    first_line = capsys.readouterr().out.splitlines()[0]
    assert first_line.startswith("No display")
    assert {file.suffix for file in (tmp_path / "hoofsim-out").iterdir()} == {".csv", ".svg", ".png"}


def test_with_a_display_the_window_opens(monkeypatch: pytest.MonkeyPatch) -> None:
    window = ModuleType("hoofsim.app.main")
    window.main = lambda: 7  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "hoofsim.app.main", window)
    monkeypatch.setattr(start, "has_display", lambda: True)
    assert main([]) == 7
