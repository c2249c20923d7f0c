"""The loop: steps of a fixed length, drawing only when something changed, sizes and keys from the window."""

import os

import pygame
import pytest

from hoofsim.app.application import Application
from hoofsim.app.loop import MOST_STEPS, STEP, Loop, coalesced
from hoofsim.app.settings import Settings
from hoofsim.app.window import NoDisplay, close_window, open_window, prepare_environment


@pytest.fixture
def loop():
    surface = open_window((800, 600))
    app = Application(surface.get_size(), Settings(cautions_seen=True, reduced_motion=True), keep=False)
    app.open("settings")
    yield Loop(app, surface)
    close_window()


def motion(x):
    return pygame.event.Event(pygame.MOUSEMOTION, pos=(x, 5), rel=(1, 0), buttons=(0, 0, 0))


def key(code, mod=0):
    return pygame.event.Event(pygame.KEYDOWN, key=code, mod=mod, unicode="")


def test_only_runs_of_pointer_movements_are_cut_short():
    down = pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=(3, 5), button=1)
    events = [motion(1), motion(2), motion(3), down, motion(4), motion(5)]
    assert [getattr(e, "pos", None) for e in coalesced(events)] == [(3, 5), (3, 5), (5, 5)]
    assert coalesced([]) == []


def test_time_goes_in_fixed_steps_and_a_long_pause_is_not_chased(loop):
    steps = []
    loop.app.advance = steps.append
    loop.frame(2.5 * STEP, [])
    assert steps == [STEP, STEP]
    loop.frame(0.6 * STEP, [])
    assert steps == [STEP] * 3
    steps.clear()
    loop.frame(10.0, [])
    assert steps == [STEP] * MOST_STEPS


def test_nothing_is_drawn_while_nothing_changes(loop):
    drawn = []
    draw = loop.app.draw
    loop.app.draw = lambda surface: drawn.append(1) or draw(surface)
    for _ in range(60):
        loop.frame(STEP, [])  # the pointer has rested long enough for any tooltip
    drawn.clear()
    for _ in range(20):
        loop.frame(STEP, [])
    assert drawn == []
    loop.frame(STEP, [motion(9)])
    assert drawn


def test_keys_of_every_screen(loop):
    loop.frame(STEP, [key(pygame.K_F1)])
    assert loop.app.screen.name == "cautions"
    loop.frame(STEP, [key(pygame.K_F2)])
    assert loop.app.screen.name == "settings"
    loop.frame(STEP, [key(pygame.K_MINUS, pygame.KMOD_CTRL)])
    assert loop.app.settings.text_percent == 90
    loop.frame(STEP, [key(pygame.K_0, pygame.KMOD_CTRL)])
    assert loop.app.settings.text_percent == 100
    loop.frame(STEP, [key(pygame.K_q, pygame.KMOD_CTRL)])
    assert not loop.app.running


def test_a_new_window_size_reaches_the_screen(loop):
    loop.surface = open_window((1000, 700))
    loop.frame(STEP, [pygame.event.Event(pygame.VIDEORESIZE, size=(1000, 700), w=1000, h=700)])
    assert loop.app.size == (1000, 700)
    assert loop.app.screen.size == (1000, 700)


def test_whole_screen_and_back(loop):
    loop.frame(STEP, [key(pygame.K_F11)])
    assert loop.app.fullscreen
    loop.frame(STEP, [key(pygame.K_F11)])
    assert not loop.app.fullscreen
    assert loop.app.size == loop.surface.get_size()


def test_closing_stops_the_loop(loop):
    loop.frame(STEP, [pygame.event.Event(pygame.QUIT)])
    assert not loop.app.running


def test_a_driver_that_is_none_is_a_sentence(monkeypatch):
    close_window()
    monkeypatch.setitem(os.environ, "SDL_VIDEODRIVER", "no-such-driver")
    with pytest.raises(NoDisplay, match="no window can be opened"):
        open_window()


def test_without_a_graphics_device_the_plain_frame_buffer_is_asked_for(monkeypatch):
    monkeypatch.delenv("SDL_FRAMEBUFFER_ACCELERATION", raising=False)
    monkeypatch.setattr("hoofsim.app.window.has_graphics_device", lambda: False)
    prepare_environment()
    assert os.environ["SDL_FRAMEBUFFER_ACCELERATION"] == "0"
    monkeypatch.setenv("SDL_FRAMEBUFFER_ACCELERATION", "1")
    prepare_environment()
    assert os.environ["SDL_FRAMEBUFFER_ACCELERATION"] == "1"
