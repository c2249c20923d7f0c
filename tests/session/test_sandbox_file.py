"""A sandbox file reopens exactly, is written whole or not at all, and a broken one is refused with a place."""

import os
import random

import pytest

from hoofsim.errors import BadInput
from hoofsim.foot.parameters import BY_NAME
from hoofsim.session.commands import BrushLaminae, ChoosePreset, CutTendon, SetBaseline, SetControl, SetLoad
from hoofsim.session.sandbox_file import (
    as_text,
    from_text,
    open_file,
    save,
)
from hoofsim.session.session import Session
from hoofsim.session.store import user_folder
from hoofsim.writing import write_whole


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("HOOFSIM_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


def lived_in():
    session, chance = Session(), random.Random(3)
    session.do(ChoosePreset("long_toe_low_heel"))
    for name in ("heel_change_mm", "wedge_deg", "tendon_pull_percent", "sole_to_bone_percent"):
        session.do(SetControl(name, chance.uniform(BY_NAME[name].low, BY_NAME[name].high)))
    session.do(SetLoad("trot", 61.7))
    session.do(SetBaseline())
    session.do(BrushLaminae("middle", 1 / 3))
    session.keep_trial("a note: with 'quotes', and ü", "up")
    session.do(CutTendon(True))
    session.undo()
    return session


def test_a_sitting_reopens_exactly(tmp_path):
    session, path = lived_in(), tmp_path / "foot.yaml"
    save(session, path)
    again = open_file(path)
    assert again.state == session.state
    assert again.commands == session.commands
    assert again.position == session.position
    assert again.redo()
    assert again.value("tendon_cut") == 1


def test_tiny_and_huge_numbers_survive_the_strict_reader():
    session = Session()
    session.do(SetControl("heel_change_mm", 1e-7))
    session.do(SetControl("wedge_deg", 0.1 + 0.2))
    assert from_text(as_text(session), "x").state == session.state


def test_saving_twice_gives_the_same_text():
    session = lived_in()
    assert as_text(session) == as_text(from_text(as_text(session), "x"))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no hoofsim file"),
        ("hoofsim: 1\nkind: scenario\ncommands: []\n", "kind"),
        ("hoofsim: 99\nkind: sandbox\ncommands: []\n", "newer hoofsim"),
        ("hoofsim: 1\nkind: sandbox\n", "key 'commands' is missing"),
        ("hoofsim: 1\nkind: sandbox\ncommands: []\nposition: 3\n", "whole number 0 to 0"),
        ("hoofsim: 1\nkind: sandbox\ncommands: []\nposition: true\n", "whole number"),
        ("hoofsim: 1\nkind: sandbox\ncomands: []\n", "unknown key 'comands'"),
        ("hoofsim: 1\nkind: sandbox\ncommands:\n- do: cut_tendn\n", "x:4:3: unknown command"),
        (
            "hoofsim: 1\nkind: sandbox\ncommands:\n- do: cut_tendon\n"
            "- do: set_control\n  name: lucent_zone_mm\n  value: 13.4\n- do: cut_tendon\n  cut: false\n",
            "x:5:3: lucent_zone_mm = 13.4 contradicts",
        ),
        (
            "hoofsim: 1\nkind: sandbox\ncommands:\n- do: restore_trial\n  number: 4\n",
            "x:4:3: there is no trial 4",
        ),
    ],
)
def test_a_broken_file_is_refused_with_its_place(text, words):
    with pytest.raises(BadInput, match=words):
        from_text(text, "x")


def test_a_vanished_file_is_a_sentence(tmp_path):
    with pytest.raises(BadInput, match="no such file"):
        open_file(tmp_path / "gone.yaml")


def test_a_failed_write_leaves_the_old_file_whole(tmp_path, monkeypatch):
    path = tmp_path / "foot.yaml"
    write_whole(path, "old")

    def fail(*args):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", fail)
    with pytest.raises(BadInput, match="No space left"):
        write_whole(path, "new")
    assert path.read_text() == "old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["foot.yaml"]


@pytest.mark.parametrize(
    ("platform", "variables", "where"),
    [
        ("win32", {"APPDATA": "C:/Users/Zoë B/AppData/Roaming"}, "Zoë B/AppData/Roaming/hoofsim"),
        ("win32", {"HOME": "/h"}, "h/AppData/Roaming/hoofsim"),
        ("darwin", {"HOME": "/Users/zoë"}, "zoë/Library/Application Support/hoofsim"),
        ("linux", {"HOME": "/h", "XDG_DATA_HOME": ""}, "h/.local/share/hoofsim"),
    ],
)
def test_each_system_has_its_place_for_a_persons_files(monkeypatch, platform, variables, where):
    for name in ("HOOFSIM_HOME", "APPDATA", "XDG_DATA_HOME"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr("sys.platform", platform)
    assert user_folder().as_posix().endswith(where)


def test_a_long_sitting_reopens(tmp_path):
    session, path = Session(), tmp_path / "long.yaml"
    for number in range(14_000):
        session.do(SetControl("heel_change_mm", 1 / (number + 1)))
    save(session, path)
    assert path.stat().st_size > 1_000_000
    assert open_file(path).state == session.state
