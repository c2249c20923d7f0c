"""`hoofsim run`: table and pictures of a scenario, expectations judged, and nothing written after a bad file."""

import csv
import json
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest

from hoofsim.cli.main import main
from hoofsim.measures.table import MEASURES
from tests.files.bad_scenarios import GOOD

PNG = b"\x89PNG\r\n\x1a\n"


@pytest.fixture
def good(tmp_path: Path) -> Path:
    """A scenario that holds."""
    file = tmp_path / "good.yaml"
    file.write_text(GOOD, encoding="utf-8")
    return file


def test_results_are_written_whole(good: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "new" / "out"
    assert main(["run", str(good), "--out", str(out)]) == 0
    assert sorted(file.name for file in out.iterdir()) == [
        "good.csv",
        "good.png",
        "good.svg",
        "good_about.json",
    ]
    assert (out / "good.png").read_bytes().startswith(PNG)
    assert ElementTree.parse(out / "good.svg").getroot().tag.endswith("svg")
    said = capsys.readouterr().out
    assert said.count("wrote ") == 4
    assert "held " in said


def test_the_table_has_the_unchanged_foot_and_every_step(good: Path, tmp_path: Path) -> None:
    assert main(["run", str(good), "--out", str(tmp_path)]) == 0
    with (tmp_path / "good.csv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert [row["foot"] for row in rows] == ["baseline", "1", "2", "3"]
    assert [row["heel_change_mm"] for row in rows] == ["", "0", "5", "10"]
    assert len(rows[0]) == len(MEASURES) + 3
    tension = [float(row["tendon_tension (N)"]) for row in rows[1:]]
    assert tension == sorted(tension, reverse=True)


def test_a_long_sweep_is_shown_in_a_few_rows_with_both_ends(
    good: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good.write_text(GOOD.replace("steps: 3", "steps: 41"), encoding="utf-8")
    assert main(["run", str(good)]) == 0
    lines = [line.split() for line in capsys.readouterr().out.splitlines()]
    start = next(index for index, words in enumerate(lines) if words[:1] == ["unchanged"])
    shown = [float(words[0]) for words in lines[start + 1 : start + 12]]
    assert shown == list(range(11))


def test_without_a_folder_nothing_is_written(
    good: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["run", str(good)]) == 0
    assert [file.name for file in tmp_path.iterdir()] == ["good.yaml"]


def test_a_missed_expectation_is_exit_code_one(good: Path, capsys: pytest.CaptureFixture[str]) -> None:
    good.write_text(GOOD.replace("change: falls", "change: rises"), encoding="utf-8")
    assert main(["run", str(good)]) == 1
    said = capsys.readouterr()
    assert "MISSED" in said.out
    assert "expected 'rises'" in said.err


def test_json_tells_steps_and_expectations(good: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["run", str(good), "--json"]) == 0
    (told,) = json.loads(capsys.readouterr().out)
    assert told["holds"] is True
    assert [step["at"] for step in told["steps"]] == [0, 5, 10]
    assert set(told["steps"][0]["measures"]) == set(MEASURES)


def test_a_bad_second_file_stops_before_the_first_runs(good: Path, tmp_path: Path) -> None:
    (tmp_path / "bad.yaml").write_text("hoofsim: 1\n", encoding="utf-8")
    out = tmp_path / "out"
    assert main(["run", str(good), str(tmp_path / "bad.yaml"), "--out", str(out)]) == 2
    assert not out.exists()


def test_two_files_of_one_name_are_refused(
    good: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "b").mkdir()
    (tmp_path / "b" / "good.yaml").write_text(GOOD, encoding="utf-8")
    assert main(["run", str(good), str(tmp_path / "b" / "good.yaml"), "--out", str(tmp_path / "out")]) == 2
    assert "same name" in capsys.readouterr().err


def test_values_that_make_no_foot_are_refused_with_the_file(
    good: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good.write_text(GOOD.replace("body_mass_kg: 450", "dorsal_wall_length_mm: 45"), encoding="utf-8")
    assert main(["run", str(good)]) == 2
    assert "good.yaml: " in capsys.readouterr().err


def test_an_output_folder_that_is_a_file_is_refused(good: Path, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine", encoding="utf-8")
    assert main(["run", str(good), "--out", str(tmp_path / "out")]) == 2
    assert (tmp_path / "out").read_text(encoding="utf-8") == "mine"
