"""A dense display is found on each system from what it says, and everything is drawn so many times larger."""

import ctypes
import dataclasses
import sys
from types import SimpleNamespace

import pygame
import pytest
from driving import application, draw, press, tab_to, widget
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.app import density
from hoofsim.app.application import Application
from hoofsim.app.density import DisplayReadings, dots_per_inch_of, read_display, scale_factor
from hoofsim.app.screens.registry import SCREENS
from hoofsim.app.settings import Settings, accepted
from hoofsim.app.theme import theme_for
from hoofsim.app.widgets.report import complaints
from hoofsim.app.window import prepare_environment, start_size

FULL_HD, FOUR_K = (1920, 1080), (3840, 2160)
X = DisplayReadings("linux", "x11", FULL_HD)


@pytest.mark.parametrize(
    ("said", "factor"),
    [
        (X, 1.0),
        ({"dots_per_inch": 96.0}, 1.0),
        ({"dots_per_inch": 100.0}, 1.0),
        ({"dots_per_inch": 120.0}, 1.25),
        ({"dots_per_inch": 144.0}, 1.5),
        ({"dots_per_inch": 192.0, "desktop": FOUR_K}, 2.0),
        ({"dots_per_inch": 72.0}, 1.0),
        ({"dots_per_inch": 960.0}, 3.0),
        ({"dots_per_inch": 0.0}, 1.0),
        ({"dots_per_inch": float("nan")}, 1.0),
        ({"variables": {"GDK_SCALE": "2"}}, 2.0),
        ({"variables": {"QT_SCALE_FACTOR": "1.75"}}, 1.75),
        ({"variables": {"QT_SCALE_FACTOR": "1.3"}}, 1.25),
        ({"variables": {"GDK_SCALE": "1"}, "dots_per_inch": 144.0}, 1.5),
        ({"variables": {"GDK_SCALE": "2"}, "dots_per_inch": 96.0}, 2.0),
        ({"variables": {"GDK_SCALE": "two", "QT_SCALE_FACTOR": ""}}, 1.0),
        ({"variables": {"GDK_SCALE": "-2"}}, 1.0),
        ({"variables": {"GDK_SCALE": "inf"}}, 1.0),
        ({"desktop": FOUR_K}, 1.5),
        ({"desktop": (2160, 3840)}, 1.5),
        ({"desktop": (3440, 1440)}, 1.0),
        ({"desktop": FOUR_K, "dots_per_inch": 96.0}, 1.0),
        ({"desktop": None}, 1.0),
        # the compositor enlarges the window
        ({"driver": "wayland", "desktop": FOUR_K, "variables": {"GDK_SCALE": "2"}}, 1.0),
        ({"platform": "win32", "driver": "windows", "dots_per_inch": 144.0}, 1.5),
        ({"platform": "win32", "driver": "windows", "dots_per_inch": 96.0, "desktop": FOUR_K}, 1.0),
        ({"platform": "win32", "driver": "windows", "variables": {"GDK_SCALE": "2"}}, 1.0),
        # macOS measures windows in points
        ({"platform": "darwin", "driver": "cocoa", "desktop": FOUR_K}, 1.0),
        ({"driver": "dummy", "desktop": FOUR_K}, 1.0),
    ],
    ids=str,
)
def test_the_factor_follows_what_each_system_says(said, factor):
    assert (
        scale_factor(said if isinstance(said, DisplayReadings) else dataclasses.replace(X, **said)) == factor
    )


@given(
    st.builds(
        DisplayReadings,
        st.sampled_from(["linux", "win32", "darwin", "freebsd"]),
        st.sampled_from(["x11", "wayland", "windows", "cocoa", ""]),
        st.none() | st.tuples(st.integers(0, 99999), st.integers(0, 99999)),
        st.none() | st.floats(),
        st.dictionaries(st.sampled_from(density.FACTOR_VARIABLES), st.text(max_size=6)),
    )
)
def test_whatever_is_said_gives_a_factor_in_quarters_from_1_to_3(said):
    factor = scale_factor(said)
    assert 1.0 <= factor <= 3.0
    assert factor * 4 == int(factor * 4)


@pytest.mark.parametrize(
    ("resources", "dots"),
    [
        ("Xft.dpi:\t144\n", 144.0),
        ("Xcursor.size: 24\nXft.dpi: 120.5\nXft.hinting: 1\n", 120.5),
        ("XTerm*Xft.dpi: 200\n", None),
        ("Xft.dpi: many\n", None),
        ("Xft.dpi: 1.2.3\n", None),
        ("", None),
    ],
)
def test_the_density_is_read_from_the_x_servers_resources(resources, dots):
    assert dots_per_inch_of(resources) == dots


