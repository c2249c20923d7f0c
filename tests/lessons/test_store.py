"""Progress on disk: whole at every instant, shared by two programs, and told when a place does not take it."""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from hoofsim.errors import BadInput
from hoofsim.lessons.events import AskHint, GiveAnswer, Next
from hoofsim.lessons.merging import fitted, merged
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.runner import advance, begin
from hoofsim.lessons.store import Store, checked_learner, folder_name, read_progress
from tests.lessons.small_lesson import small_lesson

LESSON = small_lesson()
ROOT = Path(__file__).resolve().parents[2]

# Saves for ever, each time with a little more; says so when the first save is done.
WRITER = """
import sys
from hoofsim.lessons.progress import Progress, Record
from hoofsim.lessons.store import Store
from pathlib import Path
store, number = Store(Path(sys.argv[1])), 0
while True:
    number += 1
    records = {f"step{at}": Record(kind="explain", answer="a" * 200, tries=["a" * 200] * 20) for at in range(30)}
    store.save(Progress(learner="Ada", lesson="small", at="step1", events=number, records=records))
    if number == 1:
        print("saved", flush=True)
"""

# Saves under a limit on the size of files, which fails in the middle of the writing as a full disk does.
FULL_DISK = """
import resource, sys
from pathlib import Path
from hoofsim.errors import BadInput
from hoofsim.lessons.progress import Progress, Record
from hoofsim.lessons.store import Store
resource.setrlimit(resource.RLIMIT_FSIZE, (300, 300))
try:
    record = Record(kind="read", answer="a" * 900)
    Store(Path(sys.argv[1])).save(Progress(learner="Ada", lesson="small", at="x", records={"x": record}))
except BadInput as error:
    print(error)
"""


def progress_after(*events: object) -> Progress:
    """Progress of the small lesson after some events."""
    progress = begin(LESSON, "Ada", "small")
    for event in events:
        progress = advance(LESSON, progress, event, 1.0)  # type: ignore[arg-type]
    return progress


def test_what_is_saved_is_what_is_opened(tmp_path: Path) -> None:
    store = Store(tmp_path)
    progress = progress_after(Next(), GiveAnswer("falls"), AskHint())
    store.save(progress)
    assert store.open("Ada", "small").progress == progress
    assert store.open("Bob", "small").progress is None
    assert store.open("Ada", "other").progress is None


def test_killed_at_any_instant_the_file_is_whole(tmp_path: Path) -> None:
    chance = random.Random(7)
    store = Store(tmp_path)
    last = 0
    for _ in range(12):
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path)], stdout=subprocess.PIPE, text=True, cwd=ROOT
        )
        assert writer.stdout is not None
        assert writer.stdout.readline() == "saved\n"
        time.sleep(chance.uniform(0.0, 0.08))
        os.kill(writer.pid, signal.SIGKILL)
        writer.wait()
        writer.stdout.close()
        found = store.open("Ada", "small")
        assert found.told == ""
        assert found.progress is not None
        assert found.progress.events >= 1
        assert len(found.progress.records) == 30
        last = max(last, found.progress.events)
        # The lock of the killed program holds nobody up.
        store.save(found.progress)
    assert last >= 1


def test_two_programs_keep_each_others_answers(tmp_path: Path) -> None:
    first, second = Store(tmp_path), Store(tmp_path)
    mine = first.save(progress_after(Next(), GiveAnswer("falls")))
    other = progress_after(Next(), AskHint())
    second.save(other)
    mine = first.save(advance(LESSON, mine, Next()))
    kept = second.open("Ada", "small").progress
    assert kept is not None
    assert kept.records["way"].answer == "falls"
    assert kept.records["way"].hints == 1
    assert kept.at == mine.at == "how_much"


def test_many_programs_at_once_lose_nothing(tmp_path: Path) -> None:
    code = """
import sys
from pathlib import Path
from hoofsim.lessons.progress import Progress, Record
from hoofsim.lessons.store import Store
me = sys.argv[2]
for number in range(10):
    record = Record(kind="explain", answer=f"{me} {number}", tries=["x"])
    Store(Path(sys.argv[1])).save(Progress(learner="Ada", lesson="small", at="a", records={f"{me}{number}": record}))
"""
    running = [
        subprocess.Popen([sys.executable, "-c", code, str(tmp_path), name], cwd=ROOT)
        for name in ("p", "q", "r")
    ]
    assert [one.wait() for one in running] == [0, 0, 0]
    kept = Store(tmp_path).open("Ada", "small").progress
    assert kept is not None
    assert len(kept.records) == 30
    assert kept.records["q7"].answer == "q 7"


def test_a_full_disk_is_told_and_the_old_file_stays(tmp_path: Path) -> None:
    store = Store(tmp_path)
    before = progress_after(Next())
    store.save(before)
    kept = store.path("Ada", "small").read_bytes()
    done = subprocess.run(
        [sys.executable, "-c", FULL_DISK, str(tmp_path)], capture_output=True, text=True, check=True, cwd=ROOT
    )
    assert "cannot be written: File too large" in done.stdout
    assert done.stdout.count("\n") == 1
    assert store.path("Ada", "small").read_bytes() == kept
    assert not list(tmp_path.rglob("*.part"))


