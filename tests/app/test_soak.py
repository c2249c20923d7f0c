"""Random hands: thousands of presses, drags and keys, with a seed, and nothing may break or lie."""

import random

import numpy as np
import pygame
import pytest
from driving import application, drag, draw, move

from hoofsim.app.widgets.base import walk
from hoofsim.session.sandbox_file import as_text, from_text
from hoofsim.session.state import State, replay

NAMES = (
    "TAB RETURN SPACE ESCAPE LEFT RIGHT UP DOWN HOME END PAGEUP PAGEDOWN BACKSPACE DELETE F1 F2 x "
    "a b c d f g h k l m n p r s t 0 1 2 3 4 5 6 7 8 9 PLUS MINUS z y o"
)
KEYS = [getattr(pygame, f"K_{name}") for name in NAMES.split(" ")]
MODS = [0, 0, 0, 0, pygame.KMOD_SHIFT, pygame.KMOD_CTRL]
DEEDS = 130


def random_deed(app, chance):
    kind = chance.random()
    place = (chance.randrange(app.size[0]), chance.randrange(app.size[1]))
    if kind < 0.35:
        key, mod = chance.choice(KEYS), chance.choice(MODS)
        text = pygame.key.name(key) if len(pygame.key.name(key)) == 1 and not mod else ""
        app.handle(pygame.event.Event(pygame.KEYDOWN, key=key, mod=mod, unicode=text))
        if text:
            app.handle(pygame.event.Event(pygame.TEXTINPUT, text=text))
    elif kind < 0.6:
        shown = [w for w in walk(app.screen.widgets) if w.shown_rect().w > 2 and w.shown_rect().h > 2]
        one = chance.choice(shown).shown_rect()
        start = (chance.randrange(one.left, one.right), chance.randrange(one.top, one.bottom))
        drag(app, start, start, 1)
    elif kind < 0.8:
        drag(app, place, (chance.randrange(app.size[0]), chance.randrange(app.size[1])), 4)
    elif kind < 0.9:
        move(app, place)
        app.handle(pygame.event.Event(pygame.MOUSEWHEEL, precise_y=chance.uniform(-4, 4), y=0, x=0))
    elif kind < 0.95:
        app.resized(chance.choice([(640, 480), (1024, 700), (1280, 800), (700, 1000)]))
    else:
        for _ in range(chance.randrange(20)):
            app.advance(1 / 60)


@pytest.mark.parametrize("seed", [1, 2, 3, 4])
def test_random_hands_break_nothing(seed, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)  # pictures may be saved
    chance = random.Random(seed)
    app = application((1280, 800), chance.choice(["start", "sandbox"]), reduced_motion=bool(seed % 2))
    for deed in range(DEEDS):
        random_deed(app, chance)
        if deed % 4 == 0:
            painter = draw(app)
            assert painter.records
    session = app.session
    assert session.state == replay(State(), session.commands[: session.position])[-1]
    assert from_text(as_text(session), "soak").state == session.state
    if session.loaded.at_rest:
        assert all(np.isfinite(point).all() for point in session.loaded.points.values())
    while session.undo():
        pass
    assert session.state == State()
