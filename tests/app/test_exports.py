"""What the window saves besides a sitting: pictures, a handout, clips; by name, by choice, and refused in a sentence."""

import io
import sys
from pathlib import Path
from types import SimpleNamespace

import pygame
import pytest
from driving import STEP, application, draw, press, tab_to, widget
from PIL import Image

from hoofsim.app.exports import CLIP_SIZE, EXPORTS, FRAMES_A_SECOND, export_bytes, missing_words
from hoofsim.app.widgets.report import complaints
from hoofsim.cautions import CAUTIONS
from hoofsim.errors import BadInput
from hoofsim.reports import clip
from hoofsim.session.commands import SetBaseline, SetControl, SetLoad
from hoofsim.session.session import Session


def saved(app):
    """The sentence at the end of the saving that was begun."""
    app.saving.wait()
    app.advance(STEP)
    assert app.saving is None
    return app.notice


BEGINS = {".png": b"\x89PNG", ".svg": b"<", ".html": b"<!DOCTYPE html>", ".gif": b"GIF89a"}


@pytest.fixture
def trotting():
    session = Session()
    session.do(SetControl("heel_change_mm", 12))
    session.do(SetLoad("trot", 40))
    return session


@pytest.mark.parametrize("ending", sorted(BEGINS))
def test_a_name_with_its_ending_saves_that_kind_of_file(tmp_path, ending):
    app = application()
    app.screen.choose_load("walk")
    app.open("files", saving=True)
    app.screen.path.text = str(tmp_path / f"mine{ending.upper()}")
    press(app, pygame.K_RETURN)
    assert app.screen.name == "sandbox"
    sentence = saved(app)
    (file,) = tmp_path.glob("mine*")
    assert sentence == f"Saved to {file}."
    assert file.read_bytes().startswith(BEGINS[ending])
    assert app.file is None, "the sitting itself is not saved by this"


