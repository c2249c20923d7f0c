"""Judging expectations: each way of expecting holds where it should and is missed where it should."""

import math
from typing import Any

import pytest

from hoofsim.files import outcome
from hoofsim.files.reader import read_text
from hoofsim.files.scenario import Scenario, load_scenario
from hoofsim.measures.table import MEASURES
from hoofsim.model import Foot
from tests.files.bad_scenarios import GOOD

HEAD = GOOD[: GOOD.index("sweep:")]


class _Table(dict[str, Any]):
    """A stand-in for a sweep's table."""

    status: list[str]


def _sweep(foot: Foot, settings: dict[str, list[float]], *_: object) -> _Table:
    """A stand-in for the model: tension falls by 50 N per mm of heel, and the foot tears beyond 9 mm."""
    heels = settings.get("heel_change_mm", [0.0])
    torn = [heel > 9 for heel in heels]
    table = _Table({name: [math.nan if bad else 1.0 for bad in torn] for name in MEASURES})
    table["tendon_tension"] = [
        math.nan if bad else 800 - 50 * heel for heel, bad in zip(heels, torn, strict=True)
    ]
    table["cor_ratio"] = [math.nan for _ in heels]
    table.status = ["torn through" if bad else "converged" for bad in torn]
    return table


@pytest.fixture(autouse=True)
def _stand_in(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(outcome, "sweep", _sweep)


def scenario(expectation: str, to: float = 8) -> Scenario:
    """The good scenario with another end of the sweep and one expectation (in braces, as YAML)."""
    sweep = f"sweep:\n  control: heel_change_mm\n  from: 0\n  to: {to}\n  steps: 3\n"
    return load_scenario(read_text(f"{HEAD}{sweep}expect:\n  - {expectation}\n", "f.yaml"))


@pytest.mark.parametrize(
    ("expectation", "holds"),
    [
        ("{measure: tendon_tension, value: 405, tolerance: 5}", True),
        ("{measure: tendon_tension, value: 406, tolerance: 5}", False),
        ("{measure: tendon_tension, value: 600, tolerance: 1, at: 4}", True),
        ("{measure: tendon_tension, low: 400}", True),
        ("{measure: tendon_tension, low: 401}", False),
        ("{measure: tendon_tension, high: 400}", True),
        ("{measure: tendon_tension, low: 300, high: 399}", False),
        ("{measure: tendon_tension, change: falls}", True),
        ("{measure: tendon_tension, change: falls, at_least: 400}", True),
        ("{measure: tendon_tension, change: falls, at_least: 401}", False),
        ("{measure: tendon_tension, change: rises}", False),
        ("{measure: tendon_tension, change: unchanged, tolerance: 10}", False),
        ("{measure: palmar_angle, change: unchanged, tolerance: 0}", True),
        ("{measure: palmar_angle, change: rises}", False),
        ("{measure: cor_ratio, low: 0}", False),
        ("{measure: cor_ratio, change: rises}", False),
        ("{status: converged}", True),
        ("{status: torn through}", False),
    ],
)
def test_an_expectation_is_judged(expectation: str, holds: bool) -> None:
    result = outcome.run_scenario(scenario(expectation))
    assert result.holds is holds
    assert result.findings[0].sentence


def test_a_foot_without_rest_is_never_a_result() -> None:
    result = outcome.run_scenario(scenario("{measure: tendon_tension, low: -10000}", to=10))
    assert [step.at_rest for step in result.steps] == [True, True, False]
    assert set(result.steps[-1].measures.values()) == {None}
    assert result.last_at_rest.at == 5
    assert not result.holds
    assert "torn through" in result.findings[0].sentence
