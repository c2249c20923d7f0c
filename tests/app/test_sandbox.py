"""The sandbox as a person uses it: controls, handles, blade, brush, bone in the hand, stride, undo, presenter's view."""

import numpy as np
import pygame
import pytest
from driving import application, click, down, drag, draw, move, press, tab_to, up, widget

from hoofsim.app.screens.sandbox.handles import HANDLES
from hoofsim.app.widgets.report import complaints
from hoofsim.foot.parameters import PARAMETERS
from hoofsim.session.commands import BrushLaminae, SetControl, SetLoad


@pytest.fixture
def app():
    return application()


def place_of(app, landmark, beside=(0.0, 0.0)):
    x, y = app.screen.shown.foot.points[landmark]
    return tuple(round(v) for v in app.screen.view.to_window((float(x) + beside[0], float(y) + beside[1])))


@pytest.mark.parametrize("parameter", [p for p in PARAMETERS if p.name != "tendon_cut"], ids=lambda p: p.name)
def test_every_control_is_moved_by_keys_alone(parameter):
    app = application()
    press(app, pygame.K_1 + ["trim", "bonds", "tendon", "load", "shape", "tissue"].index(parameter.group))
    if parameter.name == "stance_percent":
        app.screen.choose_load("walk")
    draw(app)
    before = app.session.value(parameter.name)
    slider = tab_to(app, parameter.label)
    press(app, pygame.K_LEFT if before == parameter.high else pygame.K_RIGHT)
    assert app.session.value(parameter.name) != before
    assert slider.value == app.session.value(parameter.name)
    press(app, pygame.K_z, pygame.KMOD_CTRL)
    assert app.session.value(parameter.name) == before
    draw(app)
    assert slider.value == before


@pytest.mark.parametrize("handle", HANDLES, ids=lambda handle: handle.key)
def test_every_handle_drags_its_control_both_ways_as_one_step(app, handle):
    before = app.session.value(handle.control)
    start = tuple(round(v) for v in app.screen.view.handle_places()[handle.key])
    along = np.array([handle.along[0], -handle.along[1]]) / np.hypot(*handle.along)
    pixels = along * 4.0 * app.screen.view.camera.scale
    drag(app, start, tuple(round(v) for v in start + pixels))
    expected = before + 4.0 * handle.per_mm
    assert app.session.value(handle.control) == pytest.approx(expected, abs=handle.per_mm * 0.6)
    assert len(app.session.commands) == 1
    draw(app)
    start = tuple(round(v) for v in app.screen.view.handle_places()[handle.key])
    drag(app, start, tuple(round(v) for v in start - 2 * pixels))
    assert app.session.value(handle.control) < before or before == 0 == app.session.value(handle.control)
    press(app, pygame.K_z, pygame.KMOD_CTRL)
    press(app, pygame.K_z, pygame.KMOD_CTRL)
    assert app.session.commands == () or app.session.position == 0
    assert app.session.value(handle.control) == before


def test_the_blade_cuts_the_tendon_and_makes_it_whole(app):
    press(app, pygame.K_k)
    middle = place_of(app, "tendon_upper")
    click(app, middle)
    assert app.session.value("tendon_cut") == 1
    assert app.session.loaded.measures()["tendon_tension"] == 0
    draw(app)
    click(app, place_of(app, "tendon_upper"))
    assert app.session.value("tendon_cut") == 0
    click(app, place_of(app, "toe", (-10.0, 10.0)))
    assert app.session.value("tendon_cut") == 0


