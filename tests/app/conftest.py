"""No test of the window needs a screen: SDL's dummy driver, and a home of its own for every test."""

import os
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))  # the tests' own hands, `driving`
os.environ["SDL_VIDEODRIVER"] = "dummy"
os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    folder = tmp_path / "home"
    monkeypatch.setenv("HOOFSIM_HOME", str(folder))
    return folder
