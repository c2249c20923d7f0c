"""`hoofsim` alone: the window where there is a display, the first scenario and one line where there is none."""

import sys
from pathlib import Path
from types import ModuleType

import pytest

from hoofsim.cli import open as open_command
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
    assert {file.suffix for file in (tmp_path / "hoofsim-out").iterdir()} == {".csv", ".svg", ".png", ".json"}


@pytest.fixture
def window(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str | None, ...]]:
    """A stand-in for the window, on a display: collects what it was opened with."""
    opened: list[tuple[str | None, ...]] = []
    module = ModuleType("hoofsim.app.main")
    module.main = lambda *path: opened.append(path) or 7  # type: ignore[attr-defined,func-returns-value]
    monkeypatch.setitem(sys.modules, "hoofsim.app.main", module)
    monkeypatch.setattr(start, "has_display", lambda: True)
    monkeypatch.setattr(open_command, "has_display", lambda: True)
    return opened


def test_with_a_display_the_window_opens(window: list[tuple[str | None, ...]]) -> None:
    assert main([]) == 7
    assert window == [()]


def test_the_window_opens_on_a_file(window: list[tuple[str | None, ...]], tmp_path: Path) -> None:
    file = tmp_path / "sitting.yaml"
    file.write_text("", encoding="utf-8")
    assert main(["open", str(file)]) == 7
    assert window == [(str(file),)]


def test_without_a_display_no_window_is_promised(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(open_command, "has_display", lambda: False)
    assert main(["open"]) == 2
    assert "no display" in capsys.readouterr().err