def test_the_brush_takes_laminae_away_where_it_goes_and_gives_them_back(app):
    press(app, pygame.K_b)
    stations = app.session.loaded.stations["laminae"]
    middles = 0.5 * (stations.bone_end + stations.horn_end)
    low, high = middles[np.argmin(middles[:, 1])], middles[np.argmax(middles[:, 1])]
    third = [app.screen.view.to_window(tuple(low + (high - low) * share)) for share in (0.0, 0.3)]
    start, end = (tuple(round(v) for v in place) for place in third)
    drag(app, start, end, 12)
    assert app.session.value("laminae_distal_percent") < 100
    assert app.session.value("laminae_proximal_percent") == 100
    press(app, pygame.K_z, pygame.KMOD_CTRL)
    assert app.session.value("laminae_distal_percent") == 100
    press(app, pygame.K_y, pygame.KMOD_CTRL)
    gone = app.session.value("laminae_distal_percent")
    draw(app)
    press(app, pygame.K_n)
    drag(app, start, end, 12)
    assert app.session.value("laminae_distal_percent") > gone


def test_a_bone_in_the_hand_follows_and_comes_back(app):
    start = place_of(app, "extensor_process", (4.0, -12.0))
    before = app.session.loaded.points["tip"].copy()
    move(app, start)
    down(app, start)
    assert app.screen.shown.scene is not None
    move(app, (start[0] - 60, start[1] - 60), (1, 0, 0))
    draw(app, 0.5)
    moved = app.screen.shown.foot.points["tip"] - before
    assert np.hypot(*moved) > 0.2
    painter = draw(app)
    assert any(record.text.endswith(" N") for record in painter.records)
    up(app, (start[0] - 60, start[1] - 60))
    draw(app, 4.0)
    if not app.screen.shown.torn_by_hand:
        assert app.screen.shown.scene is None
        assert np.allclose(app.screen.shown.foot.points["tip"], before, atol=0.05)
    assert app.session.commands == ()


def test_a_stride_plays_for_walk_and_trot_only(app):
    press(app, pygame.K_SPACE, text=" ")
    assert not app.screen.shown.playing
    assert "walk or trot" in app.notice
    app.screen.choose_load("trot")
    app.screen.set_focus(None)
    press(app, pygame.K_SPACE, text=" ")
    assert app.screen.shown.playing
    heights = []
    for _ in range(20):
        painter = draw(app, 0.1)
        heights.append(float(app.screen.shown.foot.points["cor"][1]))
    assert max(heights) - min(heights) > 20, "the foot leaves the ground"
    assert complaints(painter.records, app.size) == []
    app.screen.give(SetControl("heel_change_mm", 6), None)
    draw(app, 0.2)
    assert app.screen.shown.playing
    press(app, pygame.K_SPACE, text=" ")
    draw(app, 0.5)
    assert not app.screen.shown.playing


def test_a_stride_is_slowed_down_to_a_twentieth(app):
    app.screen.choose_panel("load")
    assert not app.screen.controls.pace.visible
    app.screen.choose_load("walk")
    draw(app)
    assert app.screen.controls.pace.visible
    app.screen.toggle_play()
    draw(app, 0.1)
    quick = app.screen.shown.scene.stance_percent
    for pace in (0.5, 0.25, 0.1, 0.05):
        press(app, pygame.K_s)
        assert app.screen.shown.pace == pace
        assert app.screen.controls.pace.value == str(pace)
    before = app.screen.shown.scene.stance_percent
    draw(app, 1.0)
    gone = app.screen.shown.scene.stance_percent - before
    assert gone == pytest.approx((quick - 50) / 2, rel=0.2)
    app.screen.controls.pace.choose(0)
    before = app.screen.shown.scene.stance_percent
    draw(app, 0.1)
    assert app.screen.shown.scene.stance_percent - before == pytest.approx(quick - 50, rel=0.2)


def test_a_stride_that_is_stopped_stays_at_the_moment_it_has_reached(app):
    app.screen.choose_load("walk")
    start = app.session.state.load.stance_percent
    app.screen.toggle_play()
    draw(app, 0.12)
    reached = app.screen.shown.stance_percent()
    app.screen.toggle_play()
    draw(app, 1.0)
    assert app.session.state.load.stance_percent == pytest.approx(reached, abs=0.05)
    assert reached > start + 5
    assert app.screen.shown.foot is app.session.loaded
    press(app, pygame.K_z, pygame.KMOD_CTRL)
    assert app.session.state.load.stance_percent == start
    app.screen.toggle_play()
    while app.screen.shown.stance_percent() is not None:
        draw(app, 0.05)
    app.screen.toggle_play()
    assert app.session.state.load.stance_percent == start