@pytest.fixture
def says(monkeypatch):
    """A system to be imitated: `says(platform, driver, desktops, ...)`."""

    def imitate(platform, driver, desktops=(FULL_HD,)):
        monkeypatch.setattr(sys, "platform", platform)
        monkeypatch.setattr(pygame.display, "get_driver", lambda: driver)
        monkeypatch.setattr(pygame.display, "get_desktop_sizes", lambda: list(desktops))
        for name in density.FACTOR_VARIABLES:
            monkeypatch.delenv(name, raising=False)

    return imitate


def test_windows_is_asked_for_its_dots(says, monkeypatch):
    says("win32", "windows")
    user = SimpleNamespace(GetDpiForSystem=lambda: 168)
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(user32=user), raising=False)
    assert read_display().dots_per_inch == 168.0
    assert scale_factor(read_display()) == 1.75
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(user32=SimpleNamespace()), raising=False)
    assert read_display().dots_per_inch is None, "an old Windows has no such function"


def test_the_x_server_and_the_environment_are_asked(says, monkeypatch):
    says("linux", "x11", [FOUR_K, FULL_HD])
    monkeypatch.setattr(density, "_x_resources", lambda: "Xft.dpi: 192\n")
    monkeypatch.setenv("GDK_SCALE", "2")
    assert read_display() == DisplayReadings("linux", "x11", FOUR_K, 192.0, {"GDK_SCALE": "2"})


@pytest.mark.parametrize(
    "error", [OSError("no library"), AttributeError("no function"), pygame.error("none")]
)
def test_a_system_that_says_nothing_stops_nothing(says, monkeypatch, error):
    def fail(*arguments):
        raise error

    says("linux", "x11", [])
    monkeypatch.setattr(density.ctypes, "CDLL", fail)
    assert read_display() == DisplayReadings("linux", "x11", None, None, {})
    monkeypatch.setattr(pygame.display, "get_driver", fail)
    monkeypatch.setattr(pygame.display, "get_desktop_sizes", fail)
    assert scale_factor(read_display()) == 1.0


def test_windows_is_told_that_the_program_enlarges_by_itself(monkeypatch):
    monkeypatch.setenv("SDL_WINDOWS_DPI_AWARENESS", "")
    monkeypatch.delenv("SDL_WINDOWS_DPI_AWARENESS")
    prepare_environment()
    assert density.os.environ["SDL_WINDOWS_DPI_AWARENESS"] == "system"


def test_theme_and_first_window_grow_by_the_factor():
    assert start_size(1.5) == (1920, 1200)
    assert theme_for((2560, 1600), screen_scale=2.0).em == 30
    assert theme_for((2560, 1600), 1.4, screen_scale=2.0).em == pytest.approx(42)
    small = theme_for((1280, 800), 2.0, screen_scale=2.0)
    assert small.em < 60
    assert small.limited_to_percent == round(100 * small.em / 30), "of the size usual on this display"


@pytest.mark.parametrize("name", sorted(SCREENS))
def test_a_screen_twice_as_dense_looks_the_same_twice_as_large(name):
    app = Application(
        (2560, 1600), Settings(cautions_seen=True, reduced_motion=True), keep=False, density=2.0
    )
    app.open(name)
    large = draw(app, 0.3)
    assert complaints(large.records, app.size) == []
    small = draw(application((1280, 800), name), 0.3)
    assert app.theme.em == 2 * small.theme.em


def test_the_setting_overrules_the_display_and_is_chosen_by_keys():
    app = Application((2560, 1600), Settings(cautions_seen=True), keep=False, density=1.5)
    app.open("settings")
    draw(app)
    assert app.theme.em == pytest.approx(22.5)
    assert widget(app, "Screen scale").words() == "Automatic (150 %)"
    tab_to(app, "Screen scale")
    press(app, pygame.K_RETURN)
    press(app, pygame.K_END)
    press(app, pygame.K_RETURN)
    assert app.settings.screen_scale == "200"
    assert app.theme.em == pytest.approx(30)
    assert complaints(draw(app).records, app.size) == []


def test_older_settings_open_and_a_wrong_scale_is_named():
    assert accepted({"text_percent": 120, "cautions_seen": True})[0].screen_scale == "automatic"
    for wrong in ("huge", 150, "90"):
        settings, said = accepted({"screen_scale": wrong, "contrast": True})
        assert settings == Settings(contrast=True)
        assert "screen_scale" in said
    assert accepted({"screen_scale": "125"}) == (Settings(screen_scale="125"), None)
