"""A bone in the hand by keys alone: taken, pulled by millimetres, let go of in every way, never pulled beyond the bound."""

import numpy as np
import pygame
import pytest
from driving import application, click, draw, press, tab_to, widget

from hoofsim.app.screens.sandbox.holding import HOLDABLE, REACH_MM, middle, place_of
from hoofsim.app.widgets.report import complaints
from hoofsim.lessons.loader import lesson_files
from hoofsim.scene.grab import MOST_PULL_N
from hoofsim.session.commands import SetControl, SetLoad


@pytest.fixture
def app():
    return application()


def point_at(app, part):
    tab_to(app, "Foot")
    for _ in range(80):
        if app.screen.view.pointed_part == part:
            return
        press(app, pygame.K_RIGHT)
    raise AssertionError(f"the arrows never come to {part}")


def take(app, part="p3"):
    point_at(app, part)
    press(app, pygame.K_RETURN)
    draw(app, 0.1)
    assert app.screen.shown.held is not None


def words(app):
    return [record.text for record in draw(app).records]


def pull_told(painter):
    """The tag beside the hand, over the sheet."""
    return next(record for record in painter.records if record.layer and record.text.endswith(" N"))


@pytest.mark.parametrize("part", sorted(HOLDABLE - {"palmar_process"}))
def test_every_bone_pointed_at_is_taken_and_let_go_of_by_enter(app, part):
    take(app, part)
    painter = draw(app, 0.1)
    assert pull_told(painter).text == "0 N"
    assert complaints(painter.records, app.size) == []
    press(app, pygame.K_RETURN)
    assert app.screen.shown.held is None
    assert app.screen.name == "sandbox"


@pytest.mark.parametrize(
    ("key", "way"),
    [
        (pygame.K_LEFT, (-1, 0)),
        (pygame.K_RIGHT, (1, 0)),
        (pygame.K_UP, (0, 1)),
        (pygame.K_DOWN, (0, -1)),
    ],
    ids=["left", "right", "up", "down"],
)
def test_arrows_pull_the_bone_their_way_and_it_comes_back_when_let_go(app, key, way):
    before = {name: at.copy() for name, at in app.session.loaded.points.items()}
    take(app)
    start = app.screen.view._hand_at
    for _ in range(3):
        press(app, key)
    press(app, key, pygame.KMOD_SHIFT)
    assert np.allclose(np.subtract(app.screen.view._hand_at, start), 8.0 * np.array(way))
    draw(app, 0.6)
    hand = app.screen.shown.scene.hand
    assert np.dot(hand.force, way) > 0
    assert np.dot(np.subtract(hand.at, start), way) > 0.02, "what is held goes towards the hand"
    press(app, pygame.K_ESCAPE)
    assert app.screen.name == "sandbox", "Escape only lets go"
    draw(app, 4.0)
    assert not app.screen.shown.torn_by_hand
    assert app.screen.shown.scene is None
    for name, at in app.screen.shown.foot.points.items():
        assert np.allclose(at, before[name], atol=0.05), name
    assert app.session.commands == ()


def test_a_step_is_a_millimetre_however_near_the_view_is(app):
    point_at(app, "p3")
    app.screen.view.zoom(6)
    take(app)
    start = app.screen.view._hand_at
    press(app, pygame.K_RIGHT)
    assert np.subtract(app.screen.view._hand_at, start) == pytest.approx((1.0, 0.0))


def test_the_pull_and_the_reach_stay_bounded(app):
    take(app)
    start = np.array(app.screen.view._hand_at)
    for _ in range(40):
        press(app, pygame.K_UP, pygame.KMOD_SHIFT)
        draw(app, 1 / 60)
        assert np.hypot(*app.screen.shown.scene.hand.force) <= MOST_PULL_N * (1 + 1e-9)
    assert np.hypot(*(np.array(app.screen.view._hand_at) - start)) == pytest.approx(REACH_MM)
    assert np.hypot(*app.screen.shown.scene.hand.force) == pytest.approx(MOST_PULL_N)
    assert complaints(draw(app).records, app.size) == []
    press(app, pygame.K_DOWN, pygame.KMOD_SHIFT)
    assert np.hypot(*(np.array(app.screen.view._hand_at) - start)) == pytest.approx(REACH_MM - 5)


