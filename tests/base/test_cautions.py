"""The cautions say each of the things that must be said, wherever they are printed from."""

import pytest

from hoofsim.cautions import CAUTIONS, LIMITS, SHORT_CAUTION

TEXT = " ".join(CAUTIONS)


@pytest.mark.parametrize(
    "words",
    ["emergency", "same day", "not make the horse walk", "before any mechanics", "radiographs", "no trim and no wedge",
     "degrees does not decide", "law"],
)  # fmt: skip
def test_every_caution_is_given(words: str) -> None:
    assert words in TEXT


@pytest.mark.parametrize(
    "words",
    ["two-dimensional", "rigid bones", "no blood flow", "no pain", "no medial-lateral displacement", "generic foot",
     "short-term statics", "not for deciding how to treat or trim"],
)  # fmt: skip
def test_every_limit_is_named(words: str) -> None:
    assert words in LIMITS


def test_the_short_caution_is_short() -> None:
    assert len(SHORT_CAUTION) < 200
