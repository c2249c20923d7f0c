"""Every carried scenario comes out as its own `expect:` says, and says something that could fail."""

from pathlib import Path

import pytest

from hoofsim.files.outcome import run_scenario
from hoofsim.files.scenario import read_scenario
from hoofsim.resources import scenario_files


@pytest.mark.parametrize("file", scenario_files(), ids=lambda file: file.stem)
def test_a_carried_scenario_holds(file: Path) -> None:
    outcome = run_scenario(read_scenario(file))
    assert [finding.sentence for finding in outcome.findings if not finding.holds] == []
    assert len(outcome.findings) >= 3
