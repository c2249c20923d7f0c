"""Every bench runs to its end and says what it measured. What it measured is not judged here: no test is timed."""

from importlib import import_module

import numpy as np
import pytest

from hoofsim.bench.timing import Row, best_seconds, peak_megabytes, times
from hoofsim.cli.bench import BENCHES


@pytest.mark.parametrize("name", BENCHES)
def test_a_bench_gives_rows_with_units(name: str) -> None:
    rows = list(import_module(f"hoofsim.bench.{name}").run(quick=True))
    assert len(rows) >= 3
    assert all(isinstance(row, Row) and row.bench == name and row.unit for row in rows)
    assert all(np.isfinite(row.value) and row.value > 0 for row in rows)


def test_timing_helpers() -> None:
    calls = []
    assert best_seconds(lambda: calls.append(1), 3) >= 0
    assert len(calls) == 4
    assert peak_megabytes(lambda: bytearray(5_000_000)) == pytest.approx(5.0, rel=0.1)
    assert times(12.3456) == "12.3 times"
