"""The plots to choose from: reached by keys, remembered, right in what they draw, and without cut text anywhere."""

import itertools

import numpy as np
import pygame
import pytest
from driving import application, draw, press, tab_to

from hoofsim.app.screens.sandbox.plots.account_curves import account_curves, seen, window_round
from hoofsim.app.screens.sandbox.plots.claim_plot import ClaimPlot
from hoofsim.app.screens.sandbox.plots.live_plots import WORK_EVERY
from hoofsim.app.screens.sandbox.plots.stance_curve import BLOCK, STANCES
from hoofsim.app.widgets.plot import PlotLine, PlotPicture
from hoofsim.app.widgets.report import complaints
from hoofsim.app.widgets.tagged_plot import Tag, TaggedPlot
from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.runs import NO_RUNS
from hoofsim.session.commands import SetControl, SetLoad

PLOTS = ("trace", "claim", "stride", "wall")
SIZES = [(640, 480), (1024, 700), (1280, 800), (1920, 1080)]


def opened(size=(1280, 800), which="claim", **settings):
    app = application(size, "sandbox", **settings)
    if not app.screen.wide:
        app.screen.choose_panel("curves")
    app.screen.plots.choose(which)
    draw(app)
    return app


def finished(app, most=600):
    for _ in range(most):
        app.advance(1 / 60)
        if not (app.screen.plots.working or app.screen.curves.due):
            return draw(app)
    raise AssertionError("the plot's work never ends")


def changed(app, **values):
    for name, value in values.items():
        app.screen.give(SetControl(name, value), None)


def said(app):
    return app.screen.plots.live["claim"].sentence.text


@pytest.mark.parametrize("scale", [100, 200])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("which", PLOTS)
def test_every_plot_fits_with_runs_and_scrolled_to_its_end(which, size, scale):
    app = opened(size, which, text_percent=scale)
    app.screen.keep_trial("", "")
    changed(app, healed_rotation_deg=8, laminae_percent=40)
    app.screen.keep_trial("", "")
    app.screen.give(SetLoad("walk", 80), None)
    painter = finished(app)
    assert complaints(painter.records, size) == []
    for panel in (app.screen.plots.panel, app.screen.plots.words):
        panel.scroll(100000)
    assert complaints(draw(app).records, size) == []


@pytest.mark.parametrize("size", [(1280, 800), (1024, 700)], ids=["wide", "one dock"])
def test_a_plot_is_chosen_by_keys_and_remembered(size):
    app = application(size, "sandbox")
    if not app.screen.wide:
        app.screen.choose_panel("curves")
    draw(app)
    for name in ("claim", "stride", "wall"):
        tab_to(app, "Plot")
        press(app, pygame.K_RETURN)
        draw(app)
        press(app, pygame.K_DOWN)
        press(app, pygame.K_RETURN)
        painter = finished(app)
        assert app.screen.plots.which == name
        words = app.screen.plots.chosen.plots[0].picture.y_words
        assert words in [record.text for record in painter.records]
    app.open("settings")
    press(app, pygame.K_ESCAPE)
    draw(app)
    assert app.screen.plots.which == "wall"


def test_the_claim_draws_five_curves_and_every_run_among_them():
    app = opened()
    finished(app)
    assert said(app) == NO_RUNS
    changed(app, healed_rotation_deg=8)
    app.screen.keep_trial("", "")
    changed(app, healed_rotation_deg=12)
    finished(app)
    for name, plot in app.screen.plots.live["claim"].charts.items():
        assert len(plot.picture.lines) == len(ACCOUNTS) == 5
        here = app.session.changes()
        expected = (here["capsular_rotation"].difference, here[name].difference)
        assert plot.picture.marks[-1].at == pytest.approx(expected)
        assert [mark.hollow for mark in plot.picture.marks] == [True, False]
        assert (plot.picture.bands[0].low, plot.picture.bands[0].high) == (-2.0, 2.0)
    assert said(app).startswith("All 2 runs")


def test_the_claim_says_what_cannot_be_told_apart_and_what_to_read_next():
    app = opened()
    changed(app, heel_change_mm=10)
    finished(app)
    assert said(app).startswith("Cannot tell")
    assert "tipped foot" in said(app)
    assert "read next" in said(app)


def test_trials_of_another_ready_foot_are_no_runs_of_this_one():
    app = opened()
    app.screen.choose_preset("pony")
    changed(app, heel_change_mm=10)
    app.screen.keep_trial("", "")
    app.screen.choose_preset("sound")
    finished(app)
    assert said(app) == NO_RUNS
    app.screen.choose_preset("pony")
    finished(app)
    assert said(app) != NO_RUNS


def test_curves_are_computed_once_a_baseline():
    app = opened()
    finished(app)
    before = app.screen.plots.live["claim"]._curves
    changed(app, heel_change_mm=5)
    finished(app)
    assert app.screen.plots.live["claim"]._curves is before
    app.screen.set_baseline()
    finished(app)
    assert app.screen.plots.live["claim"]._curves is not before


