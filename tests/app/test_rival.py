"""A rival account laid over the foot: chosen by keys, dotted, matched to the change, said in words, never cut."""

import numpy as np
import pygame
import pytest
from driving import application, draw, press, tab_to

from hoofsim.app.screens.sandbox.rival import CHOICES, NONE
from hoofsim.app.widgets.report import complaints
from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.session.commands import SetControl, SetLoad


def dotted(app):
    draw(app)
    return [one for one in app.screen.view.picture.primitives() if one.role == "rival"]


def test_it_is_chosen_from_the_list_by_keys():
    app = application()
    assert dotted(app) == []
    tab_to(app, "Account laid over the foot")
    press(app, pygame.K_RETURN)
    draw(app)
    press(app, pygame.K_DOWN)
    press(app, pygame.K_RETURN)
    assert app.screen.sheet.rival.name == next(iter(ACCOUNTS))
    assert len(dotted(app)) == 3
    assert "slide-through by 10.0 deg, an amount to look at" in app.notice


def test_the_key_goes_through_all_accounts_and_back_to_none():
    app = application((640, 480), text_percent=200)
    seen = []
    for _ in CHOICES:
        press(app, pygame.K_a)
        seen.append(app.screen.sheet.rival.name)
        assert app.screen.parts.rival.value == seen[-1]
    assert seen == [*ACCOUNTS, NONE]
    assert dotted(app) == []


@pytest.mark.parametrize("ghost_on", ["ground", "capsule", "bone", "none"])
def test_the_outline_is_where_the_account_puts_the_bone(ghost_on):
    app = application()
    app.screen.sheet.ghost = ghost_on
    app.screen.choose_rival("sinking")
    app.screen.give(SetControl("healed_sinking_mm", 8), None)
    app.screen.choose_rival("sinking")
    amount = app.screen.sheet.rival.likened(app.session).amount
    assert amount == pytest.approx(app.session.changes()["founder_distance"].difference, abs=0.1)
    bone = np.array(dotted(app)[2].points)
    tip = app.session.baseline.points["tip"] - np.array([0.0, amount])
    near = np.min(np.hypot(*(bone - tip).T))
    if ghost_on in ("ground", "none"):
        assert near < 3.0
    if ghost_on == "bone":
        assert np.min(np.hypot(*(bone - app.session.loaded.points["tip"]).T)) < 3.0


def test_the_words_follow_the_foot_and_the_unit():
    app = application(length_unit="in")
    app.screen.choose_rival("sinking")
    app.screen.give(SetControl("healed_sinking_mm", 8), None)
    draw(app)
    note = app.screen.view.notes[0]
    assert note.startswith("Dotted: sinking by 0.")
    assert note.endswith(" in, matched to founder distance.")


def test_a_running_stride_has_no_account_over_it():
    app = application()
    app.screen.choose_rival("carried_sole")
    app.screen.give(SetLoad("walk", 50), None)
    assert dotted(app)
    app.screen.shown.play(True)
    app.screen.sitting_changed()
    draw(app, 0.2)
    assert dotted(app) == []


@pytest.mark.parametrize("names", [False, True], ids=["bare", "named"])
@pytest.mark.parametrize("scale", [100, 200])
@pytest.mark.parametrize("size", [(640, 480), (1024, 700), (1280, 800)], ids=lambda s: f"{s[0]}x{s[1]}")
def test_it_fits_wherever_it_is_shown(size, scale, names):
    app = application(size, text_percent=scale)
    app.screen.give(SetControl("healed_rotation_deg", 8), None)
    for name in ACCOUNTS:
        app.screen.choose_rival(name)
        if names:
            app.screen.sheet.names = True
            app.screen.refit()
        app.notice = ""
        assert complaints(draw(app).records, size) == []
        assert len(dotted(app)) == 3
    left, bottom, right, top = app.screen.view.camera.seen()
    for line in dotted(app):
        points = np.array(line.points)
        assert np.all((points >= (left, bottom)) & (points <= (right, top)))
