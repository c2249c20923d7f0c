"""Hands for the tests: an application without a window, and events as a person would make them."""

import pygame

from hoofsim.app.application import Application
from hoofsim.app.settings import Settings
from hoofsim.app.widgets.base import walk

STEP = 1 / 60


def application(size=(1280, 800), screen="sandbox", **settings):
    settings = {"cautions_seen": True, "reduced_motion": True} | settings
    app = Application(size, Settings(**settings), keep=False)
    app.open(screen)
    draw(app)
    return app


def draw(app, seconds=0.0):
    for _ in range(round(seconds / STEP)):
        app.advance(STEP)
    surface = pygame.Surface(app.size)
    return app.draw(surface)


def press(app, key, mod=0, text=""):
    app.handle(pygame.event.Event(pygame.KEYDOWN, key=key, mod=mod, unicode=text))


def move(app, position, buttons=(0, 0, 0)):
    app.handle(pygame.event.Event(pygame.MOUSEMOTION, pos=position, rel=(0, 0), buttons=buttons))


def down(app, position):
    app.handle(pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=position, button=1))


def up(app, position):
    app.handle(pygame.event.Event(pygame.MOUSEBUTTONUP, pos=position, button=1))


def click(app, widget_or_position):
    position = getattr(widget_or_position, "rect", None)
    position = position.center if position is not None else widget_or_position
    move(app, position)
    down(app, position)
    up(app, position)


def drag(app, start, end, steps=8):
    move(app, start)
    down(app, start)
    for step in range(1, steps + 1):
        share = step / steps
        place = tuple(round(a + (b - a) * share) for a, b in zip(start, end, strict=True))
        move(app, place, (1, 0, 0))
    up(app, end)


def widget(app, name):
    found = [w for w in walk(app.screen.widgets) if w.name == name]
    assert found, f"no widget '{name}' among {[w.name for w in walk(app.screen.widgets)]}"
    return found[0]


def tab_to(app, name, most=300):
    for _ in range(most):
        press(app, pygame.K_TAB)
        if app.screen.focus is not None and app.screen.focus.name == name:
            return app.screen.focus
    raise AssertionError(f"Tab never reaches '{name}'")
