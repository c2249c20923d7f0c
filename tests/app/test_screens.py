"""Every screen, at every size and text scale that is promised, without cut, overlapping or escaping text."""

import pygame
import pytest
from driving import application, click, draw, press, tab_to, widget

from hoofsim.app.main import render_screen
from hoofsim.app.screens.registry import SCREENS
from hoofsim.app.widgets.base import walk
from hoofsim.app.widgets.report import complaints
from hoofsim.errors import BadInput
from hoofsim.lessons.loader import lesson_files
from hoofsim.resources import scenarios_folder
from hoofsim.session.commands import SetControl

SIZES = [(1024, 700), (1280, 800), (1920, 1080)]
SCALES = [100, 200]
PANELS = ["trim", "bonds", "tendon", "load", "shape", "tissue", "measures", "curves", "trials"]


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", sorted(SCREENS))
def test_every_text_fits(name, size, scale):
    app = application(size, name, text_percent=scale)
    painter = draw(app, seconds=0.5)
    assert painter.records, "a screen says something"
    assert complaints(painter.records, size) == []


@pytest.mark.parametrize("scale", [80, 100, 140, 200])
@pytest.mark.parametrize(
    "size", [(640, 480), (1024, 700), (1280, 800), (700, 1000)], ids=lambda s: f"{s[0]}x{s[1]}"
)
def test_every_panel_of_the_sandbox_fits_wherever_it_is_scrolled(size, scale):
    app = application(size, "sandbox", text_percent=scale)
    screen = app.screen
    for panel in PANELS:
        if screen.wide and panel in ("measures", "trials"):
            screen.choose_right(panel)
        elif not (screen.wide and panel == "curves"):
            screen.choose_panel(panel)
        painter = draw(app)
        assert complaints(painter.records, size) == [], panel
        for one in list(walk(screen.widgets)):
            if hasattr(one, "overflows") and one.overflows():
                one.scroll(100000)
        painter = draw(app)
        assert complaints(painter.records, size) == [], f"{panel} at its end"


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("scale", [80, 100, 120, 200])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_values_and_their_changes_stand_apart(size, scale, unit):
    app = application(size, "sandbox", text_percent=scale, length_unit=unit)
    screen = app.screen
    for control, value in (("heel_change_mm", 20), ("laminae_percent", 40), ("load_percent", 150)):
        screen.give(SetControl(control, value), None)
    screen.choose_right("measures") if screen.wide else screen.choose_panel("measures")
    screen.measures.choice.chosen("all")
    texts = set()
    for place in range(0, 4000, 300):
        screen.measures.panel.offset = 0
        draw(app)
        screen.measures.panel.scroll(place)
        painter = draw(app)
        assert complaints(painter.records, size) == []
        texts |= {record.text for record in painter.records}
    assert {"▲", "▼"} <= texts
    assert any(text.endswith(" MPa") for text in texts)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_both_length_units_fit_and_are_shown(unit):
    app = application((1024, 700), "sandbox", length_unit=unit)
    painter = draw(app)
    assert complaints(painter.records, app.size) == []
    assert any(record.text.endswith(f" {unit}") for record in painter.records)


def test_contrast_setting_changes_what_is_drawn():
    plain = application((1280, 800), "settings")
    strong = application((1280, 800), "settings", contrast=True)
    surfaces = []
    for app in (plain, strong):
        surface = pygame.Surface(app.size)
        app.draw(surface)
        surfaces.append(surface.get_at((3, 790)))
    assert surfaces[0] != surfaces[1]
    assert surfaces[1][:3] == (255, 255, 255)


def test_cautions_are_confirmed_once_and_one_key_away():
    app = application((1280, 800), "start", cautions_seen=False)
    app.open("cautions")
    draw(app)
    press(app, pygame.K_RETURN)
    assert app.settings.cautions_seen
    assert app.screen.name == "start"
    for name in ("sandbox", "pair", "settings", "files", "lessons"):
        app.open(name)
        press(app, pygame.K_F1)
        assert app.screen.name == "cautions"
        press(app, pygame.K_ESCAPE)
        assert app.screen.name == name
        press(app, pygame.K_ESCAPE)


def test_the_stack_goes_down_to_the_start_screen_and_no_further():
    app = application((1280, 800), "start")
    app.open("sandbox")
    app.open("settings")
    app.open("sandbox")
    assert app.stack.names == ("start", "sandbox")
    app.back()
    app.back()
    assert app.stack.names == ("start",)
    other = application((1280, 800), "sandbox")
    other.back()
    assert other.stack.names == ("start",)


def test_a_new_text_size_is_in_force_at_once_and_said_when_limited():
    app = application((640, 480), "settings", text_percent=100)
    before = app.theme.em
    press(app, pygame.K_PLUS, pygame.KMOD_CTRL)
    draw(app)
    assert app.settings.text_percent == 110
    assert app.theme.em > before
    app.change_settings(text_percent=200)
    painter = draw(app)
    assert any("too small for that size" in record.text for record in painter.records)


