"""Words and figures of the comparison."""

import pytest

from hoofsim.verify.compare import Comparison
from hoofsim.verify.published import Published
from hoofsim.verify.wording import cells, cited, figures, spread, tally, world


def value(**changes):
    plain = {
        "id": "a", "group": "g", "what": "a length", "unit": "mm", "value": 2.0, "low": 1.0, "high": 3.0,
        "spread": "standard deviation", "conditions": "", "source": "F1", "status": "abstract", "kind": "predicted",
    }  # fmt: skip
    return Published(**(plain | changes))


@pytest.mark.parametrize(
    ("number", "text"), [(1422.4, "1422"), (-25.29, "−25.3"), (0.0957, "0.0957"), (1e-9, "0"), (-1e-9, "0")]
)
def test_three_figures_with_a_true_minus(number, text):
    assert figures(number) == text


def test_a_range_has_no_middle_and_a_direction_no_number():
    assert world(value()) == "2 mm"
    assert world(value(spread="range")) == "1 to 3 mm"
    assert world(value(spread="direction only", low=-9.0, high=0.0, value=-1.0)) == "falls"
    assert world(value(spread="direction only", low=0.0, high=9.0)) == "rises"


def test_what_kind_of_spread_is_told():
    assert spread(value()) == "± 1 (s.d.)"
    assert spread(value(spread="none printed: 15 %")) == "± 1 (15 %)"
    assert spread(value(spread="none printed: reading error of a radiograph (R9)")) == "± 1 (R9)"


@pytest.mark.parametrize(
    ("status", "text"),
    [("abstract", "F1"), ("memory", "F1, from memory"), ("second-hand", "F1, second-hand")],
)
def test_what_was_not_read_is_marked(status, text):
    assert cited(value(status=status)) == text


def test_practice_is_named_once():
    assert cited(value(status="practice", source="practice")) == "practice"


def test_outside_is_shouted_and_counted():
    rows = [Comparison(value(), 2.5), Comparison(value(), 3.5), Comparison(value(kind="calibrated"), 0.5)]
    assert [cells(row)[-1] for row in rows] == ["inside", "OUTSIDE", "OUTSIDE"]
    assert tally(rows) == "1 of 2 predicted values inside; 0 of 1 calibrated values inside."
