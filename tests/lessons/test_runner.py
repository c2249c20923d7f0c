"""The runner: pure, forgiving, never losing an answer, never a bare "wrong"."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hoofsim.lessons.events import (
    AskCheck,
    AskHint,
    Back,
    Event,
    GiveAnswer,
    GiveUp,
    GoTo,
    MoveControl,
    Next,
    Reset,
    SaySure,
)
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.rehearsal import losses
from hoofsim.lessons.runner import advance, begin, type_line
from hoofsim.lessons.score import goals_reached, score
from hoofsim.lessons.view import curves, view
from tests.lessons.small_lesson import small_lesson

LESSON = small_lesson()


def after(*lines: str) -> Progress:
    """Progress after typed lines."""
    progress = begin(LESSON, "Ada", "small")
    for line in lines:
        progress = type_line(LESSON, progress, line)
    return progress


def at(step: str) -> Progress:
    """Progress at a step, everything before it answered rightly."""
    progress = begin(LESSON, "Ada", "small")
    types = {name: list(lines) for name, lines in LESSON.learners[0].types.items()}
    while progress.at != step:
        waiting = types.get(progress.at)
        progress = type_line(LESSON, progress, waiting.pop(0) if waiting else "")
    return progress


def test_the_runner_leaves_what_it_was_given_alone() -> None:
    progress = at("raise")
    before = progress.model_dump_json()
    first = advance(LESSON, progress, MoveControl("heel_change_mm", 5), 3.0)
    again = advance(LESSON, progress, MoveControl("heel_change_mm", 5), 3.0)
    assert progress.model_dump_json() == before
    assert first == again != progress


def test_a_prediction_is_asked_before_going_on_and_kept_as_first_given() -> None:
    progress = after("", "")
    assert progress.at == "way"
    assert "commit to a prediction" in progress.told
    progress = type_line(LESSON, type_line(LESSON, progress, "falls"), "rises")
    assert progress.records["way"].answer == "falls"
    assert "not changed afterwards" in progress.told


def test_a_prediction_is_not_judged_before_its_comparison() -> None:
    progress = at("see")
    assert progress.records["way"].marks is None
    progress = type_line(LESSON, progress, "")
    assert progress.at == "compare_way"
    assert progress.records["way"].marks == 1.0


def test_how_sure_is_kept_before_and_after() -> None:
    progress = type_line(LESSON, type_line(LESSON, at("compare_way"), "4"), "")
    record = progress.records["way"]
    assert (record.sure_before, record.sure_after) == (3, 4)


def test_a_task_is_told_what_is_missing_and_where_to_look() -> None:
    progress = type_line(LESSON, at("raise"), "heel_change_mm 2")
    progress = type_line(LESSON, progress, "check")
    assert not progress.records["raise"].done
    assert "wanted a fall of at least 250 N, it fell by" in progress.told
    assert "Look at this: the pull as the heel rises." in progress.told
    assert 0.0 < (progress.records["raise"].marks or 0.0) < 1.0


def test_a_task_that_changes_two_things_says_so() -> None:
    progress = at("raise")
    for line in ("heel_change_mm 10", "toe_change_mm 2", "check"):
        progress = type_line(LESSON, progress, line)
    assert "Change one thing only; now these differ: Heel change, Toe change" in progress.told


def test_giving_up_shows_one_way_and_keeps_part_of_the_marks() -> None:
    progress = type_line(LESSON, type_line(LESSON, at("raise"), "heel_change_mm 2"), "check")
    partly = progress.records["raise"].marks
    progress = type_line(LESSON, progress, "give up")
    record = progress.records["raise"]
    assert (record.gave_up, record.done, record.marks) == (True, True, partly)
    assert record.controls == {"heel_change_mm": 8.0}
    progress = type_line(LESSON, progress, "check")
    assert progress.records["raise"].marks == partly


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("heel_change_mm 99", "can go from 0 to 15 mm"),
        ("breakover_setback_mm 3", "is not free here"),
        ("heel_chnage_mm 3", "did you mean 'heel_change_mm'"),
        ("heel_change_mm tall", "'tall' is no number"),
        ("heel_change_mm nan", "can go from"),
        ("what now", "is not used here"),
    ],
)
def test_what_cannot_be_done_is_told_and_changes_nothing(line: str, words: str) -> None:
    start = at("raise")
    progress = type_line(LESSON, start, line)
    assert words in progress.told
    assert progress.records["raise"].controls == start.records["raise"].controls


def test_a_second_try_counts_half_and_no_third_is_taken() -> None:
    progress = at("why")
    progress = type_line(LESSON, progress, "weight")
    assert progress.told.startswith("Look at the load instead.")
    assert "once more" in progress.told
    progress = type_line(LESSON, progress, "path")
    assert progress.records["why"].marks == 0.5
    progress = type_line(LESSON, progress, "path")
    assert progress.records["why"].marks == 0.5
    assert len(progress.records["why"].tries) == 2


def test_two_weak_tries_are_shown_a_stronger_answer() -> None:
    progress = type_line(LESSON, type_line(LESSON, at("why"), "weight"), "half")
    assert progress.records["why"].marks == 0.25
    assert "A stronger answer: The path is shorter." in progress.told


def test_a_first_wrong_direction_does_not_give_the_answer_away() -> None:
    progress = type_line(LESSON, at("pony"), "rises")
    assert "What came out" not in progress.told
    progress = type_line(LESSON, progress, "stays")
    assert "What came out" in progress.told


@pytest.mark.parametrize("step", ["why", "pick", "pony"])
def test_nothing_is_ever_only_called_wrong(step: str) -> None:
    weak = {"why": ["weight", "half"], "pick": ["palmar_angle"], "pony": ["rises", "stays"]}
    for line in weak[step]:
        told = type_line(LESSON, at(step), line).told
        assert "wrong" not in told.lower()
        assert "Look" in told


def test_hints_come_one_by_one_and_light_things_up() -> None:
    progress = after("", "hint")
    assert progress.told == "Hint: Follow the tendon."
    assert view(LESSON, progress).look_at == ("tendon_insertion",)
    progress = type_line(LESSON, progress, "hint")
    assert progress.told == "Hint: It gets shorter."
    assert view(LESSON, progress).hints_left == 0
    assert type_line(LESSON, progress, "hint").records["way"].hints == 2


def test_own_words_are_kept_and_never_marked() -> None:
    progress = type_line(LESSON, at("words"), "It lowers the pull, I think")
    record = progress.records["words"]
    assert (record.answer, record.marks) == ("It lowers the pull, I think", None)
    assert "A raised heel lowers the pull." in progress.told
    assert score(LESSON, progress).of == 4


def test_live_values_come_from_the_solver_and_follow_the_foot() -> None:
    shown = view(LESSON, begin(LESSON, "Ada", "small"))
    value = shown.state.measure("tendon_tension")
    assert f"**{value:.0f} N**" in shown.text
    changed = small_lesson("start: {preset: sound}", "start: {preset: sound, set: {body_mass_kg: 300}}")
    other = view(changed, begin(changed, "Ada", "small")).text
    assert other != shown.text


def test_a_question_does_not_show_its_outcome() -> None:
    for step in ("way", "how_much", "where", "pony"):
        shown = view(LESSON, at(step))
        assert shown.state == shown.before
        assert shown.rows == ()


def test_a_watch_step_gives_its_curve() -> None:
    along, found = curves(view(LESSON, at("see"))) or ([], {})
    assert along == [0.0, 2.0, 4.0, 6.0, 8.0, 10.0]
    pulls = [value or 0.0 for value in found["tendon_tension"]]
    assert pulls == sorted(pulls, reverse=True)


def test_the_end_gives_a_score_and_goals() -> None:
    progress = at("words")
    for line in ("It lowers the pull today", ""):
        progress = type_line(LESSON, progress, line)
    assert (progress.finished, progress.passed) == (True, True)
    assert goals_reached(LESSON, progress) == {"pull": True}


def test_long_pauses_are_cut_and_bad_times_are_none() -> None:
    progress = begin(LESSON, "Ada", "small")
    for seconds in (1e9, float("nan"), -5.0, 2.0):
        progress = advance(LESSON, progress, AskHint(), seconds)
    assert progress.records["intro"].seconds == 602.0


EVENTS: st.SearchStrategy[Event] = st.one_of(
    st.sampled_from([Next(), Next(), Next(), Back(), Reset(), AskCheck(), AskHint(), GiveUp()]),
    st.builds(GoTo, st.sampled_from([step.id for step in LESSON.steps] + ["nowhere"])),
    st.builds(
        GiveAnswer, st.sampled_from(["falls", "path", "weight", "1 2", "-300", "57 14", "", "x", "a b c d e"])
    ),
    st.builds(SaySure, st.integers(-1, 6)),
    st.builds(
        MoveControl,
        st.sampled_from(["heel_change_mm", "toe_change_mm", "nothing"]),
        st.sampled_from([0.0, 3.0, 9.0, 99.0, float("nan"), float("inf")]),
    ),
)


@settings(max_examples=60)
@given(st.lists(EVENTS, max_size=60))
def test_no_run_of_events_raises_or_loses_anything(events: list[Event]) -> None:
    progress = begin(LESSON, "Ada", "small")
    for event in events:
        following = advance(LESSON, progress, event, 1.0)
        assert losses(progress, following) == []
        Progress.model_validate(following.model_dump())
        progress = following
    assert view(LESSON, progress).number >= 1


OWN_LESSON = small_lesson(
    "  - id: see\n    kind: watch\n    title: See\n    text: It changed by {change:tendon_tension}.\n    foot: raised\n",
    """\
  - id: pony_do
    kind: do
    title: The pony
    text: Raise the pony.
    foot: pony
    free: [{control: heel_change_mm, low: 0, high: 15}]
    reach: [{check: measure_falls, measure: tendon_tension, by: 50}]
    solution: {heel_change_mm: 4}
    if_wrong: the pull.
  - id: own_do
    kind: do
    title: Your own
    text: Go on with your own.
    foot: own
    free: [{control: toe_change_mm, low: 0, high: 10}]
    reach: [{check: control_between, control: toe_change_mm, low: 2, high: 4}]
    solution: {toe_change_mm: 3}
    if_wrong: the toe.
  - id: see
    kind: watch
    title: See
    text: You have {control:heel_change_mm} and {control:toe_change_mm}.
    foot: own