def test_an_account_alone_lies_on_its_curve():
    app = opened()
    points = app.session.baseline.points
    curves = account_curves(points)
    for name, account in ACCOUNTS.items():
        told = account.predict_change(points, 0.5 * account.high)
        for measure, of_account in curves.items():
            middle = of_account[name][len(of_account[name]) // 2]
            wanted = [float(told["capsular_rotation"]), float(told[measure])]
            assert np.allclose(middle, wanted, atol=1e-9)


def test_a_curve_is_cut_where_it_leaves_the_window():
    window = window_round([(12.0, -3.0)])
    assert window.x[1] > 12.0
    line = tuple((float(x), 0.0) for x in range(30))
    assert seen(line, window)[-1][0] <= window.x[1] < line[-1][0]


def test_the_stride_comes_in_pieces_and_once_a_foot():
    app = opened(which="stride")
    plot = app.screen.plots.live["stride"]
    draw(app, 0.3)
    for _ in range(20):
        before = sum(curve.done for curve in plot._curves.values())
        app.advance(WORK_EVERY)
        assert sum(curve.done for curve in plot._curves.values()) - before <= BLOCK
    finished(app)
    assert {gait: curve.done for gait, curve in plot._curves.items()} == {
        "walk": STANCES.size,
        "trot": STANCES.size,
    }
    found = plot._curves
    app.screen.give(SetLoad("walk", 50), None)
    finished(app)
    assert plot._curves is found, "the moment and the load case are no other foot"
    changed(app, heel_change_mm=5)
    finished(app)
    assert plot._curves is not found


def test_the_stride_marks_this_moment_on_its_line():
    app = opened(which="stride")
    finished(app)
    plot = app.screen.plots.live["stride"].charts["tendon_tension"]
    assert plot.picture.marks == ()
    app.screen.give(SetLoad("walk", 80), None)
    finished(app)
    (mark,) = plot.picture.marks
    assert mark.at == pytest.approx((80.0, app.session.loaded.measures()["tendon_tension"]))
    walk = dict(plot.picture.lines[0].points)
    assert walk[80.0] == pytest.approx(mark.at[1], rel=1e-6)
    app.screen.shown.play(True)
    places = []
    for _ in range(12):
        draw(app, 0.1)
        app.screen.plots.refresh(app.session, app.screen.shown, "mm")
        places += [round(mark.at[0]) for mark in plot.picture.marks]
    assert len(set(places)) > 3, "the mark goes with the stride"


def test_the_wall_shows_its_peak_and_the_baseline_dashed():
    app = opened(which="wall")
    finished(app)
    plot = app.screen.plots.live["wall"].plot
    assert len(plot.picture.lines) == 1
    changed(app, laminae_distal_percent=0)
    finished(app)
    assert [line.dashed for line in plot.picture.lines] == [True, False]
    assert plot.picture.marks[0].at[1] == pytest.approx(app.session.loaded.measures()["laminar_stress_peak"])


def test_without_rest_no_plot_shows_a_number():
    app = opened(which="wall")
    for name in ("laminae", "quarters", "sole_to_bone", "sole_to_wall"):
        app.session.do(SetControl(f"{name}_percent", 0))
    app.session.do(SetLoad("trot", 50))
    if app.session.loaded.at_rest:
        app.session.do(SetControl("load_percent", 150))
    app.screen.sitting_changed()
    for which in PLOTS:
        app.screen.plots.choose(which)
        painter = finished(app)
        assert complaints(painter.records, app.size) == []
    assert not app.session.loaded.at_rest
    wall = app.screen.plots.live["wall"].plot.picture
    assert wall.marks == ()
    assert wall.note


def test_a_new_claim_plot_has_nothing_to_say_before_its_work():
    assert ClaimPlot().sentence.text == ""


def test_tags_stand_off_their_lines_and_apart_and_the_needed_ones_always():
    theme = application().theme
    plot = TaggedPlot("plot")
    plot.picture = PlotPicture("x", "y", (PlotLine(((0.0, 0.0), (10.0, 0.0))),), least_height=10.0)
    plot.place(pygame.Rect(0, 0, 300, 240), theme)
    plot.tags = (Tag((5.0, 0.0), "one"), Tag((5.0, 0.0), "two"), Tag((5.0, 0.0), "three"))
    placed = plot.placed(theme)
    line = plot.scale(theme).to_window((5.0, 0.0))[1]
    assert [tag.words for tag, _ in placed][:2] == ["one", "two"]
    assert all(not box.top < line < box.bottom for _, box in placed[:2])
    assert all(not a[1].colliderect(b[1]) for a, b in itertools.combinations(placed, 2))
    crowd = tuple(PlotLine(((0.0, y / 4), (10.0, y / 4))) for y in range(-80, 80))
    plot.picture = PlotPicture("x", "y", crowd, least_height=10.0)
    plot.tags = (Tag((5.0, 0.0), "spare", needed=False), Tag((5.0, 0.0), "kept"))
    assert [tag.words for tag, _ in plot.placed(theme)] == ["kept"]
