"""Two feet side by side: one clock, one difference, one pull, one scale."""

import math
from dataclasses import replace

import numpy as np
import pygame
import pytest
from driving import application, click, down, draw, move, press, tab_to, up, widget

from hoofsim.app.loop import STEP, Loop
from hoofsim.app.screens.pair.pairing import COMPARED, SIDES, History, Pairing, step_words
from hoofsim.app.screens.pair.twins import Twins
from hoofsim.foot.presets import PRESETS

WALK = {"case": "walk"}


def scenes(twins):
    return [twins.shown[side].scene for side in SIDES]


def walking(pace=0.5, **changes):
    twins = Twins(reduced_motion=True)
    twins.take(replace(twins.pairing, **(WALK | changes)))
    twins.set_pace(pace)
    twins.play(True)
    return twins


def test_two_strides_run_on_one_clock_at_any_pace_of_frames():
    twins = walking()
    chance = np.random.default_rng(5)
    for frame in range(40):
        twins.advance(float(chance.uniform(0.001, 0.06)))
        if frame == 20:
            twins.take(replace(twins.pairing, right=5.0), "drag")
            assert twins.playing
        left, right = scenes(twins)
        assert left.time == right.time
        assert left.stance_percent == right.stance_percent
        assert left.loaded.stance_percent == right.loaded.stance_percent
    assert left.foot.values["heel_change_mm"] == 0.0
    assert right.foot.values["heel_change_mm"] == 5.0


def test_feet_with_nothing_between_them_move_alike_bit_for_bit():
    twins = walking(right=0.0)
    for _ in range(30):
        twins.advance(STEP)
    left, right = (scene.loaded.points["tip"] for scene in scenes(twins))
    assert np.array_equal(left, right)


def test_stopping_holds_both_at_the_moment_they_have_reached():
    twins = walking()
    start = twins.pairing.stance_percent
    for _ in range(20):
        twins.advance(STEP)
    reached = scenes(twins)[0].stance_percent
    assert reached > start
    twins.play(False)
    assert scenes(twins) == [None, None]
    assert twins.pairing.stance_percent == pytest.approx(reached, abs=0.05)
    for side in SIDES:
        assert twins.shown[side].stance_percent() == twins.pairing.stance_percent
        assert twins.session(side).loaded.stance_percent == twins.pairing.stance_percent
    twins.undo()
    assert twins.pairing.stance_percent == start


def test_where_one_foot_finds_no_rest_neither_runs_and_both_go_on_together():
    twins = walking(case="trot", preset="failed_laminae")
    twins.take(twins.pairing.compare("sole_to_bone_percent"))
    assert twins.playing
    twins.advance(STEP)
    twins.take(replace(twins.pairing, right=0.0))
    assert not twins.shown["right"].at_rest
    assert not any(shown.playing for shown in twins.shown.values())
    twins.undo()
    twins.play(True)
    twins.advance(STEP)
    left, right = scenes(twins)
    assert left.time == right.time > 0


def test_a_pull_takes_the_same_place_of_the_same_bone_on_both_feet_and_both_come_back():
    twins = Twins(reduced_motion=True)
    before = {side: twins.session(side).loaded.points["tip"] for side in SIDES}
    start = tuple(before["left"] + np.array([-8.0, 5.0]))
    assert twins.grab("left", start)
    assert [scene.held for scene in scenes(twins)] == ["p3", "p3"]
    twins.pull("left", (start[0], start[1] - 6.0))
    hands = [scene.hand for scene in scenes(twins)]
    assert np.allclose(hands[0].force, hands[1].force, atol=1e-6)
    assert hands[0].force[1] < -100.0
    for _ in range(30):
        twins.advance(STEP)
    for side, scene in zip(SIDES, scenes(twins), strict=True):
        assert scene.loaded.points["tip"][1] < before[side][1] - 0.2
    twins.release()
    for _ in range(300):
        twins.advance(STEP)
    for side in SIDES:
        assert np.allclose(twins.shown[side].foot.points["tip"], before[side], atol=0.05)


def test_undo_mends_first_what_a_pull_has_torn():
    twins = Twins(reduced_motion=True)
    twins.take(replace(twins.pairing.compare("laminae_percent"), right=20.0))
    start = tuple(twins.session("left").loaded.points["tip"] + np.array([-8.0, 5.0]))
    assert twins.grab("left", start)
    twins.pull("left", (start[0] - 80.0, start[1] + 90.0))
    for _ in range(60):
        twins.advance(STEP)
    twins.release()
    for _ in range(200):
        twins.advance(STEP)
    assert twins.torn_by_hand
    pairing = twins.pairing
    twins.undo()
    assert not twins.torn_by_hand
    assert twins.pairing == pairing
    twins.redo()
    assert twins.torn_by_hand
    twins.undo()
    twins.undo()
    assert twins.pairing != pairing


