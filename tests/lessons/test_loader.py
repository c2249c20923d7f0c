"""What is wrong in a lesson is told with line, column, what was expected and the nearest valid name."""

import jsonschema
import pytest

from hoofsim.errors import BadInput
from hoofsim.files.kinds import json_schema
from hoofsim.files.reader import read_text
from hoofsim.lessons.loader import LESSON, lesson_files, lesson_id
from tests.lessons.small_lesson import SMALL, small_lesson


def line_of(piece: str) -> int:
    """The line of the small lesson on which a piece stands."""
    return SMALL[: SMALL.index(piece)].count("\n") + 1


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("kind: predict", "kind: prdict", "unknown kind 'prdict'; did you mean 'predict'"),
        ("form: direction", "form: directon", "unknown form 'directon'; did you mean 'direction'"),
        ("check: one_change", "check: onechange", "unknown check 'onechange'; did you mean 'one_change'"),
        ("outcome: raised", "outcome: rised", "no foot is called 'rised'; did you mean 'raised'"),
        ("prediction: way", "prediction: wya", "no prediction called 'wya' stands before; did you mean 'way'"),
        ("measures: [tendon_tension]", "measures: [tendon_tensoin]", "did you mean 'tendon_tension'"),
        ("(term:deep_flexor_tendon)", "(term:deep_flexor)", "did you mean 'deep_flexor_tendon'"),
        ("(term:deep_flexor_tendon)", "(https://a.b)", "must lead to a term"),
        ("{change:tendon_tension}", "{chang:tendon_tension}", "unknown value 'chang'; did you mean 'change'"),
        ("{change:tendon_tension}", "{change:tendon}", "did you mean 'tendon_t"),
        ("{predicted:way}", "{predicted:why}", "no predicted 'why'; did you mean 'way'"),
        ("**{measure:tendon_tension}**", "**{measure:tendon_tension}", "a mark is not closed"),
        ("control: toe_change_mm", "control: toe_chnage_mm", "did you mean 'toe_change_mm'"),
        ("solution: {heel_change_mm: 8}", "solution: {heel_change_mm: 80}", "out of the free range 0 to 15"),
        ("look_at: [tendon_insertion]", "look_at: [tendon_insertoin]", "did you mean 'tendon_insertion'"),
        ("goals: [pull]", "goals: [pul]", "no goal is called 'pul'; did you mean 'pull'"),
        ("landmark: tip", "landmark: tipp", "did you mean 'tip'"),
        ("accounts: [slide_through,", "accounts: [slide_trough,", "did you mean 'slide_through'"),
        ("among: [palmar_angle,", "among: [tendon_tension,", "cannot be read on a radiograph"),
        ("id: why", "id: way", "two steps are called 'way'"),
        ("start: {preset: sound}", "begin: {preset: sound}", "a foot called 'start' is missing"),
        ("pony: {preset: pony}", "pony: {preset: pony, weeks: {days: 9, kept: shodd}}", "did you mean 'shod'"),
        ("pony: {preset: pony}", "pony: {preset: pony, weeks: {days: 390}}", "a trim before that day"),
        ("full: 100, half: 250", "full: 100, half: 50", "half 50 must not be smaller than full 100"),
        ("      way: [rises]", "      wayy: [rises]", "no step is called 'wayy'; did you mean 'way'"),
        ("title: A small lesson", "titel: A small lesson", "did you mean 'title'"),
    ],
)  # fmt: skip
def test_a_slip_is_met_with_the_nearest_name_and_its_line(old: str, new: str, words: str) -> None:
    with pytest.raises(BadInput) as refused:
        small_lesson(old, new)
    message = str(refused.value)
    assert words in message
    place = message.splitlines()[0].split(": ")[0]
    name, line, column = place.split(":")
    assert name == "small.yaml"
    # Texts and lists may be complained of at the start of the step or the text that holds them.
    assert line_of(old) - 24 <= int(line) <= line_of(old) + 1
    assert int(column) >= 1


def test_several_texts_are_complained_of_at_once() -> None:
    text = SMALL.replace("{change:tendon_tension}", "{chnage:tendon_tension}").replace(
        "{predicted:way}", "{x}"
    )
    with pytest.raises(BadInput) as refused:
        LESSON.load(read_text(text, "small.yaml"))
    assert str(refused.value).count("small.yaml:") == 2


def test_the_exported_schema_takes_the_course_and_refuses_slips() -> None:
    schema = json_schema(LESSON)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    from hoofsim.files.reader import read_file

    for file in lesson_files():
        assert [error.message for error in validator.iter_errors(read_file(file).data)] == []
    data = read_text(SMALL, "small.yaml").data
    data["steps"][1]["kind"] = "prdict"
    assert not validator.is_valid(data)


@pytest.mark.parametrize(
    ("path", "name"),
    [("a/01-parts.yaml", "01-parts"), ("My Lesson!.yaml", "my-lesson"), ("Ä.yaml", "lesson")],
)
def test_the_name_of_a_lesson_is_plain(path: str, name: str) -> None:
    assert lesson_id(path) == name
