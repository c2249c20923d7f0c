"""The window opens without a home folder, and takes no name of a file amiss."""

import pytest
from driving import application, draw

from hoofsim.app.settings import load_settings, save_settings
from hoofsim.session.recovery import Recovery


@pytest.fixture
def nowhere(monkeypatch):
    monkeypatch.setenv("HOOFSIM_HOME", "~no-such-person/x")


@pytest.mark.usefixtures("nowhere")
def test_without_a_home_the_window_opens_says_so_and_works():
    settings, trouble = load_settings()
    assert "no home folder" in trouble
    assert "no home folder" in save_settings(settings)
    assert Recovery.take().last() is None
    app = application(screen="settings")
    draw(app)
    app.keep = True
    app.open("sandbox")
    draw(app, 0.1)
    app.keep_recovery()


@pytest.mark.parametrize("name", ["~no-such-person/a.yaml", "a" * 300, "../nowhere/a.yaml"])
@pytest.mark.parametrize("saving", [False, True])
def test_an_impossible_name_of_a_file_is_a_sentence(name, saving, tmp_path, monkeypatch):
    (tmp_path / "work").mkdir()
    monkeypatch.chdir(tmp_path / "work")
    app = application()
    app.open("files", saving=saving)
    app.screen._go(name)
    draw(app)
