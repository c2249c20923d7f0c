"""What a long form says of its memory: what is held counts, what was let go of does not, and growth is a failure."""

import pytest

from tests.soak.memory import Marks, held_mb


def test_what_is_held_counts_until_it_is_let_go_of() -> None:
    before = held_mb()
    ring: list[object] = [bytes([1]) * 10_000 for _ in range(4000)]
    ring.append(ring)  # only the collector finds it
    assert 35 < held_mb() - before < 60
    del ring
    assert held_mb() - before < 10


@pytest.mark.parametrize(
    ("held", "growth", "code"),
    [
        ([50, 100, 101, 99, 100, 101, 99, 100], 0.0, 0),
        ([50, 100, 100, 100, 104, 104, 108, 112], 0.08, 1),
        ([100], 0.0, 0),
        ([50, 100], 0.0, 0),
    ],
)
def test_growth_after_the_beginning_fails(
    held: list[float], growth: float, code: int, capsys: pytest.CaptureFixture[str]
) -> None:
    marks = Marks(held)
    assert marks.growth == pytest.approx(growth, abs=0.03)
    assert marks.end("all done") == code
    assert "all done" in capsys.readouterr().out