def test_the_line_is_drawn_to_the_hand_and_not_to_the_pointer(app):
    take(app)
    for _ in range(3):
        press(app, pygame.K_UP, pygame.KMOD_SHIFT)
    draw(app, 0.2)
    view = app.screen.view
    x, y = view.to_window(view._hand_at)
    box = pygame.Rect(pull_told(draw(app)).box)
    assert box.left > x
    assert abs(box.centery - y) < 3


@pytest.mark.parametrize(
    "leave",
    [
        lambda app: press(app, pygame.K_TAB),
        lambda app: press(app, pygame.K_TAB, pygame.KMOD_SHIFT),
        lambda app: press(app, pygame.K_F1),
        lambda app: press(app, pygame.K_F2),
        lambda app: press(app, pygame.K_KP_ENTER),
        lambda app: click(app, app.screen.view.rect.move(5, 5).topleft),
        lambda app: click(app, (app.screen.places["status"].centerx, app.screen.places["status"].centery)),
        lambda app: click(app, widget(app, "Names")),
        lambda app: press(app, pygame.K_r),
    ],
    ids=["tab", "back-tab", "cautions", "settings", "enter", "sheet", "status", "button", "reset"],
)
def test_whatever_else_is_done_lets_go(app, leave):
    app.screen.give(SetControl("heel_change_mm", 3), None)
    take(app)
    press(app, pygame.K_RIGHT)
    sandbox = app.screen
    leave(app)
    draw(app, 0.1)
    assert sandbox.shown.held is None
    assert not sandbox.view.holding


def test_what_cannot_be_held_is_said(app):
    tab_to(app, "Foot")
    press(app, pygame.K_RETURN)
    assert app.notice == "Point at a structure first: Left and Right go from one to the next."
    point_at(app, "flexor_tendon")
    press(app, pygame.K_RETURN)
    assert app.notice == "Only bones can be taken hold of, not the deep flexor tendon (DDFT)."
    assert app.screen.shown.scene is None


def test_a_foot_without_rest_is_not_taken_hold_of_and_says_so(app):
    for name in ("laminae", "quarters", "sole_to_bone", "sole_to_wall"):
        app.session.do(SetControl(f"{name}_percent", 0))
    app.session.do(SetLoad("trot", 50))
    app.screen.sitting_changed()
    assert not app.session.loaded.at_rest
    point_at(app, "p3")
    press(app, pygame.K_RETURN)
    assert "no state of rest" in app.notice
    assert not app.screen.view.holding


def test_the_line_at_the_foot_says_how(app):
    point_at(app, "p3")
    assert any("Enter: take hold." in text for text in words(app))
    press(app, pygame.K_RETURN)
    draw(app, 0.1)
    assert any("In the hand: distal phalanx (P3). Arrows pull" in text for text in words(app))


def test_keys_are_listed_in_the_settings():
    app = application(screen="settings")
    assert "take hold of the bone" in " ".join(words(app))


def test_enter_on_a_lessons_foot_goes_on_and_takes_nothing():
    app = application(screen="lessons")
    app.open("lesson", path=lesson_files()[0])
    draw(app)
    point_at(app, "p3")
    before = app.screen.now
    press(app, pygame.K_RETURN)
    assert not app.screen.view.holding
    assert app.screen.now != before


def test_the_middle_of_an_outline_is_its_centre_of_area(app):
    assert middle(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 2.0], [0.0, 2.0]])) == pytest.approx((2.0, 1.0))
    assert middle(np.array([[1.0, 1.0], [3.0, 3.0]])) == pytest.approx((2.0, 2.0)), "no area: the mean"
    assert place_of(app.screen.view.picture, "no such part") is None
