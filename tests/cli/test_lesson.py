"""Lessons at the keyboard: played from typed lines, left and resumed, previewed while edited, listed, merged, begun."""

import csv
import queue
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from hoofsim.cli.lesson_play import Player
from hoofsim.cli.main import main
from hoofsim.lessons.loader import lesson_files, read_lesson
from hoofsim.lessons.rehearsal import typed_lines
from tests.lessons.small_lesson import SMALL, small_lesson


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with the small lesson in it, and a home of its own."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOOFSIM_HOME", str(tmp_path / "home"))
    (tmp_path / "small.yaml").write_text(SMALL, encoding="utf-8")
    return tmp_path


class Typed:
    """Lines that come from no keyboard."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines

    def __iter__(self) -> Iterator[str]:
        return iter([f"{line}\n" for line in self.lines])

    def isatty(self) -> bool:
        """A pipe."""
        return False


def played(monkeypatch: pytest.MonkeyPatch, words: list[str], lines: list[str]) -> int:
    """Run the command with these lines on its input."""
    monkeypatch.setattr("sys.stdin", Typed(lines))
    return main(words)


RIGHT = list(typed_lines(small_lesson(), small_lesson().learners[0]))


def test_a_lesson_plays_from_start_to_report(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert played(monkeypatch, ["lesson", "small.yaml", "--learner", "Ada"], RIGHT) == 0
    said = capsys.readouterr().out
    assert "Step 1 of 13 | read | The foot" in said
    assert "deep digital flexor tendon (DDFT, deep flexor tendon, deep flexor): The cord" in said
    assert "4 of 4 marks: passed." in said
    assert "- Which way: you said: falls (sure 3, then 4 of 4)" in said
    assert "Acute laminitis is an emergency" in said
    assert "{" not in said
    assert "](" not in said


def test_it_is_left_at_the_end_of_input_and_resumed_where_it_was(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for line in RIGHT:
        assert played(monkeypatch, ["lesson", "small.yaml"], [line]) == 0
    said = capsys.readouterr().out
    assert said.count("The same command resumes here.") == len(RIGHT) - 1
    assert "4 of 4 marks: passed." in said
    assert played(monkeypatch, ["lesson", "small.yaml"], []) == 0
    assert "You have finished this lesson" in capsys.readouterr().out
    assert played(monkeypatch, ["lesson", "small.yaml", "--restart"], ["quit"]) == 0
    said = capsys.readouterr().out
    assert "kept as small.before-1.yaml" in said
    assert "Step 1 of 13" in said


def test_help_and_terms_can_be_asked_for_and_move_nothing(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = ["?", "term coffin bone", "term cofin bone", "what", "quit"]
    assert played(monkeypatch, ["lesson", "small.yaml"], lines) == 0
    said = capsys.readouterr().out
    assert "distal phalanx (P3, coffin bone, pedal bone): The lowest bone" in said
    assert "did you mean 'coffin bone'" in said
    assert "'what' is not used here" in said
    assert "You left at step 1 of 13." in said


def test_a_home_that_takes_nothing_is_told_and_the_lesson_plays_on(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (home / "home").write_text("a file in the way", encoding="utf-8")
    assert played(monkeypatch, ["lesson", "small.yaml"], RIGHT) == 0
    said = capsys.readouterr().out
    assert said.count("Your progress cannot be saved") == 1
    assert "4 of 4 marks: passed." in said
    assert "This could not be saved" in said


def test_a_damaged_progress_file_is_told_and_kept(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = home / "home" / "progress" / "learner" / "small.yaml"
    path.parent.mkdir(parents=True)
    path.write_bytes(b"\x00 torn")
    assert played(monkeypatch, ["lesson", "small.yaml"], ["quit"]) == 0
    assert "The file was kept as small.damaged-1.yaml" in capsys.readouterr().out
    assert path.with_name("small.damaged-1.yaml").read_bytes() == b"\x00 torn"


def test_inches_are_shown_on_request(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = ["", "falls", "", "-300", "", "57 14", "quit"]
    assert played(monkeypatch, ["lesson", "small.yaml", "--inches"], lines) == 0
    assert "x 2.24 in" in capsys.readouterr().out


def test_the_course_is_listed_with_how_far_one_is(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lesson"]) == 0
    said = capsys.readouterr().out
    assert all(file.stem in said for file in lesson_files())
    assert said.count("not begun") == len(lesson_files())


def test_scripted_learners_are_rehearsed(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lesson", "small.yaml", "--rehearse"]) == 0
    assert "right: " in capsys.readouterr().out
    (home / "small.yaml").write_text(
        SMALL.replace("passes: true, marks", "passes: false, marks"), encoding="utf-8"
    )
    assert main(["lesson", "small.yaml", "--rehearse"]) == 1
    assert "the right learner must not pass" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (["lesson", "99"], "no lesson '99'"),
        (["lesson", "0"], "starts more than one lesson"),
        (["lesson", "missing.yaml"], "no such file"),
        (["lesson", "small.yaml", "--step", "why"], "--step belongs to --watch"),
        (["lesson", "small.yaml", "--learner", ""], "a learner's name"),
        (["lesson", "small.yaml", "--watch", "--step", "wyh"], "did you mean 'why'"),
        (["progress", "--out", "x.csv"], "--out belongs to --merge"),
        (["progress", "--merge", "a.yaml"], "--merge needs --out"),
        (["progress", "--merge", "a.yaml", "--out", "x.txt"], "must end in .csv"),
        (["progress", "--merge", "small.yaml", "--out", "x.csv"], "unknown kind 'lesson'"),
        (["new", "lesson", "small"], "is there already"),
        (["new", "lesson", "nowhere/x"], "there is no folder"),
        (["new", "lessen", "x"], "did you mean 'lesson'"),
    ],
)
def test_bad_words_are_answered(
    home: Path, words: list[str], complaint: str, capsys: pytest.CaptureFixture[str]
) -> None:
    before = sorted(home.rglob("*"))
    assert main(words) == 2
    assert complaint in capsys.readouterr().err
    assert sorted(home.rglob("*")) == before


def test_progress_is_shown_and_a_class_is_merged(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name, lines in (("Ada", RIGHT), ("=Bob", ["", "hint", "hint", "rises"])):
        assert played(monkeypatch, ["lesson", "small.yaml", "--learner", name], lines) == 0
    capsys.readouterr()
    assert main(["progress"]) == 0
    said = capsys.readouterr().out
    assert "Ada" in said
    assert "passed" in said
    assert "going on" in said
    files = [str(path) for path in (home / "home").rglob("small.yaml")]
    assert main(["progress", "--merge", *files, "--out", "class.csv"]) == 0
    assert "stuck: small / way: 1 of 2" in capsys.readouterr().out
    with (home / "class.csv").open(encoding="utf-8", newline="") as stream:
        table = list(csv.DictReader(stream))
    assert {row["learner"] for row in table} == {"Ada", "'=Bob"}
    ada = {row["step"]: row for row in table if row["learner"] == "Ada"}
    assert (ada["way"]["answer"], ada["way"]["sure_before"], ada["way"]["sure_after"]) == ("falls", "3", "4")
    assert ada["words"]["answer"] == "It lowers the pull today"


def test_a_new_lesson_is_clean_and_plays(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", "lesson", "my_first"]) == 0
    assert main(["check", "my_first.yaml"]) == 0
    lesson = read_lesson("my_first.yaml")
    assert lesson.title == "My first"
    lines = list(typed_lines(lesson, lesson.learners[0]))
    assert played(monkeypatch, ["lesson", "my_first.yaml"], lines) == 0
    assert "3 of 3 marks: passed." in capsys.readouterr().out


class Slow:
    """Lines that come one at a time, when the test sends them."""

    def __init__(self) -> None:
        self.sent: queue.Queue[str | None] = queue.Queue()

    def __iter__(self) -> Iterator[str]:
        while (line := self.sent.get()) is not None:
            yield line

    def isatty(self) -> bool:
        """A pipe."""
        return False


def test_a_preview_reloads_on_save_keeps_its_place_and_writes_nothing(
    home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = home / "small.yaml"
    player = Player(path, small_lesson(), "learner", None, "mm")
    player.open(step="why")
    keys = Slow()
    running = threading.Thread(target=player.play, args=(keys,), daemon=True)
    running.start()

    def until(words: str) -> None:
        """Wait until the preview has said something; the limit only ends a test that would never end."""
        for _ in range(400):
            said.append(capsys.readouterr().out)
            if words in "".join(said):
                return
            time.sleep(0.05)
        raise AssertionError("".join(said))

    said: list[str] = []
    until("Why did it fall?")
    path.write_text(SMALL.replace("Why did it fall?", "Why did it go down?"), encoding="utf-8")
    until("Why did it go down?")
    path.write_text(SMALL.replace("kind: explain", "kind: explian", 1), encoding="utf-8")
    until("did you mean 'explain'")
    path.write_text(SMALL.replace("Why did it fall?", "And now, why?"), encoding="utf-8")
    until("And now, why?")
    keys.sent.put("path\n")
    until("A shorter path pulls less.")
    keys.sent.put(None)
    running.join(timeout=20)
    assert not running.is_alive()
    assert not (home / "home").exists()