def test_the_kind_is_chosen_by_keys_and_changes_the_ending(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    app = application()
    app.open("files", saving=True)
    assert complaints(draw(app).records, app.size) == []
    assert app.screen.path.text.endswith("my-foot.yaml")
    for number, ending in enumerate((*EXPORTS, ".yaml")):
        tab_to(app, "What to save")
        press(app, pygame.K_RETURN)
        press(app, pygame.K_HOME)
        for _ in range((number + 1) % (len(EXPORTS) + 1)):
            press(app, pygame.K_DOWN)
        press(app, pygame.K_RETURN)
        assert app.screen.path.text.endswith(f"my-foot{ending}")
    app.screen.path.text = "v1.2 heels"
    app.screen.kind.chosen(".png")
    assert app.screen.path.text == "v1.2 heels.png", "a point in a name is no ending"


@pytest.mark.parametrize("scale", [80, 200])
@pytest.mark.parametrize("size", [(640, 480), (1024, 700), (1920, 1080)], ids=lambda s: f"{s[0]}x{s[1]}")
def test_the_saving_screen_fits(size, scale):
    app = application(size, text_percent=scale)
    app.open("files", saving=True)
    assert complaints(draw(app).records, size) == []
    tab_to(app, "What to save")
    press(app, pygame.K_RETURN)
    assert app.screen.kind.open
    assert complaints(draw(app).records, size) == []


def test_opening_offers_no_kinds():
    app = application()
    app.open("files")
    draw(app)
    assert not app.screen.kind.visible
    assert not app.screen.hint.visible


def test_the_handout_tells_foot_baseline_changes_and_cautions(trotting):
    text = export_bytes(trotting, ".html")
    assert "Sound foot, heel change 12 mm, trot at 40 % of stance" in text
    assert "Compared with: Sound foot, trot at 40 % of stance." in text
    assert "<img" in text
    assert "+5.2 deg</td>" in text
    assert "+0.5 mm ·</td>" in text, "too small for a radiograph"
    for caution in CAUTIONS:
        assert caution.split("'")[0] in text
    inches = export_bytes(trotting, ".html", "in")
    assert " in</td>" in inches
    assert " mm</td>" not in inches


def test_a_picture_names_what_it_is_compared_with(trotting):
    assert "Dashed: the unchanged foot" in export_bytes(trotting, ".svg")
    trotting.do(SetBaseline())
    trotting.do(SetControl("wedge_deg", 3))
    assert "Dashed: the baseline" in export_bytes(trotting, ".svg")


def test_a_clip_shows_one_stride_in_motion_and_says_its_pace(trotting):
    with Image.open(io.BytesIO(export_bytes(trotting, ".gif"))) as moving:
        assert moving.size == CLIP_SIZE
        assert moving.n_frames == pytest.approx(2 * 0.72 * FRAMES_A_SECOND, abs=4)
        seen = set()
        for number in range(moving.n_frames):
            moving.seek(number)
            seen.add(moving.convert("RGB").resize((48, 36)).tobytes())
        assert moving.info["duration"] == 1000 / FRAMES_A_SECOND
        assert moving.info["loop"] == 0
    assert len(seen) > 0.8 * moving.n_frames


def test_while_a_clip_is_made_the_window_goes_on_and_says_how_far_it_is(tmp_path):
    app = application()
    app.screen.choose_load("walk")
    assert app.export(tmp_path / "a.gif")
    before = app.session.commands
    told = []
    while not app.saving.over:
        draw(app, 0.05)
        told.append(app.notice)
        app.screen.give(
            SetControl("heel_change_mm", len(told) % 20), "drag"
        )  # of the sitting now, not of the clip
    assert not app.export(tmp_path / "b.gif")
    assert "still being saved" in app.notice
    assert saved(app) == f"Saved to {tmp_path / 'a.gif'}."
    shares = [int(words.split(": ")[1].split(" %")[0]) for words in told if words.startswith("Saving a.gif")]
    assert shares == sorted(shares)
    assert len(set(shares)) > 5
    plain = Session(before)
    assert (tmp_path / "a.gif").read_bytes() == export_bytes(plain, ".gif")


def test_escape_stops_a_clip_and_nothing_is_written(tmp_path):
    app = application()
    app.screen.choose_load("walk")
    assert app.export(tmp_path / "a.gif")
    press(app, pygame.K_ESCAPE)
    assert app.screen.name == "sandbox"
    assert saved(app) == "Stopped: a.gif was not saved."
    assert list(tmp_path.iterdir()) == []


def test_leaving_waits_for_the_file_that_was_asked_for(tmp_path):
    app = application()
    assert app.export(tmp_path / "a.svg")
    app.quit()
    assert (tmp_path / "a.svg").read_bytes().startswith(b"<")


@pytest.mark.parametrize("ending", [".gif", ".mp4"])
def test_a_clip_of_a_standing_foot_is_refused_with_what_to_do(tmp_path, ending):
    app = application()
    assert not app.export(tmp_path / f"a{ending}")
    assert app.notice == "Not saved: a clip shows a stride: choose walk or trot under Load first"
    assert list(tmp_path.glob("a*")) == []


def test_a_foot_without_rest_and_an_unknown_ending_are_refused():
    session = Session()
    for name in ("laminae", "quarters", "sole_to_bone", "sole_to_wall"):
        session.do(SetControl(f"{name}_percent", 0))
    session.do(SetLoad("trot", 50))
    for ending in EXPORTS:
        with pytest.raises(BadInput, match="no state of rest"):
            export_bytes(session, ending)
    with pytest.raises(BadInput, match=r"the name must end in \.yaml, \.png"):
        export_bytes(Session(), ".doc")


def test_without_the_extra_the_screen_hints_and_the_clip_is_refused(trotting, monkeypatch, tmp_path):
    monkeypatch.setattr(clip, "find_spec", lambda module: None if module == "imageio_ffmpeg" else "there")
    words = "For .mp4 clips: pip install 'hoofsim[clips]'."
    assert missing_words() == words
    app = application()
    app.open("files", saving=True)
    painter = draw(app)
    assert words in [record.text for record in painter.records]
    with pytest.raises(BadInput, match="pip install"):
        export_bytes(trotting, ".mp4")
    monkeypatch.setattr(clip, "find_spec", lambda module: "there")
    assert missing_words() == ""
    app.back()
    app.open("files", saving=True)
    assert not app.screen.hint.visible


def test_frames_go_to_the_extra_in_order_and_its_trouble_is_a_sentence(monkeypatch):
    taken = []

    def write_frames(path, size, fps, macro_block_size):
        assert (size, fps) == ((4, 2), 20)
        taken.append((yield))
        while True:
            try:
                taken.append((yield))
            except GeneratorExit:
                Path(path).write_bytes(b"clip")
                return

    monkeypatch.setattr(clip, "find_spec", lambda module: "there")
    monkeypatch.setitem(sys.modules, "imageio_ffmpeg", SimpleNamespace(write_frames=write_frames))
    assert clip.clip_bytes([b"1" * 24, b"2" * 24], (4, 2), 20, ".mp4") == b"clip"
    assert taken == [b"1" * 24, b"2" * 24]

    def fail(*arguments, **options):
        raise RuntimeError("No ffmpeg exe could be found.")

    monkeypatch.setitem(sys.modules, "imageio_ffmpeg", SimpleNamespace(write_frames=fail))
    with pytest.raises(BadInput, match="could not be made: No ffmpeg exe"):
        clip.clip_bytes([b"1" * 24], (4, 2), 20, ".mp4")


def test_a_place_that_takes_no_file_is_a_sentence(tmp_path):
    app = application()
    assert app.export(tmp_path / "nowhere" / "a.svg")
    assert saved(app).startswith("Not saved: ")
    assert widget(app, "Foot")
