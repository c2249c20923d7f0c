"""The program in a real window: an X server without a screen, a pointer and keys from outside.

Needs xvfb, xauth, xdotool, imagemagick and x11-utils; without them these tests fail and say so.
"""

import os
import shutil
import subprocess
import sys
import time

import pytest
from window_manager import ask_to_close

from hoofsim.session.sandbox_file import open_file

TOOLS = ("Xvfb", "xdotool", "import", "convert", "xwininfo", "xprop")
SIZE = (1280, 800)
PATIENCE = 60.0  # seconds until something that must happen counts as not happening


def wait_for(found, what):
    """What `found()` gives as soon as it gives something."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        result = found()
        if result:
            return result
        time.sleep(0.05)
    raise AssertionError(f"{what} did not happen within {PATIENCE:g} s")


@pytest.fixture(scope="module")
def display():
    missing = [tool for tool in TOOLS if shutil.which(tool) is None]
    assert not missing, (
        f"the window tests need {', '.join(missing)}: apt-get install xvfb xauth xdotool imagemagick x11-utils"
    )
    read, write = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1400x900x24", "-noreset", "-nolisten", "tcp"],
        pass_fds=[write],
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    with os.fdopen(read) as stream:
        number = stream.readline().strip()
    assert number, "Xvfb started no display"
    yield f":{number}"
    server.terminate()
    server.wait(10)


class Window:
    """The program running on a display, with hands."""

    def __init__(self, display, home, folder, *arguments):
        self.env = {k: v for k, v in os.environ.items() if not k.startswith(("SDL_", "WAYLAND"))}
        self.env |= {"DISPLAY": display, "HOOFSIM_HOME": str(home)}
        self.folder = folder
        self.process = subprocess.Popen(
            [sys.executable, "-m", "hoofsim", *arguments],
            env=self.env,
            cwd=folder,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        self.id = wait_for(self._search, "a window")
        wait_for(lambda: self.colours() > 60, "a picture")

    def _search(self):
        assert self.process.poll() is None, self.process.stdout.read()
        done = subprocess.run(
            ["xdotool", "search", "--class", "hoofsim"], env=self.env, capture_output=True, text=True
        )
        return done.stdout.split()[-1] if done.stdout.split() else None

    def do(self, *words):
        subprocess.run(["xdotool", *(str(word) for word in words)], env=self.env, check=True, timeout=20)

    def key(self, *keys):
        for key in keys:
            self.do("key", "--window", self.id, key)
            time.sleep(0.15)

    def picture(self):
        return subprocess.run(
            ["import", "-window", self.id, "-depth", "8", "rgb:-"],
            env=self.env,
            capture_output=True,
            timeout=30,
        ).stdout

    def colours(self):
        pixels = self.picture()
        return len({pixels[place : place + 3] for place in range(0, len(pixels) - 3, 3 * 97)})

    def drag(self, start, end, steps=10):
        self.do("mousemove", "--window", self.id, *start)
        self.do("mousedown", 1)
        for step in range(1, steps + 1):
            place = [round(a + (b - a) * step / steps) for a, b in zip(start, end, strict=True)]
            self.do("mousemove", "--window", self.id, *place)
            time.sleep(0.03)
        self.do("mouseup", 1)

    def close(self):
        """Close it as a window manager would, and give its exit code."""
        ask_to_close(self.env["DISPLAY"], int(self.id))
        return self.process.wait(PATIENCE)

    def output(self):
        return self.process.stdout.read()


@pytest.fixture
def opened(display, tmp_path):
    windows = []

    def make(*arguments, home=None):
        windows.append(Window(display, home or tmp_path / "home", tmp_path, *arguments))
        return windows[-1]

    yield make
    for window in windows:
        if window.process.poll() is None:
            window.process.kill()
            window.process.wait(10)
        window.process.stdout.close()


def kept(home):
    """The sitting that the program keeps, or None before it has."""
    path = home / "recovery.yaml"
    return open_file(path) if path.is_file() else None


def test_first_start_drag_keys_save_resize_close_and_continue(opened, tmp_path):
    home = tmp_path / "home"
    window = opened()
    window.key("Return")  # the cautions, once
    wait_for(lambda: (home / "settings.yaml").is_file(), "keeping that the cautions were read")
    window.key("Return")  # the sandbox
    wait_for(lambda: kept(home) is None and window.colours() > 60, "the sandbox")
    time.sleep(1.0)

    # a slider by pointer: heel change lies under the first heading of the left dock
    window.drag((165, 124), (240, 124))
    session = wait_for(lambda: kept(home), "keeping the sitting")
    assert session.value("heel_change_mm") > 5

    # keys: undo, then cut the tendon
    window.key("ctrl+z")
    window.key("c")
    wait_for(lambda: kept(home).value("tendon_cut") == 1, "cutting the tendon by key")
    assert kept(home).value("heel_change_mm") == 0

    # another size, while it works
    window.do("windowsize", window.id, 1024, 700)
    wait_for(lambda: len(window.picture()) == 1024 * 700 * 3, "the new size")
    wait_for(lambda: window.colours() > 60, "a picture at the new size")
    window.key("c")
    wait_for(lambda: kept(home).value("tendon_cut") == 0, "restoring the tendon at the new size")
    window.key("w", "c")

    assert window.close() == 0
    assert window.output() == ""
    assert kept(home).value("tendon_cut") == 1, "closing keeps the last deed"

    again = opened()
    again.key("Return")  # continue
    time.sleep(0.5)
    again.key("ctrl+z")
    wait_for(lambda: kept(home).position < len(kept(home).commands), "undo in the continued sitting")
    assert again.close() == 0


def test_a_file_is_opened_and_closing_in_the_midst_of_a_drag_loses_nothing(opened, tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    (home / "settings.yaml").write_text("cautions_seen: true\n")
    sitting = tmp_path / "mine.yaml"
    sitting.write_text(
        "hoofsim: 1\nkind: sandbox\ncommands:\n- do: set_control\n  name: wedge_deg\n  value: 4.0\n"
    )
    window = opened("open", str(sitting))
    window.do("mousemove", "--window", window.id, 165, 124)
    window.do("mousedown", 1)
    for x in range(165, 260, 5):
        window.do("mousemove", "--window", window.id, x, 124)
    assert window.close() == 0
    window.do("mouseup", 1)
    session = kept(home)
    assert session.value("wedge_deg") == 4
    assert session.value("heel_change_mm") > 0


def test_the_smallest_window_shows_and_obeys(opened, tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    (home / "settings.yaml").write_text("cautions_seen: true\ntext_percent: 200\n")
    window = opened()
    window.do("windowsize", window.id, 640, 480)
    wait_for(lambda: len(window.picture()) == 640 * 480 * 3, "the smallest size")
    window.key("Return")
    window.key("c")
    wait_for(
        lambda: kept(home) is not None and kept(home).value("tendon_cut") == 1, "a key in the small window"
    )
    assert window.close() == 0


def test_on_a_dense_display_the_window_opens_larger_up_to_the_desktop(display, opened, tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    (home / "settings.yaml").write_text("cautions_seen: true\n")
    resource = ["xprop", "-display", display, "-root"]
    dense = [*resource, "-f", "RESOURCE_MANAGER", "8s", "-set", "RESOURCE_MANAGER", "Xft.dpi: 144"]
    subprocess.run(dense, check=True, timeout=20)
    try:
        window = opened()
        assert len(window.picture()) == 1400 * 900 * 3
        assert window.close() == 0
        (home / "settings.yaml").write_text("cautions_seen: true\nscreen_scale: '100'\n")
        plain = opened()
        assert len(plain.picture()) == 1280 * 800 * 3
        assert plain.close() == 0
    finally:
        subprocess.run([*resource, "-remove", "RESOURCE_MANAGER"], check=True, timeout=20)


def test_a_home_that_is_no_folder_is_said_and_the_program_goes_on(opened, tmp_path):
    home = tmp_path / "home"
    home.write_text("not a folder")
    window = opened(home=home)
    window.key("Return", "Return", "c")
    time.sleep(2.5)
    assert window.process.poll() is None
    assert window.close() == 0
    assert "Traceback" not in window.output()
    assert home.read_text() == "not a folder"


def test_a_lost_display_is_one_sentence_and_the_sitting_is_kept(tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    (home / "settings.yaml").write_text("cautions_seen: true\n")
    read, write = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1300x900x24", "-noreset"],
        pass_fds=[write],
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    with os.fdopen(read) as stream:
        display = f":{stream.readline().strip()}"
    window = Window(display, home, tmp_path)
    try:
        window.key("Return")
        window.key("c")
        wait_for(
            lambda: kept(home) is not None and kept(home).value("tendon_cut") == 1, "keeping the sitting"
        )
    finally:
        server.kill()
        server.wait(10)
    code = window.process.wait(PATIENCE)
    said = window.output()
    window.process.stdout.close()
    assert code == 1
    assert said == "hoofsim: the display was lost; the sitting was kept, start again to continue it\n"
    assert kept(home).value("tendon_cut") == 1


def test_no_display_is_one_sentence(tmp_path):
    env = {k: v for k, v in os.environ.items() if not k.startswith(("SDL_", "WAYLAND", "DISPLAY"))}
    env |= {"SDL_VIDEODRIVER": "x11", "DISPLAY": ":987", "HOOFSIM_HOME": str(tmp_path)}
    done = subprocess.run(
        [sys.executable, "-c", "from hoofsim.app.main import main; raise SystemExit(main())"],
        env=env,
        capture_output=True,
        text=True,
        timeout=PATIENCE,
    )
    assert done.returncode == 2
    assert done.stdout == ""
    lines = done.stderr.strip().splitlines()
    assert len(lines) == 1
    assert lines[0].startswith("hoofsim: no window can be opened")
