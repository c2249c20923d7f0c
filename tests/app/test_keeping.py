"""Settings and the last sitting are kept, and trouble with keeping is a sentence, never a stop."""

import pytest
from driving import draw

from hoofsim.app.application import AUTOSAVE_AFTER, Application
from hoofsim.app.settings import Settings, accepted, load_settings, save_settings, settings_path
from hoofsim.session.commands import CutTendon
from hoofsim.session.sandbox_file import recovered


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


def test_the_sitting_is_kept_by_and_by_and_on_leaving():
    app = Application((1280, 800), Settings(cautions_seen=True))
    app.open("sandbox")
    app.session.do(CutTendon(True))
    assert recovered() is None
    draw(app, AUTOSAVE_AFTER + 0.2)
    assert recovered().value("tendon_cut") == 1
    app.session.undo()
    app.quit()
    assert recovered().value("tendon_cut") == 0


def test_the_start_screen_offers_to_continue_only_when_there_is_something():
    app = Application((1280, 800), Settings(cautions_seen=True, reduced_motion=True))
    app.open("start")
    assert app.screen.menu.items[0].name == "Sandbox"
    app.session.do(CutTendon(True))
    app.quit()
    again = Application((1280, 800), Settings(cautions_seen=True, reduced_motion=True))
    again.open("start")
    assert again.screen.menu.items[0].name == "Continue"
    again.screen.menu.items[0].action()
    assert again.screen.name == "sandbox"
    assert again.session.value("tendon_cut") == 1