def test_a_change_moves_the_foot_there_and_at_once_with_reduced_motion():
    for reduced in (False, True):
        app = application(reduced_motion=reduced)
        app.screen.give(SetControl("heel_change_mm", 12), None)
        end = app.session.loaded.points["heel_ground"]
        draw(app, 0.05)
        now = app.screen.shown.foot.points["heel_ground"]
        assert np.allclose(now, end) == reduced
        draw(app, 0.5)
        assert np.array_equal(app.screen.shown.foot.points["heel_ground"], end)


def test_a_foot_without_rest_is_said_and_has_no_numbers(app):
    for name in ("laminae", "quarters", "sole_to_bone", "sole_to_wall"):
        app.session.do(SetControl(f"{name}_percent", 0))
    app.session.do(SetLoad("trot", 50))
    app.screen.sitting_changed()
    if app.session.loaded.at_rest:
        app.session.do(SetControl("load_percent", 150))
        app.screen.sitting_changed()
    assert not app.session.loaded.at_rest
    painter = draw(app, 0.3)
    said = " ".join(record.text for record in painter.records)
    assert "no state of rest" in said or "No state of rest" in said
    assert complaints(painter.records, app.size) == []
    press(app, pygame.K_t)
    assert app.session.state.trials == ()
    assert "no numbers to keep" in app.notice
    while app.session.undo():
        app.screen.sitting_changed()
        draw(app)
    assert app.screen.shown.at_rest


def test_pointing_tells_name_sentence_and_number(app):
    move(app, place_of(app, "extensor_process", (4.0, -14.0)))
    app.advance(1.0)
    painter = draw(app)
    said = [record.text for record in painter.records]
    assert any("coffin bone" in text for text in said)
    assert any("Palmar angle: 4." in text for text in said)


def test_structures_can_be_stepped_through_with_the_keyboard(app):
    tab_to(app, "Foot")
    seen = set()
    for _ in range(60):
        press(app, pygame.K_RIGHT)
        seen.add(app.screen.view.pointed_part)
    draw(app)
    assert {"p3", "navicular", "flexor_tendon", "frog", "dorsal_wall"} <= seen


def test_zoom_and_pan_keep_the_place_under_the_pointer(app):
    place = place_of(app, "tip")
    move(app, place)
    app.handle(pygame.event.Event(pygame.MOUSEWHEEL, precise_y=3.0, y=3, x=0))
    draw(app)
    assert place_of(app, "tip") == pytest.approx(place, abs=1)
    press(app, pygame.K_LEFT, pygame.KMOD_CTRL)
    assert place_of(app, "tip")[0] == pytest.approx(place[0] + 40, abs=1)
    app.screen.set_focus(None)
    press(app, pygame.K_0)
    draw(app)
    assert place_of(app, "tip") == pytest.approx(place, abs=1)


def test_measures_follow_and_grey_what_no_radiograph_shows(app):
    app.screen.give(SetControl("heel_change_mm", 10), None)
    draw(app)
    rows = {row.key: row for row in app.screen.measures.list.rows}
    assert rows["palmar_angle"].change.startswith("+")
    assert rows["palmar_angle"].readable
    assert not rows["wall_to_bone_distal"].readable
    press(app, pygame.K_m)
    draw(app)
    assert {row.change for row in app.screen.measures.list.rows} == {""}


def test_the_curve_follows_the_control_and_the_measure(app):
    app.screen.give(SetControl("wedge_deg", 3), None)
    click(app, app.screen.measures.list.row_rect("tendon_tension").center)
    draw(app, 0.5)
    picture = app.screen.curves.curve.picture
    assert picture.x_words.startswith("Wedge")
    points = picture.lines[0].points
    assert points[0][1] > points[-1][1], "raising the heels slackens the tendon"
    mark = picture.marks[-1].at
    nearest = min(points, key=lambda p: abs(p[0] - mark[0]))
    assert mark[1] == pytest.approx(nearest[1], rel=0.15)


