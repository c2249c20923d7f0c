"""Five hundred damaged and hostile files: each one clear sentence, exit code 2, no traceback, and nothing written."""

from pathlib import Path

import pytest

from hoofsim.cli.main import main
from tests.lessons.hostile_files import EACH, good_progress, hostile_lessons, hostile_progress
from tests.lessons.small_lesson import SMALL

BATCHES = 10


def everything_under(folder: Path) -> dict[Path, bytes]:
    """Every file with its content."""
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty working folder whose home is inside it."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOOFSIM_HOME", str(tmp_path / "home"))
    return tmp_path


def refused(words: list[str], place: Path, capsys: pytest.CaptureFixture[str], what: str) -> None:
    """The command refuses in words, naming the file, and leaves everything as it was."""
    before = everything_under(place)
    assert main(words) == 2, what
    said = capsys.readouterr()
    assert "bad.yaml" in said.err, what
    assert "Traceback" not in said.err, what
    assert "validation error" not in said.err, what
    assert len(said.err) < 6000, what
    assert said.err.count("\n") <= 15, what
    assert everything_under(place) == before, what


def test_there_are_five_hundred_and_the_undamaged_ones_pass(place: Path) -> None:
    assert len(hostile_lessons()) + len(hostile_progress()) == 2 * EACH == 500
    (place / "good.yaml").write_text(SMALL, encoding="utf-8")
    (place / "progress.yaml").write_text(good_progress(), encoding="utf-8")
    assert main(["lesson", "good.yaml", "--rehearse"]) == 0
    assert main(["check", "progress.yaml"]) == 0
    assert main(["progress", "--merge", "progress.yaml", "--out", "class.csv"]) == 0


@pytest.mark.parametrize("batch", range(BATCHES))
def test_a_hostile_lesson_is_refused(batch: int, place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for number, (damage, content) in enumerate(hostile_lessons()):
        if number % BATCHES == batch:
            (place / "bad.yaml").write_bytes(content)
            command = (["check"], ["lesson"], ["lesson", "--rehearse"])[number % 3]
            refused([*command, "bad.yaml"], place, capsys, f"{number} {damage} {content[:200]!r}")


@pytest.mark.parametrize("batch", range(BATCHES))
def test_a_hostile_progress_file_is_refused(
    batch: int, place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (place / "good.yaml").write_text(good_progress(), encoding="utf-8")
    for number, (damage, content) in enumerate(hostile_progress()):
        if number % BATCHES == batch:
            (place / "bad.yaml").write_bytes(content)
            words = ["progress", "--merge", "good.yaml", "bad.yaml", "--out", "class.csv"]
            command = words if number % 2 else ["check", "bad.yaml"]
            refused(command, place, capsys, f"{number} {damage} {content[:200]!r}")
