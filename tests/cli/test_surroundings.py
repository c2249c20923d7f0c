"""Consoles, homes and folders as other systems have them, by simulation: the program does its job or says a sentence."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent.parent
SCENARIO = ROOT / "scenarios" / "whole_foot_tipped.yaml"


def hoofsim(*words: object, cwd: Path, **changes: str | None) -> subprocess.CompletedProcess[bytes]:
    """The program in a process of its own, with the environment changed (None takes a variable away)."""
    env = {key: value for key, value in os.environ.items() if key not in ("DISPLAY", "WAYLAND_DISPLAY")}
    env["PYTHONPATH"] = str(ROOT)
    for name, value in changes.items():
        env.pop(name, None)
        if value is not None:
            env[name] = value
    command = [sys.executable, "-m", "hoofsim", *map(str, words)]
    return subprocess.run(command, cwd=cwd, env=env, capture_output=True, check=False)


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "utf-8"])
@pytest.mark.parametrize(
    "words", [["run", SCENARIO], ["run", SCENARIO, "--json"], ["solve"], ["list", "sources"]], ids=str
)
def test_every_console_can_be_spoken_to(tmp_path: Path, encoding: str, words: list[object]) -> None:
    done = hoofsim(*words, cwd=tmp_path, PYTHONIOENCODING=encoding, PYTHONUTF8="0")
    assert done.returncode == 0, done.stderr
    said = done.stdout.decode(encoding)
    if "--json" in words:
        assert json.loads(said)[0]["title"] == "Whole foot tipped by tall heels"
    elif "run" in words:
        assert "changed by -0.9 deg" in said or "changed by \N{MINUS SIGN}0.9 deg" in said


def test_a_name_with_accents_and_spaces_is_read_and_written_under(tmp_path: Path) -> None:
    home = tmp_path / "Zoë's files" / "mañana"
    home.mkdir(parents=True)
    file = home / "hæl up.yaml"
    file.write_bytes(SCENARIO.read_bytes())
    done = hoofsim("run", file.name, "--out", "résumé", cwd=home, PYTHONIOENCODING="ascii", LC_ALL="C")
    assert done.returncode == 0, done.stderr
    assert (home / "résumé" / "hæl up.csv").read_bytes().startswith(b"foot,status,")


@pytest.mark.parametrize(
    ("changes", "where"),
    [
        ({"HOOFSIM_HOME": "{}/Zoë's files"}, "Zoë's files/progress"),
        ({"HOOFSIM_HOME": None, "XDG_DATA_HOME": "{}/a b"}, "a b/hoofsim/progress"),
        ({"HOOFSIM_HOME": None, "XDG_DATA_HOME": None, "HOME": "{}/home é"}, "home é/.local/share/hoofsim"),
        ({"HOOFSIM_HOME": "~/own", "HOME": "{}/h"}, "h/own/progress"),
    ],
    ids=["own", "data home", "home", "tilde"],
)
def test_a_persons_own_files_go_where_the_system_keeps_them(
    tmp_path: Path, changes: dict[str, str | None], where: str
) -> None:
    changes = {name: value and value.format(tmp_path) for name, value in changes.items()}
    code = "from hoofsim.lessons.store import Store; print(Store.default().folder)"
    env = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"}
    for name, value in changes.items():
        env.pop(name, None)
        if value is not None:
            env[name] = value
    done = subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, check=True)
    assert where in done.stdout.decode()


def test_without_a_home_what_needs_none_works_and_what_needs_one_says_so(tmp_path: Path) -> None:
    nowhere = {"HOOFSIM_HOME": "~no-such-person/x", "HOME": None}
    assert hoofsim("run", SCENARIO, cwd=tmp_path, **nowhere).returncode == 0
    done = hoofsim("progress", cwd=tmp_path, **nowhere)
    assert done.returncode == 2
    assert b"no home folder; set HOOFSIM_HOME" in done.stderr
    assert b"Traceback" not in done.stderr


def test_an_odd_folder_for_passing_files_is_not_needed(tmp_path: Path) -> None:
    done = hoofsim("draw", "foot.svg", cwd=tmp_path, TMPDIR="/no/such/folder")
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "foot.svg").is_file()


def test_control_signs_in_what_is_complained_about_do_not_reach_the_terminal(tmp_path: Path) -> None:
    done = hoofsim("check", "\x1b[31mred.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert b"\x1b" not in done.stderr


@pytest.mark.parametrize("words", [[], ["draw", "foot.svg"], ["weeks", "--csv", "weeks.csv"]], ids=str)
def test_a_working_folder_that_takes_no_files_is_a_sentence(words: list[object]) -> None:
    done = hoofsim(*words, cwd=Path("/proc"))
    assert done.returncode == 2
    assert done.stderr.count(b"\n") == 1
    assert b"cannot be" in done.stderr
