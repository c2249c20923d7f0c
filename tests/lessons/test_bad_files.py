"""Every piece of a lesson and of a progress file that may be written wrong: refused in words, with nothing written.

Files spoiled at random are in `tests/hostile/`.
"""

from pathlib import Path

import pytest

from hoofsim.cli.main import main
from hoofsim.lessons.events import GiveAnswer, MoveControl, Next
from hoofsim.lessons.runner import advance, begin
from hoofsim.session.store import plain_yaml
from tests.hostile.grammar import Case
from tests.hostile.refusing import amiss, everything_under
from tests.lessons.bad_pieces import LESSON_SWAPS, PROGRESS_SWAPS
from tests.lessons.small_lesson import SMALL, small_lesson

LESSON_COMMANDS = (["check"], ["lesson"], ["lesson", "--rehearse"])
EVENTS = (
    Next(),
    GiveAnswer("falls"),
    Next(),
    GiveAnswer("-300"),
    Next(),
    GiveAnswer("57 14"),
    Next(),
    MoveControl("heel_change_mm", 4),
)


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with one good file of each kind, and a home inside it."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOOFSIM_HOME", str(tmp_path / "home"))
    lesson = small_lesson()
    progress = begin(lesson, "Ada", "small")
    for event in EVENTS:
        progress = advance(lesson, progress, event, 2.0)
    (tmp_path / "lesson.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "progress.yaml").write_text(plain_yaml(progress.model_dump()), encoding="utf-8")
    return tmp_path


def refused(words: list[str], kind: str, text: str, place: Path, capsys: pytest.CaptureFixture[str]) -> str:
    """What is wrong with the answer to a bad file, or ""."""
    (place / "bad.yaml").write_text(text, encoding="utf-8")
    before = everything_under(place)
    code = main(words)
    case = Case(kind, ".yaml", text.encode(), (), must=True)
    after = everything_under(place)
    said = amiss(case, code, capsys.readouterr().err, set(after) - set(before))
    return said or ("" if after == before else "changed a file")


def test_the_good_files_are_taken(place: Path) -> None:
    assert main(["lesson", "lesson.yaml", "--rehearse"]) == 0
    assert main(["check", "lesson.yaml", "progress.yaml"]) == 0
    assert main(["progress", "--merge", "progress.yaml", "--out", "class.csv"]) == 0


@pytest.mark.parametrize(("piece", "wrong"), LESSON_SWAPS, ids=[piece for piece, _ in LESSON_SWAPS])
def test_a_lesson_with_a_piece_written_wrong_is_refused(
    piece: str, wrong: list[str], place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert piece in SMALL
    for number, instead in enumerate(wrong):
        words = [*LESSON_COMMANDS[number % 3], "bad.yaml"]
        assert not refused(words, "lesson", SMALL.replace(piece, instead, 1), place, capsys), instead


@pytest.mark.parametrize(("piece", "wrong"), PROGRESS_SWAPS, ids=[piece for piece, _ in PROGRESS_SWAPS])
def test_a_progress_file_with_a_piece_written_wrong_is_refused(
    piece: str, wrong: list[str], place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good = (place / "progress.yaml").read_text(encoding="utf-8")
    assert piece in good
    for number, instead in enumerate(wrong):
        merge = ["progress", "--merge", "progress.yaml", "bad.yaml", "--out", "class.csv"]
        words = merge if number % 2 else ["check", "bad.yaml"]
        assert not refused(words, "progress", good.replace(piece, instead, 1), place, capsys), instead
