"""Every bench runs to its end and says what it measured. What it measured is not judged here: no test is timed."""

from importlib import import_module

import numpy as np
import pytest

from hoofsim.bench.timing import (
    Row,
    array_megabytes,
    best_of_each,
    best_seconds,
    memory_row,
    peak_megabytes,
    times,
)
from hoofsim.cli.bench import BENCHES


@pytest.mark.parametrize("name", BENCHES)
def test_a_bench_gives_rows_with_units(name: str) -> None:
    rows = list(import_module(f"hoofsim.bench.{name}").run(quick=True))
    assert len(rows) >= 3
    assert all(isinstance(row, Row) and row.bench == name and row.unit for row in rows)
    assert all(np.isfinite(row.value) and row.value > 0 for row in rows)
    assert any(" times" in row.beside for row in rows), "no referee"
    memory = [row for row in rows if row.what.startswith("peak memory")]
    assert memory
    assert all(" times the " in row.beside for row in memory), "memory without a measure of what must be"


def test_timing_helpers() -> None:
    calls = []
    assert best_seconds(lambda: calls.append(1), 3) >= 0
    assert len(calls) == 4
    assert peak_megabytes(lambda: bytearray(5_000_000)) == pytest.approx(5.0, rel=0.1)
    assert times(12.3456) == "12.3 times"


def test_works_beside_each_other_are_done_in_turn() -> None:
    calls: list[str] = []
    found = best_of_each((lambda: calls.append("a"), lambda: calls.append("b")), 2)
    assert calls == ["a", "b"] * 3
    assert len(found) == 2


def test_the_numbers_of_a_result_count_once_each_however_deep() -> None:
    numbers = np.zeros(1_000_000)
    row = Row("bench", "what", 1.0, "MB")
    object.__setattr__(row, "beside", {"deep": (numbers, [numbers[:10]])})
    assert array_megabytes([row, numbers]) == pytest.approx(8.0)


def test_peak_memory_stands_beside_what_the_result_takes() -> None:
    row = memory_row("bench", "twice", lambda: np.concatenate([np.zeros(500_000)] * 2), "its result")
    assert row.value == pytest.approx(12.0, rel=0.1)
    assert row.beside == "1.5 times the 8 MB of its result"