@pytest.mark.parametrize("preset", list(PRESETS))
def test_every_control_can_be_compared_and_gives_two_feet(preset):
    twins = Twins(reduced_motion=True)
    twins.take(twins.pairing.of(preset))
    for control in COMPARED[:: 1 if preset in ("sound", "pony") else 7]:
        twins.take(twins.pairing.compare(control))
        assert twins.trouble == {}
        assert twins.pairing.left == PRESETS[preset].values[control] != twins.pairing.right
        assert all(shown.at_rest for shown in twins.shown.values()), control
        assert dict(twins.session("left").state.foot.changes) == {}


def test_a_foot_that_cannot_be_is_said_and_the_last_one_stays():
    twins = Twins(reduced_motion=True)
    twins.take(replace(twins.pairing, control="p3_dorsal_length_mm", left=54.1, right=56.0))
    kept = twins.session("right").loaded
    twins.take(replace(twins.pairing, right=70.0))
    assert "founder distance" in twins.trouble["right"]
    assert twins.session("right").loaded is kept
    app = application(screen="pair")
    app.screen.take(twins.pairing)
    painter = draw(app)
    assert any("No such foot" in record.text for record in painter.records)


def test_steps_of_one_gesture_are_one_step_of_the_history():
    history = History(Pairing())
    for value in (1.0, 2.0, 3.0):
        history.take(replace(history.now, right=value), "drag 1")
    history.take(replace(history.now, left=-5.0), "drag 2")
    history.undo()
    assert (history.now.left, history.now.right) == (0.0, 3.0)
    assert "left" in step_words(history.now, history.after, "mm")
    history.undo()
    assert history.now == Pairing()
    assert history.before is None
    history.redo()
    assert history.now.right == 3.0
    history.take(replace(history.now, case="walk"), None)
    assert history.after is None


def test_the_keyboard_alone_chooses_plays_undoes_and_goes_back():
    app = application(screen="pair")
    tab_to(app, "Load")
    press(app, pygame.K_RETURN)
    press(app, pygame.K_w, text="w")
    app.handle(pygame.event.Event(pygame.KEYDOWN, key=pygame.K_w, mod=0, unicode="w"))
    press(app, pygame.K_RETURN)
    draw(app)
    assert app.screen.twins.pairing.case == "walk"
    tab_to(app, "Right: heel change")
    press(app, pygame.K_HOME)
    assert app.screen.twins.pairing.right == -18.0
    press(app, pygame.K_z, pygame.KMOD_CTRL)
    assert app.screen.twins.pairing.right == 12.0
    app.screen.set_focus(None)
    press(app, pygame.K_SPACE)
    draw(app, 0.2)
    assert app.screen.twins.playing
    assert widget(app, "Play").down
    app.open("settings")
    app.back()
    assert not app.screen.twins.playing  # nothing runs while nobody looks
    press(app, pygame.K_ESCAPE)
    assert app.screen.name == "start"


def test_space_says_what_is_missing_where_nothing_can_move():
    app = application(screen="pair")
    press(app, pygame.K_SPACE)
    assert "walk or trot" in app.notice


def test_a_bone_is_pulled_with_the_pointer_and_the_other_follows():
    app = application(screen="pair", reduced_motion=False)
    view = app.screen.views["right"]
    middle = sum(view.points[name] for name in ("tip", "extensor_process", "tendon_insertion")) / 3
    x, y = (round(side) for side in view.to_window(tuple(middle)))
    move(app, (x, y))
    down(app, (x, y))
    move(app, (x, y + 40), (1, 0, 0))
    draw(app, 0.3)
    assert [scene.held for scene in scenes(app.screen.twins)] == ["p3", "p3"]
    assert all(each.hand is not None for each in app.screen.views.values())
    up(app, (x, y + 40))
    assert [scene.held for scene in scenes(app.screen.twins)] == [None, None]


def test_a_bone_is_pulled_by_keys_alone_on_both_feet():
    app = application(screen="pair", reduced_motion=False)
    tab_to(app, "Left foot")
    view = app.screen.views["left"]
    for _ in range(60):
        press(app, pygame.K_RIGHT)
        if view.pointed_part == "p3":
            break
    press(app, pygame.K_RETURN)
    for _ in range(6):
        press(app, pygame.K_UP)
    draw(app, 0.3)
    assert [scene.held for scene in scenes(app.screen.twins)] == ["p3", "p3"]
    press(app, pygame.K_RETURN)
    assert [scene.held for scene in scenes(app.screen.twins)] == [None, None]


