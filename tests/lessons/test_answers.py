"""Answers as people type them, and their marks with reasons."""

import pytest
from pydantic import TypeAdapter

from hoofsim.errors import BadInput
from hoofsim.lessons.answers import Answer
from hoofsim.lessons.grading import judge, remaining_accounts
from hoofsim.lessons.reading import in_words, read_answer, still_fits
from hoofsim.lessons.state import FootState, change_between

START = FootState("sound")
RAISED = START.change(heel_change_mm=8)
ACCOUNTS = ("slide_through", "carried_sole", "flared_wall", "sinking", "tipped_foot")


def form(**keys: object) -> Answer:
    """An answer form from its keys."""
    answer: Answer = TypeAdapter(Answer).validate_python(keys)
    return answer


LENGTH = form(form="number", measure="tip_to_frog", full=1.0, half=3.0, if_wrong="the frog.")
PULL = form(form="number", measure="tendon_tension", of="change", full=50.0, half=150.0, if_wrong="the path.")
WAY = form(form="direction", measure="tendon_tension", same_within=30.0, if_wrong="the path.")
STAYS = form(form="direction", measure="tip_to_frog", same_within=2.0, if_wrong="the frog.")
PLACE = form(form="position", landmark="tip", full=2.0, half=5.0, if_wrong="the tip.")
PICK = form(form="pick", up_to=2, among=["palmar_angle", "tip_to_frog", "sole_depth_tip"],
            accounts=["slide_through", "carried_sole"], if_wrong="the frog.")  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "value"),
    [("12", 12.0), ("12 mm", 12.0), ("12mm", 12.0), ("1,5", 1.5), ("-3", -3.0), ("\N{MINUS SIGN}3 mm", -3.0), ("+4", 4.0),
     ("0.5 in", 12.7), ('1"', 25.4), (".5", 0.5)],
)  # fmt: skip
def test_numbers_are_read_with_their_units(typed: str, value: float) -> None:
    assert float(read_answer(LENGTH, typed)) == pytest.approx(value)


@pytest.mark.parametrize(
    ("answer", "typed", "words"),
    [
        (LENGTH, "12 N", "is not the unit here"),
        (LENGTH, "twelve", "is no number"),
        (LENGTH, "1e9", "is no number"),
        (LENGTH, "99999999", "too large"),
        (LENGTH, "", "type a number in mm"),
        (PULL, "3 mm", "give it in N"),
        (WAY, "sideways", "is no direction"),
        (PLACE, "12", "type x and y"),
        (PICK, "1 2 3", "pick at most 2"),
        (PICK, "5", "there is no measure 5"),
        (PICK, "palmar", "did you mean 'palmar_angle'"),
        (form(form="words", model="m", at_least=4), "too short", "at least 4 words"),
        (form(form="words", model="m"), "word " * 400, "say it shorter"),
    ],
)
def test_what_is_no_answer_is_told_what_would_be(answer: Answer, typed: str, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        read_answer(answer, typed)


@pytest.mark.parametrize(
    ("typed", "word"), [("up", "rises"), ("R", "rises"), ("down", "falls"), ("same", "stays"), ("3", "stays")]
)
def test_directions_have_plain_spellings(typed: str, word: str) -> None:
    assert read_answer(WAY, typed) == word


@pytest.mark.parametrize("answer", [LENGTH, PULL, WAY, PLACE, PICK])
def test_what_was_kept_is_read_again_and_shown(answer: Answer) -> None:
    typed = {"number": "-3.25", "direction": "falls", "position": "57.5 13", "pick": "1 3"}[answer.form]
    kept = read_answer(answer, typed)
    assert still_fits(answer, kept)
    assert in_words(answer, kept)


def test_a_number_near_the_solvers_has_more_marks_than_one_far_off() -> None:
    truth = change_between(START, RAISED, "tendon_tension") or 0.0
    marks = [judge(PULL, repr(truth * share), START, RAISED).marks for share in (1.0, 0.75, 0.3, -0.5)]
    assert marks == [1.0, 0.5, 0.25, 0.0]


def test_less_than_full_marks_come_with_a_place_to_look_at() -> None:
    for answer, given in (
        (PULL, "0.0"),
        (WAY, "rises"),
        (STAYS, "falls"),
        (PLACE, "0.0 0.0"),
        (PICK, "palmar_angle"),
    ):
        mark = judge(answer, given, START, RAISED)
        assert not mark.full
        assert mark.look_at
        assert mark.reason


def test_the_right_way_of_a_change_too_small_to_count_has_half() -> None:
    change = change_between(START, RAISED, "tip_to_frog") or 0.0
    way, other = ("rises", "falls") if change > 0 else ("falls", "rises")
    assert judge(STAYS, "stays", START, RAISED).marks == 1.0
    assert judge(STAYS, way, START, RAISED).marks == 0.5
    assert judge(STAYS, other, START, RAISED).marks == 0.0


def test_a_place_is_marked_by_its_distance() -> None:
    x, y = (float(part) for part in RAISED.loaded.points["tip"])
    assert [judge(PLACE, f"{x + off!r} {y!r}", START, RAISED).marks for off in (1.0, 4.0, 9.0)] == [
        1.0,
        0.5,
        0.0,
    ]


def test_a_pick_is_marked_by_the_accounts_it_leaves() -> None:
    assert judge(PICK, "palmar_angle", START, START).marks == 0.0
    assert judge(PICK, "tip_to_frog", START, START).marks == 0.5
    assert judge(PICK, "palmar_angle tip_to_frog", START, START).marks == 1.0


def test_tip_to_frog_alone_leaves_several_accounts_whichever_is_true() -> None:
    """Only slide-through moves this distance much, so every other truth leaves more than one account standing."""
    left = {true: remaining_accounts(true, ACCOUNTS, ("tip_to_frog",), 8.0, 1.0, START) for true in ACCOUNTS}
    assert left["slide_through"] == ("slide_through",)
    assert all(len(remaining) >= 3 for true, remaining in left.items() if true != "slide_through")
    assert all(true in remaining for true, remaining in left.items())
