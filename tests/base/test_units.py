"""Numbers as a person reads them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.units import degrees, inches, millimetres, radians, show, show_number, shown_unit


@pytest.mark.parametrize(
    ("value", "unit", "signed", "text"),
    [
        (12.54, "mm", False, "12.5 mm"),
        (-0.04, "deg", True, "0.0 deg"),
        (2.0, "deg", True, "+2.0 deg"),
        (-3.25, "mm", True, "\N{MINUS SIGN}3.2 mm"),
        (812.6, "N", False, "813 N"),
        (0.61234, "1", False, "0.61"),
        (0.0213, "MPa", False, "0.021 MPa"),
        (None, "mm", False, "none"),
    ],
)
def test_shown_with_the_decimals_of_its_unit(value: float | None, unit: str, signed: bool, text: str) -> None:
    assert show(value, unit, signed=signed) == text


def test_inches_replace_millimetres_only() -> None:
    assert show(25.4, "mm", "in") == "1.00 in"
    assert show(25.4, "deg", "in") == "25.4 deg"
    assert shown_unit("mm", "in") == "in"


def test_a_tiny_negative_is_not_minus_zero() -> None:
    assert show_number(-1e-9, "mm", signed=True) == "0.0"


@given(st.floats(-1e4, 1e4))
def test_there_and_back(value: float) -> None:
    assert inches(millimetres(value)) == pytest.approx(value)
    assert degrees(radians(value)) == pytest.approx(value)
