"""The markup: what it shows, what it refuses, and that values come from whoever is asked and from nowhere else."""

import pytest

from hoofsim.lessons.markup import TextRun, Value, fill, links, plain, spans, values


def test_marks_become_runs() -> None:
    assert spans("a **b** [c d](term:sole) e") == [
        TextRun("a "),
        TextRun("b", bold=True),
        TextRun(" "),
        TextRun("c d", term="sole"),
        TextRun(" e"),
    ]


def test_plain_takes_the_marks_off() -> None:
    assert plain("The **frog** and [the sole](term:sole).") == "The frog and the sole."


def test_links_are_found_in_order() -> None:
    assert links("[a](term:sole) [b](term:frog)") == [("a", "term:sole"), ("b", "term:frog")]


def test_values_are_asked_for_and_filled_in() -> None:
    text = "{measure:tip_to_frog} and {change:tip_to_frog@raised}"
    assert list(values(text)) == [
        Value("measure", "tip_to_frog", None),
        Value("change", "tip_to_frog", "raised"),
    ]
    assert fill(text, lambda value: f"<{value.kind} {value.foot}>") == "<measure None> and <change raised>"


@pytest.mark.parametrize(
    "text",
    [
        "{",
        "}",
        "{}",
        "{measure}",
        "{measure:}",
        "{measure:a.b}",
        "{measure:__class__.x}",
        "{0}",
        "{1+1}",
        "{ measure:a}",
    ],
)
def test_other_braces_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is no live value"):
        list(values(text))


def test_an_unknown_value_is_met_with_the_nearest() -> None:
    with pytest.raises(ValueError, match="did you mean 'measure'"):
        list(values("{mesure:tip_to_frog}"))
