"""Settings and the last sitting are kept, and trouble with keeping is a sentence, never a stop."""

import os
from types import SimpleNamespace

import pytest
from driving import draw

from hoofsim.app.application import AUTOSAVE_AFTER, Application
from hoofsim.app.main import main
from hoofsim.app.settings import Settings, accepted, load_settings, save_settings, settings_path
from hoofsim.session.commands import CutTendon, SetControl
from hoofsim.session.recovery import Recovery
from hoofsim.session.sandbox_file import open_file


def test_settings_come_back_as_they_were_kept():
    settings = Settings("in", 140, True, True, True)
    assert save_settings(settings) is None
    assert load_settings() == (settings, None)


def test_no_settings_are_the_start_values():
    assert load_settings() == (Settings(), None)


@pytest.mark.parametrize(
    ("data", "refused"),
    [
        ({"length_unit": "furlong", "contrast": True}, "length_unit"),
        ({"text_percent": "large", "contrast": True}, "text_percent"),
        ({"text_percent": True, "contrast": True}, "text_percent"),
        ({"sound": 3, "contrast": True}, "sound"),
    ],
)
def test_what_is_not_understood_is_named_and_the_rest_is_taken(data, refused):
    settings, said = accepted(data)
    assert settings == Settings(contrast=True)
    assert refused in said


def test_an_unwise_text_size_is_held_in_its_range():
    assert Settings(text_percent=900).text_scale == 2.0
    assert Settings(text_percent=1).text_scale == 0.8


def test_a_spoiled_settings_file_is_a_sentence(home):
    home.mkdir()
    settings_path().write_text("\t: {")
    settings, said = load_settings()
    assert settings == Settings()
    assert "could not be read" in said


def test_a_home_that_takes_nothing_is_said_and_nothing_stops(home):
    home.write_text("in the way")
    app = Application((1280, 800), Settings(cautions_seen=True))
    app.open("sandbox")
    app.change_settings(contrast=True)
    assert "could not be kept" in app.notice
    app.session.do(CutTendon(True))
    draw(app, AUTOSAVE_AFTER + 0.2)
    assert "cannot be kept against a crash" in app.notice
    app.quit()
    assert app.session.value("tendon_cut") == 1


def test_the_sitting_is_kept_by_and_by_and_on_leaving(home):
    app = Application((1280, 800), Settings(cautions_seen=True))
    app.open("sandbox")
    app.session.do(CutTendon(True))
    assert not list(home.glob("*.yaml"))
    draw(app, AUTOSAVE_AFTER + 0.2)
    assert open_file(home / "recovery.yaml").value("tendon_cut") == 1
    app.session.undo()
    app.quit()
    assert open_file(home / "recovery.yaml").value("tendon_cut") == 0


def test_the_start_screen_offers_to_continue_only_when_there_is_something():
    app = Application((1280, 800), Settings(cautions_seen=True, reduced_motion=True))
    app.open("start")
    assert app.screen.menu.items[0].name == "Sandbox"
    app.session.do(CutTendon(True))
    app.quit()
    app.recovery.release()
    again = Application((1280, 800), Settings(cautions_seen=True, reduced_motion=True))
    again.open("start")
    assert again.screen.menu.items[0].name == "Continue"
    again.screen.menu.items[0].action()
    assert again.screen.name == "sandbox"
    assert again.session.value("tendon_cut") == 1


def test_a_second_window_neither_offers_nor_overwrites_what_the_first_keeps(home):
    first, second = (Application((1280, 800), Settings(cautions_seen=True)) for _ in range(2))
    first.open("start")
    first.session.do(CutTendon(True))
    first.keep_recovery()
    second.open("start")
    assert second.screen.menu.items[0].name == "Sandbox"
    second.session.do(SetControl("heel_change_mm", 4))
    second.keep_recovery()
    assert open_file(home / "recovery.yaml").value("tendon_cut") == 1
    assert open_file(home / "recovery-2.yaml").value("heel_change_mm") == 4


def test_the_next_start_removes_what_a_kill_left_and_leaves_its_file_free(home, monkeypatch):
    lesson = home / "progress" / "ada"
    lesson.mkdir(parents=True)
    left = [
        home / ".recovery.yaml.a1b2c3d4.part",
        home / ".settings.yaml.a1b2c3d4.part",
        lesson / ".one.yaml.a1b2c3d4.part",
    ]
    for path in left:
        path.write_text("half")
        os.utime(path, (1000, 1000))
    monkeypatch.setattr("hoofsim.app.main.Loop", lambda app, surface: SimpleNamespace(run=lambda: None))
    assert main() == 0
    assert not any(path.exists() for path in left)
    assert Recovery.take().path == home / "recovery.yaml"