def test_trials_are_kept_by_keyboard_with_note_and_prediction(app):
    app.screen.choose_right("trials")
    draw(app)
    tab_to(app, "What do you expect?").typed("angle up")
    tab_to(app, "Note").typed("c for coffin, t for toe")
    press(app, pygame.K_RETURN)
    trial = app.session.state.trials[0]
    assert (trial.prediction, trial.note) == ("angle up", "c for coffin, t for toe")
    app.screen.give(SetControl("heel_change_mm", 9), None)
    draw(app)
    click(app, widget(app, "Go back to trial 1"))
    assert app.session.value("heel_change_mm") == 0


def test_typing_in_a_field_starts_no_shortcut(app):
    app.screen.choose_right("trials")
    draw(app)
    tab_to(app, "Note")
    for letter in "cmrtp":
        press(app, getattr(pygame, f"K_{letter}"), text=letter)
        app.handle(pygame.event.Event(pygame.TEXTINPUT, text=letter))
    assert app.session.commands == ()
    assert app.screen.focus.text == "cmrtp"


def test_presenter_view_hides_layers_writes_freezes_and_changes_feet(app):
    press(app, pygame.K_p)
    painter = draw(app)
    assert complaints(painter.records, app.size) == []
    parts = set(app.screen.view.picture.parts())
    press(app, pygame.K_7)
    draw(app)
    assert "flexor_tendon" in parts - set(app.screen.view.picture.parts())
    press(app, pygame.K_d)
    drag(app, (500, 300), (600, 400))
    assert len(app.screen.view.strokes) == 1
    press(app, pygame.K_d, pygame.KMOD_SHIFT)
    assert app.screen.view.strokes == []
    press(app, pygame.K_f)
    assert app.screen.shown.frozen
    press(app, pygame.K_s)
    assert app.screen.shown.pace == 0.5
    assert any("half as fast" in record.text.lower() for record in draw(app).records)
    press(app, pygame.K_PAGEDOWN)
    assert app.session.state.foot.preset == "long_toe_low_heel"
    press(app, pygame.K_ESCAPE)
    assert not app.screen.presenter.on
    assert app.screen.name == "sandbox"


def test_a_picture_is_kept_as_png_and_svg_and_nothing_is_overwritten(app, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    press(app, pygame.K_x)
    press(app, pygame.K_x)
    assert sorted(entry.name for entry in tmp_path.iterdir() if entry.is_file()) == [
        "foot-1.png", "foot-1.svg", "foot-2.png", "foot-2.svg",
    ]  # fmt: skip
    assert (tmp_path / "foot-1.svg").read_text().startswith("<")


def test_tendon_ghost_names_and_reset_keys(app):
    press(app, pygame.K_c)
    assert app.session.value("tendon_cut") == 1
    press(app, pygame.K_g)
    assert app.screen.sheet.ghost == "capsule"
    press(app, pygame.K_l)
    painter = draw(app)
    assert app.screen.sheet.names
    assert complaints(painter.records, app.size) == []
    press(app, pygame.K_r)
    assert app.session.state.foot.changes == ()


def test_a_command_given_elsewhere_is_shown_on_coming_back(app):
    app.open("settings")
    app.session.do(BrushLaminae("whole", 50))
    press(app, pygame.K_ESCAPE)
    draw(app)
    assert app.screen.controls.sliders["laminae_percent"].value == 50


def test_what_is_dashed_is_called_what_it_is(app):
    app.screen.give(SetControl("heel_change_mm", 8), None)
    draw(app)
    assert any("the unchanged foot" in note for note in app.screen.view.notes)
    app.screen.set_baseline()
    app.screen.give(SetControl("heel_change_mm", 14), None)
    draw(app)
    assert any("the baseline" in note for note in app.screen.view.notes)
