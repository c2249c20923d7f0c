"""Sittings kept against a crash: windows open together keep theirs apart, a killed one leaves its own to the next."""

import os
import signal
import subprocess
import sys
import time

import pytest

from hoofsim.errors import BadInput
from hoofsim.session.commands import SetControl
from hoofsim.session.recovery import MOST_WINDOWS, Recovery
from hoofsim.session.sandbox_file import open_file
from hoofsim.session.session import Session
from hoofsim.writing import UNFINISHED_AFTER, clear_unfinished, write_whole

# A window of its own process: says which file it took, keeps a sitting over and over, and stays until it is killed.
WINDOW = """
import sys, time
from hoofsim.session.commands import SetControl
from hoofsim.session.recovery import Recovery
from hoofsim.session.session import Session
recovery, session = Recovery.take(), Session()
last = recovery.last()
print(recovery.path.name, "none" if last is None else last.value("heel_change_mm"), flush=True)
for line in sys.stdin:
    session.do(SetControl("heel_change_mm", float(line)))
    recovery.keep(session)
    print("kept", flush=True)
"""


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("HOOFSIM_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def window():
    opened = []

    def start():
        process = subprocess.Popen(
            [sys.executable, "-c", WINDOW], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )
        opened.append(process)
        name, heel = process.stdout.readline().split()
        return process, name, heel

    yield start
    for process in opened:
        process.kill()
        process.communicate()


def keeps(process, heel):
    process.stdin.write(f"{heel}\n")
    process.stdin.flush()
    assert process.stdout.readline() == "kept\n"


def killed(process):
    process.send_signal(signal.SIGKILL)
    process.wait()


def sitting(heel):
    session = Session()
    session.do(SetControl("heel_change_mm", heel))
    return session


def heel_in(path):
    return open_file(path).value("heel_change_mm")


def test_two_windows_keep_their_sittings_apart_and_both_outlive_a_kill(window, home):
    first, name, heel = window()
    assert (name, heel) == ("recovery.yaml", "none")
    keeps(first, 3)
    second, other, heel = window()
    assert (other, heel) == ("recovery-2.yaml", "none"), "what another window keeps is not offered"
    keeps(second, 7)
    keeps(first, 4)
    assert (heel_in(home / name), heel_in(home / other)) == (4, 7)
    killed(second)
    killed(first)
    os.utime(home / name, (1000, 1000))
    third, name, heel = window()
    assert (name, heel) == ("recovery-2.yaml", "7.0"), "the newest goes on in its own file"
    fourth, name, heel = window()
    assert (name, heel) == ("recovery.yaml", "4.0"), "the next window goes on with the other"
    keeps(third, 8)
    keeps(fourth, 5)
    assert sorted(path.name for path in home.iterdir() if not path.name.startswith(".")) == [
        "recovery-2.yaml",
        "recovery.yaml",
    ]


def test_one_window_after_another_uses_one_file(home):
    for heel in (1, 2, 3):
        recovery = Recovery.take()
        last = recovery.last()
        assert (last.value("heel_change_mm") if last else 0) == heel - 1
        recovery.keep(sitting(heel))
        recovery.release()
    assert sorted(path.name for path in home.iterdir()) == [".recovery.lock", "recovery.yaml"]


def test_there_are_only_so_many_and_the_next_window_says_why_it_keeps_none(home):
    taken = [Recovery.take() for _ in range(MOST_WINDOWS)]
    for number, recovery in enumerate(taken):
        recovery.keep(sitting(number + 1))
    assert len({recovery.path for recovery in taken}) == MOST_WINDOWS
    late = Recovery.take()
    assert late.last() is None
    with pytest.raises(BadInput, match="8 other windows keep theirs already"):
        late.keep(sitting(1))
    for recovery in taken:
        recovery.release()
    assert Recovery.take().path == taken[-1].path
    assert len(list(home.iterdir())) == 2 * MOST_WINDOWS


def test_a_place_without_locks_is_used_as_by_one_window(monkeypatch):
    def no_locks(stream):
        raise OSError(37, "No locks available")

    monkeypatch.setattr("hoofsim.session.recovery.try_lock", no_locks)
    recovery = Recovery.take()
    recovery.keep(sitting(2))
    recovery.release()
    assert Recovery.take().last().value("heel_change_mm") == 2


def test_a_home_that_cannot_be_written_is_a_sentence(tmp_path, monkeypatch):
    blocked = tmp_path / "file-not-folder"
    blocked.write_text("")
    monkeypatch.setenv("HOOFSIM_HOME", str(blocked / "below"))
    recovery = Recovery.take()
    assert recovery.last() is None
    with pytest.raises(BadInput, match="cannot be written"):
        recovery.keep(Session())


def test_recovery_brings_the_last_sitting_back(home):
    recovery = Recovery.take()
    assert recovery.last() is None
    recovery.keep(sitting(6))
    assert recovery.last().state == sitting(6).state
    recovery.path.write_text("not a sitting")
    told = []
    assert recovery.last(told.append) is None
    assert "kept as recovery.damaged-1.yaml" in told[0]
    assert "no hoofsim file" in told[0]
    assert not recovery.path.exists()
    assert (home / "recovery.damaged-1.yaml").read_text() == "not a sitting"


def test_a_sitting_of_a_newer_program_is_not_overwritten(home):
    recovery = Recovery.take()
    recovery.keep(Session())
    newer = recovery.path.read_text().replace("hoofsim: 1", "hoofsim: 2")
    recovery.path.write_text(newer)
    told = []
    assert recovery.last(told.append) is None
    assert "needs a newer hoofsim" in told[0]
    recovery.keep(Session())
    assert (home / "recovery.damaged-1.yaml").read_text() == newer


def unfinished(folder, name, monkeypatch):
    """What a writer leaves that is killed between writing and renaming."""
    child = os.fork()
    if child == 0:
        monkeypatch.setattr(os, "fsync", lambda handle: os.kill(os.getpid(), signal.SIGKILL))
        write_whole(folder / name, "half", making_folder=True)
        os._exit(0)
    os.waitpid(child, 0)
    (left,) = folder.glob(f".{name}.*.part")
    return left


def test_what_killed_writers_left_is_removed_once_it_is_old(home, monkeypatch):
    old = time.time() - 2 * UNFINISHED_AFTER
    ours = [unfinished(home, name, monkeypatch) for name in ("settings.yaml", "recovery-2.yaml")]
    other = unfinished(home, "mine.yaml", monkeypatch)
    for left in (*ours, other):
        os.utime(left, (old, old))
    fresh = unfinished(home, "recovery.yaml", monkeypatch)
    clear_unfinished(home, "settings.yaml", "recovery*.yaml")
    assert sorted(home.iterdir()) == sorted([other, fresh])
    clear_unfinished(home / "nowhere", "*")