def test_settings_are_changed_with_the_keyboard_alone():
    app = application((1280, 800), "settings", reduced_motion=False)
    tab_to(app, "High contrast")
    press(app, pygame.K_SPACE, text=" ")
    tab_to(app, "Reduced motion")
    press(app, pygame.K_RETURN)
    tab_to(app, "Lengths in")
    press(app, pygame.K_RETURN)
    press(app, pygame.K_DOWN)
    press(app, pygame.K_RETURN)
    tab_to(app, "Text size")
    press(app, pygame.K_END)
    assert (app.settings.contrast, app.settings.reduced_motion) == (True, True)
    assert (app.settings.length_unit, app.settings.text_percent) == ("in", 200)


@pytest.mark.parametrize("name", sorted(SCREENS))
def test_every_control_of_every_screen_is_reached_by_tab(name):
    app = application((1024, 700), name)
    draw(app, 0.3)
    wanted = [id(one) for one in app.screen.focusable()]
    reached = []
    for _ in wanted:
        press(app, pygame.K_TAB)
        reached.append(id(app.screen.focus))
        draw(app)
    assert sorted(reached) == sorted(wanted)
    press(app, pygame.K_TAB, pygame.KMOD_SHIFT)
    assert id(app.screen.focus) == reached[-2] if len(reached) > 1 else True


def test_a_focused_control_is_seen_whole_and_ringed():
    app = application((1024, 700), "sandbox", text_percent=200)
    focus = app.theme.colour("focus")
    for one in app.screen.focusable():
        app.screen.set_focus(one)
        app.screen.focus_shown = True
        surface = pygame.Surface(app.size)
        app.draw(surface)
        assert one.shown_rect().h >= min(one.rect.h, 40), one.name
        around = one.rect.inflate(24, 24).clip(surface.get_rect())
        found = any(
            surface.get_at((x, y))[:3] == focus
            for x in range(around.left, around.right, 3)
            for y in range(around.top, around.bottom)
        )
        assert found, f"no ring round {one.name}"


@pytest.mark.parametrize("name", sorted(SCREENS))
def test_every_control_of_every_screen_takes_a_press(name):
    app = application((1280, 800), name)
    for count in range(200):
        if app.screen.name != name or app.screen.opened():
            app = application((1280, 800), name)
        shown = [one for one in walk(app.screen.widgets) if one.shown_rect().w and one.shown_rect().h]
        if count >= len(shown):
            break
        click(app, shown[count].shown_rect().center)
        draw(app)


def test_open_and_save_by_keyboard(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    app = application((1280, 800), "sandbox")
    app.screen.controls.sliders["heel_change_mm"].set(9, "x")
    press(app, pygame.K_s, pygame.KMOD_CTRL)
    field = app.screen.path
    field.text = str(tmp_path / "mine")
    press(app, pygame.K_RETURN)
    assert (tmp_path / "mine.yaml").is_file()
    assert app.screen.name == "sandbox"
    other = application((1280, 800), "start")
    other.open("files")
    draw(other)
    click(other, widget(other, "mine.yaml"))
    assert other.screen.name == "sandbox"
    assert other.session.value("heel_change_mm") == 9


def test_a_scenario_opens_as_a_foot_and_a_lesson_as_a_lesson():
    app = application((1280, 800), "start")
    assert app.open_file(scenarios_folder() / "tendon_cut.yaml")
    assert app.screen.name == "sandbox"
    assert app.session.state.foot.changes
    assert app.file is None  # saving asks for a name: the scenario is not written over
    before = app.session
    assert app.open_file(lesson_files()[2])
    assert app.screen.name == "lesson"
    assert app.session is before


def test_a_vanished_or_broken_file_is_a_sentence_and_loses_nothing(tmp_path):
    app = application((1280, 800), "sandbox")
    app.screen.controls.sliders["heel_change_mm"].set(9, "x")
    for path, words in ((tmp_path / "gone.yaml", "no such file"), (tmp_path, "is a folder")):
        assert not app.open_file(path)
        assert words in app.notice
    assert app.session.value("heel_change_mm") == 9
    assert not app.save_sandbox_file(tmp_path)
    assert "is a folder" in app.notice
    assert complaints(draw(app).records, app.size) == []


def test_a_screen_is_drawn_without_a_window_and_bad_requests_are_sentences():
    assert render_screen("settings", (800, 600), 1.2).get_size() == (800, 600)
    with pytest.raises(BadInput, match="did you mean 'sandbox'"):
        render_screen("sandbx")
    with pytest.raises(BadInput, match="640x480"):
        render_screen("start", (100, 100))
    with pytest.raises(BadInput, match=r"0\.8 to 2"):
        render_screen("start", (800, 600), 3.0)
