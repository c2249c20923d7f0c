"""What `hoofsim` alone does: open the program, or without a display run the first scenario in its place."""

import os
import sys
from pathlib import Path

from hoofsim.cli.run import run_files
from hoofsim.resources import scenario_files

OUTPUT = Path("hoofsim-out")
FIRST = "heel_raised.yaml"
DRIVERS_WITHOUT_WINDOW = ("dummy", "offscreen")


def has_display() -> bool:
    """Whether a window can be opened here."""
    if os.environ.get("SDL_VIDEODRIVER") in DRIVERS_WITHOUT_WINDOW:
        return False
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def open_window(*file: str) -> int:
    """Open the window, on a saved file if one is given, without the library's own greeting on the output."""
    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
    from hoofsim.app.main import main as window

    return window(*file)


def start() -> int:
    """Open the program, or say in one line that there is no display and run the first scenario."""
    if has_display():
        return open_window()
    first = next((file for file in scenario_files() if file.name == FIRST), scenario_files()[0])
    print(
        f"No display was found, so no window opens: running the scenario {first.name} into {OUTPUT}/ instead."
    )
    return run_files([first], OUTPUT)