def test_both_feet_are_drawn_at_one_scale_and_the_left_ones_outline_over_the_right():
    app = application(screen="pair")
    app.screen.set(right=25.0)
    draw(app)
    left, right = (app.screen.views[side] for side in SIDES)
    before = left.camera.scale
    assert left.camera.scale == right.camera.scale
    move(app, right.rect.center)
    app.handle(pygame.event.Event(pygame.MOUSEWHEEL, x=0, y=2, precise_x=0.0, precise_y=2.0, flipped=False))
    assert left.camera.scale == right.camera.scale > before
    assert left.camera.centre == right.camera.centre
    press(app, pygame.K_0)
    draw(app)
    assert left.camera.scale == right.camera.scale == before
    assert "ghost" in right.picture.parts()
    assert "ghost" not in left.picture.parts()
    assert any("the left foot" in note for note in right.notes)


@pytest.mark.parametrize("size", [(640, 480), (1280, 800)])
def test_both_feet_are_whole_from_the_first_moment(size):
    app = application(size, "pair", reduced_motion=False)
    for side in SIDES:
        view = app.screen.views[side]
        left, bottom, right, top = view.picture.bounds
        seen = view.camera.seen()
        assert seen[0] < left < right < seen[2]
        assert seen[1] < bottom < top < seen[3]


def test_a_tendon_whole_or_cut_is_told_in_words_and_has_no_line_between():
    app = application(screen="pair")
    app.screen.take(app.screen.twins.pairing.compare("tendon_cut"))
    words = {record.text for record in draw(app, 1.0).records}
    assert {"Left: tendon whole", "Right: tendon cut"} <= words
    picture = app.screen.plot.plot.picture
    assert picture.lines == ()
    assert [mark.at[0] for mark in picture.marks] == [0.0, 1.0]
    assert picture.x_words == "tendon: 0 whole, 1 cut"
    assert picture.x_range[0] < 0.0 < 1.0 < picture.x_range[1]


def test_pictures_made_in_turns_are_of_one_moment():
    app = application(screen="pair", reduced_motion=False)
    clock = iter(range(10**9))
    app.clock = lambda: (
        0.004 * next(clock)
    )  # everything takes its time, so each frame has room for one piece of work
    app.screen.set(**WALK)
    app.screen.set_pace(1.0)
    app.screen.toggle_play()
    loop = Loop(app, pygame.Surface(app.size))
    drawn = []
    for side in SIDES:
        paint = app.screen.views[side].paint
        app.screen.views[side].paint = lambda theme, side=side, paint=paint: (
            drawn.append(
                (side, app.screen.sheets.feet[side].stance_percent, app.screen.sheets.feet[side].lift_mm)
            ),
            paint(theme),
        )
    pygame.display.init()
    pygame.display.set_mode(app.size)
    for _ in range(60):
        loop.frame(STEP, [])
    moments = [[entry[1:] for entry in drawn if entry[0] == side] for side in SIDES]
    count = min(map(len, moments))
    assert count > 5
    assert moments[0][:count] == moments[1][:count]


def test_the_plot_shows_the_whole_range_standing_and_both_stances_walking():
    app = application(screen="pair")
    draw(app, 1.0)
    plot = app.screen.plot.plot
    assert len(plot.picture.lines) == 1
    assert [mark.at[0] for mark in plot.picture.marks] == [0.0, 12.0]
    curve = dict(plot.picture.lines[0].points)
    for mark, side in zip(plot.picture.marks, SIDES, strict=True):
        assert mark.at[1] == pytest.approx(app.screen.twins.session(side).loaded.measures()["tip_to_frog"])
    assert math.isclose(curve[30.0], 10.5, abs_tol=0.5)
    app.screen.set(**WALK)
    draw(app, 4.0)
    assert [line.dashed for line in plot.picture.lines] == [True, False]
    assert all(len(line.points) == 41 for line in plot.picture.lines)
    assert not app.screen.plot.working
    row = app.screen.dock.list.row_rect("tendon_tension")
    app.screen.dock.panel.offset = row.y - app.screen.dock.panel.rect.y
    app.screen.place()
    click(app, app.screen.dock.list.row_rect("tendon_tension").center)
    draw(app)
    assert plot.picture.y_words == "Deep flexor tendon (DDFT) tension, N"