""",
)


def test_ones_own_foot_is_the_one_last_left_whichever_step_it_was_left_at() -> None:
    progress = at("raise")
    for line in (
        "heel_change_mm 8",
        "check",
        "",
        "heel_change_mm 4.126",
        "check",
        "",
        "toe_change_mm 3",
        "check",
        "",
    ):
        progress = type_line(OWN_LESSON, progress, line)
    shown = view(OWN_LESSON, progress)
    assert shown.text == "You have 4.13 mm and 3 mm."
    assert (shown.state.preset, dict(shown.state.settings)) == (
        "pony",
        {"heel_change_mm": 4.126, "toe_change_mm": 3.0},
    )
    for line in ("step raise", "heel_change_mm 9"):
        progress = type_line(OWN_LESSON, progress, line)
    progress = type_line(OWN_LESSON, progress, "step see")
    assert view(OWN_LESSON, progress).state == view(OWN_LESSON, progress).before.change(heel_change_mm=9)
    # The step that went on from the pony is still about the pony.
    progress = type_line(OWN_LESSON, progress, "step own_do")
    assert view(OWN_LESSON, progress).state.preset == "pony"


def test_reset_puts_the_controls_back_where_the_step_found_them() -> None:
    progress = at("raise")
    for line in (
        "heel_change_mm 8",
        "check",
        "",
        "heel_change_mm 4",
        "check",
        "",
        "toe_change_mm 9",
        "reset",
    ):
        progress = type_line(OWN_LESSON, progress, line)
    assert progress.records["own_do"].controls == {"heel_change_mm": 4.0}
    assert progress.records["raise"].controls == {"heel_change_mm": 8.0}
