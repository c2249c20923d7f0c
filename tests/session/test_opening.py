"""A scenario opened as a sitting is the foot that `hoofsim run` loads, against the same baseline."""

from pathlib import Path

import pytest

from hoofsim.errors import BadInput
from hoofsim.files.outcome import run_scenario
from hoofsim.files.reader import read_text
from hoofsim.files.scenario import read_scenario
from hoofsim.resources import scenarios_folder
from hoofsim.session.opening import load_sitting, sitting_of
from hoofsim.session.sandbox_file import as_text
from hoofsim.session.session import Session

SCENARIOS = sorted(scenarios_folder().glob("*.yaml"))


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda path: path.stem)
def test_the_sitting_has_the_scenarios_foot_and_baseline(path: Path) -> None:
    scenario = read_scenario(path)
    session = sitting_of(scenario)
    first = run_scenario(scenario).baseline
    assert session.baseline.status == first.status
    assert session.baseline.measures()["tip_to_frog"] == pytest.approx(
        first.measures["tip_to_frog"], abs=1e-6
    )
    wanted = {**session.baseline.foot.values, **scenario.changes}
    if scenario.load.stance_percent is not None:
        wanted["stance_percent"] = scenario.load.stance_percent
    assert {**session.loaded.foot.values, "stance_percent": wanted["stance_percent"]} == wanted
    assert session.loaded.case == scenario.load.case
    while session.undo():
        pass
    assert session.state == Session().state


def test_a_kept_sitting_comes_back_and_other_kinds_are_refused_with_what_is_allowed() -> None:
    session = Session()
    assert load_sitting(read_text(as_text(session), "kept")).state == session.state
    with pytest.raises(BadInput, match=r"kept:2:7: unknown kind 'lesson'; .*sandbox.*scenario"):
        load_sitting(read_text("hoofsim: 1\nkind: lesson\n", "kept"))


def test_a_scenario_that_makes_no_foot_is_refused() -> None:
    text = (
        "hoofsim: 1\nkind: scenario\ntitle: t\nquestion: q\n"
        "foot: {preset: pony}\nchanges: {p3_dorsal_length_mm: 60}\n"
    )
    with pytest.raises(BadInput, match="founder distance"):
        load_sitting(read_text(text, "kept"))
