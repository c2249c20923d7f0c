"""The course: every lesson plays with its scripted learners on the real solver, in the terminal just as in the runner."""

import io
from pathlib import Path

import pytest

from hoofsim.cli.lesson_play import Player
from hoofsim.files.reader import read_file
from hoofsim.lessons.glossary import glossary
from hoofsim.lessons.lint import lint
from hoofsim.lessons.loader import lesson_files, lesson_id, load_lesson, read_lesson
from hoofsim.lessons.rehearsal import LEAVE, complaints, play
from hoofsim.lessons.schema import SCRIPTED, STEP_KINDS, Compare, Predict
from hoofsim.lessons.score import score
from hoofsim.lessons.store import Store
from hoofsim.resources import assets_folder

FILES = lesson_files()
STARTER = assets_folder() / "starter_lesson.yaml"
CASES = [(file, name) for file in FILES for name in SCRIPTED]


@pytest.mark.parametrize("file", [*FILES, STARTER], ids=lambda file: file.stem)
def test_a_lesson_is_well_written_and_teaches_well(file: Path) -> None:
    document = read_file(file)
    assert lint(load_lesson(document), document) == []


@pytest.mark.parametrize(("file", "name"), CASES, ids=lambda part: getattr(part, "stem", part))
def test_a_scripted_learner_comes_out_as_it_must(file: Path, name: str) -> None:
    lesson = read_lesson(file)
    learner = next(one for one in lesson.learners if one.name == name)
    played = play(lesson, learner, lesson_id(file))
    assert complaints(lesson, played) == []
    assert played.lost == ()
    assert score(lesson, played.progress).passed == (name != "wrong")


@pytest.mark.parametrize(("file", "name"), CASES, ids=lambda part: getattr(part, "stem", part))
def test_the_terminal_gives_the_same_result_as_the_runner(
    file: Path, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lesson = read_lesson(file)
    learner = next(one for one in lesson.learners if one.name == name)
    played = play(lesson, learner, lesson_id(file))
    store = Store(tmp_path)
    pieces: list[list[str]] = [[]]
    for line, _ in played.lines:
        pieces.append([]) if line == LEAVE else pieces[-1].append(line)
    for piece in pieces:
        # Every 'leave' ends the program; the next piece opens it again.
        player = Player(file, lesson, name, store, "mm")
        player.open()
        player.play(io.StringIO("".join(f"{line}\n" for line in piece)))
    said = capsys.readouterr().out
    kept = store.open(name, lesson_id(file)).progress
    assert kept is not None
    assert kept.finished
    assert {step: record.marks for step, record in kept.records.items()} == {
        step: record.marks for step, record in played.progress.records.items()
    }
    assert {step: record.answer for step, record in kept.records.items()} == {
        step: record.answer for step, record in played.progress.records.items()
    }
    assert ("marks: passed" in said) == (name != "wrong")
    assert said.count("You are back where you left.") == len(pieces) - 1


def test_the_course_has_all_kinds_of_steps_and_asks_before_it_shows() -> None:
    lessons = [read_lesson(file) for file in FILES]
    assert len(lessons) >= 10
    kinds = {step.kind for lesson in lessons for step in lesson.steps}
    assert kinds == set(STEP_KINDS)
    for lesson in lessons:
        assert 10 <= lesson.minutes <= 15
        assert sum(isinstance(step, Predict) for step in lesson.steps) >= 1
        assert sum(isinstance(step, Compare) for step in lesson.steps) >= 1


def test_what_a_lesson_asks_for_comes_before_it() -> None:
    stems = [lesson_id(file) for file in FILES]
    for file in FILES:
        for before in read_lesson(file).after:
            assert before in stems
            assert stems.index(before) < stems.index(lesson_id(file))


def test_no_number_of_the_solver_is_typed_into_a_text() -> None:
    """A measured value in a text must be a live one: only limits ("less than so much") are decimals with a unit."""
    for file in FILES:
        for _, text in read_lesson(file).texts():
            for before, word, unit in zip(*(text.split()[at:] for at in range(3)), strict=False):
                measured = unit.strip(".,;)") in ("mm", "deg", "N", "MPa") and "." in word.strip(".")
                assert not measured or before == "than", text


@pytest.mark.parametrize("word", ["prove", "obviously", "debunk", "myth"])
def test_the_texts_take_no_side(word: str) -> None:
    for file in FILES:
        lesson = read_lesson(file)
        for step in lesson.steps:
            assert word not in step.text.lower().replace("proves", "").replace("prove you wrong", "")


def test_the_glossary_is_linked_and_sane() -> None:
    assert len(glossary()) >= 40
    both = [one for one in glossary().values() if len(one.names) > 1]
    assert len(both) >= 20
