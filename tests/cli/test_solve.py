"""`hoofsim solve`: every measure with its unit and change, in a table or as JSON, and no answer without rest."""

import json
import math
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

import hoofsim
from hoofsim.cli import solve
from hoofsim.cli.main import main
from hoofsim.measures.table import MEASURES
from tests.files.bad_scenarios import GOOD


def answer(words: list[str], capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    """The JSON answer of a solve."""
    assert main(["solve", "--json", *words]) == 0
    return json.loads(capsys.readouterr().out)


def test_the_table_has_a_row_for_every_measure(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["solve"]) == 0
    text = capsys.readouterr().out
    assert all(f"\n{measure.label} " in text for measure in MEASURES.values())
    assert "Medial-lateral displacement is outside a sagittal view" in text
    assert "For teaching only" in text


def test_an_unreadable_change_is_marked_and_a_readable_one_is_not(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["solve", "--set", "heel_change_mm=10"]) == 0
    rows = {line[:30].rstrip(): line.rstrip() for line in capsys.readouterr().out.splitlines()}
    assert rows["capsular rotation"].endswith("·")
    assert rows["phalangeal rotation"].split()[-1].startswith("+")
    assert rows["ground-force lever"].split()[-1].startswith("\N{MINUS SIGN}")


def test_json_agrees_with_the_facade(capsys: pytest.CaptureFixture[str]) -> None:
    told = answer(
        ["--foot", "pony", "--set", "wedge_deg=3", "--load", "walk", "--stance-percent", "25"], capsys
    )
    loaded = hoofsim.Foot("pony", wedge_deg=3).load("walk", stance_percent=25)
    before = hoofsim.Foot("pony").load("walk", stance_percent=25).measures()
    for name, value in loaded.measures().items():
        given = told["measures"][name]
        if value is None:
            assert given["value"] is None
        else:
            assert math.isclose(given["value"], value, abs_tol=1e-9)
            assert math.isclose(given["change"], value - (before[name] or 0.0), abs_tol=1e-9)
    assert told["status"] == "converged"
    assert told["changes"] == {"wedge_deg": 3.0}


def test_a_scenario_file_gives_foot_changes_and_load(capsys: pytest.CaptureFixture[str]) -> None:
    from hoofsim.resources import scenarios_folder

    told = answer(["--foot", str(scenarios_folder() / "wedge_at_trot.yaml"), "--set", "wedge_deg=6"], capsys)
    assert (told["load"], told["stance_percent"]) == ("trot", 50)
    assert told["measures"]["navicular_load"]["change"] < 0


def test_a_scenario_files_own_foot_is_the_baseline(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "heavy.yaml"
    file.write_text(GOOD.replace("body_mass_kg: 450", "body_mass_kg: 700"), encoding="utf-8")
    told = answer(["--foot", str(file)], capsys)
    assert told["changes"] == {"body_mass_kg": 700, "toe_change_mm": 5}
    own = hoofsim.Foot("sound", body_mass_kg=700)
    value, before = (
        foot.load("standing").measures()["tendon_tension"] for foot in (own.change(toe_change_mm=5), own)
    )
    assert value is not None
    assert before is not None
    assert math.isclose(told["measures"]["tendon_tension"]["change"], value - before, abs_tol=1e-9)


def test_inches_on_request(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["solve", "--units", "in"]) == 0
    row = next(
        line for line in capsys.readouterr().out.splitlines() if line.startswith("founder distance, firm")
    )
    assert " in " in row
    assert " mm " not in row


def test_a_foot_without_rest_is_not_tabulated(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    torn = SimpleNamespace(loaded=SimpleNamespace(at_rest=False, status="torn through"), heading="A foot")
    monkeypatch.setattr(solve, "chosen", lambda arguments: torn)
    assert main(["solve"]) == 3
    said = capsys.readouterr()
    assert said.out == ""
    assert "torn through" in said.err
