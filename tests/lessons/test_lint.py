"""What a lesson teaches badly is found: each finding shown once on a small lesson spoiled on purpose."""

import pytest

from hoofsim.files.reader import read_text
from hoofsim.lessons.lint import lint
from hoofsim.lessons.loader import load_lesson
from tests.lessons.small_lesson import SMALL


def findings(*swaps: tuple[str, str]) -> list[str]:
    """Findings on the small lesson after swaps."""
    text = SMALL
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    document = read_text(text, "small.yaml")
    return lint(load_lesson(document), document)


def test_the_small_lesson_is_clean() -> None:
    assert findings() == []


@pytest.mark.parametrize(
    ("swaps", "words"),
    [
        ([("{measure:tendon_tension}", "{measure:tendon_tension@raised}")],
         "the answer to 'way' has been shown before, in step 'intro'"),
        ([("{control:heel_change_mm@raised}", "{change:tendon_tension@raised}")],
         "the answer to 'way' has been shown before, in its own text"),
        ([("text: The heel goes up", "text: It is {outcome:way}. The heel goes up")],
         "the answer to 'way' has been told before, in its own text"),
        ([("foot: pony\n    outcome: pony_raised", "foot: start\n    outcome: raised")],
         "the answer to 'pony' has been shown before"),
        ([("kind: read\n", "kind: read\n    foot: raised\n")],
         "the answer to 'where' has been drawn before, in step 'intro'"),
        ([("by: 250", "by: 9000")], "cannot be reached by the solution"),
        ([("by: 250}\n      - {check: one_change}",
           "by: 250}\n      - {check: control_between, control: toe_change_mm, low: 0, high: 5}"),
          ("check: measure_falls, measure: tendon_tension, by: 250",
           "check: measure_between, measure: palmar_angle, low: 0")],
         "every check holds before anything is done"),
        ([("marks: 1,", "marks: 0.9,")], "no option has full marks: no learner can pass"),
        ([("marks: 0.5", "marks: 1"), ("marks: 0,", "marks: 1,")], "every option has full marks: every learner passes"),
        ([("because: A shorter path pulls less.",
           "because: A shorter path pulls less., shown_by: [{check: measure_rises, measure: palmar_angle, by: 30}]")],
         "the solver does not show it"),
        ([("full: 100, half: 250", "full: 900, half: 950")], "an answer of 0 has full marks"),
        ([("same_within: 30", "same_within: 370")], "lies so near to 370"),
        ([("up_to: 2", "up_to: 1"), ("pick: [palmar_angle capsular_rotation]", "pick: [palmar_angle]"),
          ("phalangeal_rotation palmar_angle]", "palmar_angle]"), ('"1 2"]', '"1"]')], "no learner can pass"),
        ([("goals: [pull]\n    answer", "answer"), ("    goals: [pull]\n  - id: see", "  - id: see")],
         "no step serves the goal 'pull'"),
        ([("    goals: [pull]\n  - id: see", "  - id: see"), ("goals: [pull]\n    answer", "answer"),
          ("    title: The foot\n", "    title: The foot\n    goals: [pull]\n")],
         "no step that counts shows whether the goal 'pull' was reached"),
        ([("prediction: where", "prediction: way")], "the prediction 'where' is never set against what came out"),
        ([("text: Raise the heel.", "text: Raise the heel and look at the navicular bone.")],
         "'navicular bone' is met here first: link it, such as [navicular bone](term:navicular_bone)"),
        ([("minutes: 9", "minutes: 59")], "it is likely to take about"),
        ([("cautions: true", "cautions: false")], "an owner could act on 'heel_change_mm'"),
        ([("  pony: {preset: pony}", "  spare: {preset: steep}\n  pony: {preset: pony}")], "foot 'spare' is never used"),
        ([("      why: [path]\n", "      why: [weight]\n")], "the right learner has only 0.00 marks at 'why'"),
        ([("why: [weight, half]", "why: [path]")], "the wrong learner has full marks at 'why' too"),
        ([("      words: [I do not know it]\n", "")], "the wrong learner gets stuck at 'words'"),
        ([("told: [Look at the load instead", "told: [Look at the moon")], "is never told 'Look at the moon'"),
        ([("name: wandering", "name: wrong")], "a scripted learner 'wandering' is missing"),
        ([("foot: raised\n    measures", "foot: own\n    measures"), ("kind: read\n", "kind: read\n    foot: own\n")],
         "'own' stands before any step in which the learner sets a foot"),
    ],
)  # fmt: skip
def test_bad_teaching_is_found(swaps: list[tuple[str, str]], words: str) -> None:
    found = findings(*swaps)
    assert any(words in sentence for sentence in found), found
    assert all(sentence.startswith("small.yaml:") for sentence in found)


def test_hard_words_are_found() -> None:
    hard = "Equilibrium necessitates proportionality between mechanical quantities characterising rotational tendencies. "
    found = findings(("text: Think.", f"text: {hard * 12}"), ("minutes: 9", "minutes: 12"))
    assert any("the texts read at grade" in sentence for sentence in found)
    assert any("this text reads at grade" in sentence for sentence in found)
