"""A pull that tears bonds is the first thing that undo takes back, and redo brings the torn foot again."""

import numpy as np
import pygame
import pytest
from driving import application, click, draw, press, widget

from hoofsim.app.widgets.report import complaints
from hoofsim.session.commands import SetControl

TORN = "the pull that tore bonds"


@pytest.fixture(params=[True, False], ids=["at once", "blending"])
def app(request):
    """A foot with weak bonds and one deed done, torn by a pull on its tip."""
    app = application(reduced_motion=request.param)
    app.screen.choose_load("suspended")
    app.screen.give(SetControl("laminae_percent", 25), None)
    draw(app, 0.5)
    tear(app)
    return app


def tear(app):
    tip = app.screen.shown.foot.points["tip"]
    assert app.screen.shown.grab(tuple(tip))
    app.screen.shown.pull((float(tip[0]), float(tip[1]) - 40.0))
    draw(app, 0.7)
    app.screen.shown.release()
    draw(app, 4.0)
    assert app.screen.shown.torn_by_hand


def points(app):
    return {name: np.array(at) for name, at in app.screen.shown.foot.points.items()}


def damage(app):
    """The largest share of a lamina's bond that is lost beyond what the load takes, as drawn."""
    lost = app.screen.shown.foot.stations["laminae"].damage
    return float((lost - app.session.loaded.stations["laminae"].damage).max())


def same(first, second, within=1e-9):
    return all(np.allclose(first[name], second[name], atol=within) for name in second)


def undo(app):
    press(app, pygame.K_z, pygame.KMOD_CTRL)


def redo(app):
    press(app, pygame.K_y, pygame.KMOD_CTRL)


def test_undo_mends_first_and_takes_back_the_deed_before_only_then(app):
    assert damage(app) > 0.2
    undo(app)
    assert app.notice == f"Undone: {TORN}."
    draw(app, 1.0)
    assert app.screen.shown.scene is None
    assert same(points(app), app.session.loaded.points)
    assert damage(app) < 0.01
    assert app.session.value("laminae_percent") == 25
    undo(app)
    assert app.session.value("laminae_percent") == 100


def test_the_way_back_is_seen_unless_motion_is_reduced(app):
    torn = damage(app)
    undo(app)
    draw(app, 0.1)
    if app.settings.reduced_motion:
        assert damage(app) < 0.01
    else:
        assert 0.1 * torn < damage(app) < 0.9 * torn


def test_redo_brings_the_torn_foot_again_and_undo_mends_it_again(app):
    torn, measured = points(app), dict(app.screen.shown.values())
    for _ in range(2):
        undo(app)
        draw(app, 0.5)
        assert app.screen.shown.values() == app.session.loaded.measures()
        redo(app)
        assert app.notice == f"Done again: {TORN}."
        draw(app, 0.5)
        assert same(points(app), torn, 1e-3)
        assert app.screen.shown.torn_by_hand
        assert app.screen.shown.values() == pytest.approx(measured, rel=1e-3, abs=1e-3)
    assert not app.screen.shown.moving, "a torn foot that has settled leaves the machine alone"


@pytest.mark.parametrize(
    "deed",
    [
        lambda app: app.screen.give(SetControl("heel_change_mm", 3), None),
        undo,
        lambda app: app.screen.shown.grab(tuple(app.screen.shown.foot.points["tip"])),
    ],
    ids=["a control", "undo", "another pull"],
)
def test_redo_does_not_bring_it_once_something_else_was_done(app, deed):
    undo(app)
    draw(app, 0.5)
    assert app.screen.shown.mended
    deed(app)
    assert not app.screen.shown.mended
    app.notice = ""
    redo(app)
    assert TORN not in app.notice


def test_a_look_at_another_screen_forgets_nothing(app):
    press(app, pygame.K_F1)
    press(app, pygame.K_ESCAPE)
    undo(app)
    assert app.notice == f"Undone: {TORN}."
    press(app, pygame.K_F2)
    press(app, pygame.K_ESCAPE)
    redo(app)
    assert app.screen.shown.torn_by_hand


def test_undo_in_the_midst_of_the_pull_lets_go(app):
    undo(app)
    draw(app, 0.5)
    tip = app.screen.shown.foot.points["tip"]
    app.screen.shown.grab(tuple(tip))
    app.screen.shown.pull((float(tip[0]), float(tip[1]) - 40.0))
    draw(app, 1.0)
    undo(app)
    assert app.screen.shown.held is None
    redo(app)
    assert app.screen.shown.held is None
    assert app.screen.shown.torn_by_hand


def test_the_buttons_and_the_line_at_the_foot_say_it():
    app = application()
    assert not widget(app, "Undo").enabled
    app.screen.choose_load("suspended")
    app.screen.give(SetControl("laminae_percent", 25), None)
    draw(app, 1.0)
    assert TORN not in widget(app, "Undo").tip_text()
    tear(app)
    button = widget(app, "Undo")
    assert button.enabled
    assert TORN in button.tip_text()
    painter = draw(app)
    assert complaints(painter.records, app.size) == []
    assert any("Undo (Ctrl Z) mends them" in record.text for record in painter.records)
    click(app, button)
    draw(app, 0.2)
    assert TORN in widget(app, "Redo").tip_text()
    assert widget(app, "Redo").enabled
    click(app, widget(app, "Redo"))
    assert app.screen.shown.torn_by_hand
