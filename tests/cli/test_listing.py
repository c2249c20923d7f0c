"""`hoofsim list`, `about` and `schema`: every entry of every table, as text and as JSON."""

import json

import pytest

from hoofsim.cautions import CAUTIONS, LIMITS
from hoofsim.cli.listing import TABLES
from hoofsim.cli.main import main
from hoofsim.foot.parameters import PARAMETERS
from hoofsim.foot.presets import PRESETS
from hoofsim.lessons.glossary import glossary
from hoofsim.lessons.loader import lesson_files
from hoofsim.measures.table import MEASURES
from hoofsim.mechanics.loads import CASES
from hoofsim.resources import scenario_files
from hoofsim.sources import SOURCES

NAMES = {
    "presets": list(PRESETS),
    "controls": [one.name for one in PARAMETERS],
    "measures": list(MEASURES),
    "loads": list(CASES),
    "sources": list(SOURCES),
    "scenarios": [file.name for file in scenario_files()],
    "lessons": [file.name for file in lesson_files()],
    "terms": list(glossary()),
}


def test_every_table_is_tested() -> None:
    assert set(NAMES) == set(TABLES)


@pytest.mark.parametrize("table", TABLES)
def test_a_list_names_every_entry(table: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["list", table]) == 0
    first_words = [line.split(" ")[0] for line in capsys.readouterr().out.splitlines() if line]
    assert [word for word in first_words if word in NAMES[table]] == NAMES[table]


@pytest.mark.parametrize("table", TABLES)
def test_the_json_list_has_every_entry(table: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["list", table, "--json"]) == 0
    entries = json.loads(capsys.readouterr().out)
    assert len(entries) == len(NAMES[table])


def test_about_says_limits_and_cautions(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["about"]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert LIMITS in text
    assert all(caution in text for caution in CAUTIONS)


def test_about_one_part_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["about", "cautions", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"cautions": list(CAUTIONS)}


def test_the_schema_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema", "scenario"]) == 0
    assert json.loads(capsys.readouterr().out)["$schema"].startswith("https://json-schema.org/")