def test_a_place_that_takes_nothing_is_told(tmp_path: Path) -> None:
    (tmp_path / "home").write_text("a file where a folder should be", encoding="utf-8")
    with pytest.raises(BadInput, match="cannot be written"):
        Store(tmp_path / "home").save(progress_after())


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\x00\x01",
        b"hoofsim: 1\nkind: progress\n",
        b"hoofsim: 9\n",
        b"{" * 100,
        b"\xff\xfe",
        b"kind: lesson\n",
    ],
)
def test_a_damaged_file_is_kept_aside_and_told(tmp_path: Path, content: bytes) -> None:
    store = Store(tmp_path)
    path = store.path("Ada", "small")
    path.parent.mkdir()
    path.write_bytes(content)
    found = store.open("Ada", "small")
    assert found.progress is None
    assert "kept as small.damaged-1.yaml" in found.told
    assert not path.exists()
    assert path.with_name("small.damaged-1.yaml").read_bytes() == content
    path.write_bytes(content)
    assert "small.damaged-2.yaml" in store.open("Ada", "small").told
    assert store.files() == []


def test_looking_moves_nothing(tmp_path: Path) -> None:
    store = Store(tmp_path)
    path = store.path("Ada", "small")
    path.parent.mkdir()
    path.write_bytes(b"damaged")
    assert store.peek("Ada", "small") is None
    assert path.read_bytes() == b"damaged"


def test_beginning_anew_keeps_what_was_there(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.save(progress_after(Next(), GiveAnswer("falls")))
    assert "small.before-1.yaml" in store.begin_anew("Ada", "small")
    assert store.open("Ada", "small").progress is None
    old = read_progress(store.path("Ada", "small").with_name("small.before-1.yaml"))
    assert old.records["way"].answer == "falls"


def test_merging_is_the_same_from_both_sides_where_answers_are_concerned() -> None:
    mine = progress_after(Next(), GiveAnswer("falls"))
    other = progress_after(Next(), AskHint(), AskHint())
    for one, two in ((mine, other), (other, mine)):
        both = merged(one, two)
        assert both.records["way"].answer == "falls"
        assert both.records["way"].hints == 2
    assert merged(mine, mine) == mine


def test_progress_fits_a_lesson_that_was_edited_meanwhile() -> None:
    progress = progress_after(Next(), GiveAnswer("falls"), Next(), GiveAnswer("-300"))
    lesson = small_lesson(
        "form: direction, measure: tendon_tension, same_within: 30, if_wrong: the path of the tendon.",
        "form: number, measure: palmar_angle, full: 1, half: 2, if_wrong: the angle.",
    )
    fit, told = fitted(lesson, progress)
    assert "has changed" in told
    assert fit.records["way"].answer is None
    assert fit.records["how_much"].answer == "-300.0"
    assert fitted(LESSON, progress) == (progress, "")


def test_progress_with_unknown_step_foot_and_control_is_made_to_fit() -> None:
    progress = progress_after(Next()).model_copy(
        update={"at": "gone", "own_foot": "gone", "own": {"nothing": 3.0}}
    )
    fit, told = fitted(LESSON, progress)
    assert told
    assert (fit.at, fit.own_foot, fit.own) == ("way", "start", {})
    assert advance(LESSON, fit, GiveAnswer("falls")).records["way"].answer == "falls"


def test_names_of_learners_make_safe_and_different_folders() -> None:
    names = ["Ada", "ada", "../../etc", "Zoë", "a b", "a-b", "con", "名前", "x" * 60]
    folders = {folder_name(name) for name in names}
    assert len(folders) == len(names)
    assert all(folder.replace("-", "").isalnum() and folder.isascii() for folder in folders)


@pytest.mark.parametrize("name", ["", "   ", "x" * 61, "a\x00b"])
def test_a_name_that_cannot_be_kept_is_refused(name: str) -> None:
    with pytest.raises(BadInput, match="learner's name"):
        checked_learner(name)


def test_a_lock_that_stays_held_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store = Store(tmp_path)
    store.save(progress_after())
    monkeypatch.setattr("hoofsim.lessons.store.LOCK_PATIENCE", 0.05)
    code = """
import sys, time
from pathlib import Path
from hoofsim.lessons.store import _locked
with _locked(Path(sys.argv[1])):
    print("held", flush=True)
    sys.stdin.readline()
"""
    lock = store.path("Ada", "small").with_suffix(".lock")
    holder = subprocess.Popen(
        [sys.executable, "-c", code, str(lock)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )
    assert holder.stdout is not None
    assert holder.stdout.readline() == "held\n"
    with pytest.raises(BadInput, match="another program is writing this progress"):
        store.save(progress_after(Next()))
    holder.communicate("\n")
    assert store.save(progress_after(Next())).at == "way"


@pytest.mark.parametrize("name", ["con", "nul", "com1", "lpt9", "Con"])
def test_no_folder_has_a_name_that_a_system_keeps_for_itself(name: str) -> None:
    assert folder_name(name).startswith(f"{name.lower()}-")
