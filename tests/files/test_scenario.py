"""Scenarios: the good one is read whole, every bad one refused with its place and the nearest valid name."""

import json
import re
from pathlib import Path

import jsonschema
import pytest

from hoofsim.errors import BadInput
from hoofsim.files.kinds import json_schema
from hoofsim.files.reader import read_file, read_text
from hoofsim.files.scenario import SCENARIO, load_scenario, read_scenario
from hoofsim.resources import scenario_files
from tests.files.bad_scenarios import BAD, GOOD


def test_the_good_scenario_is_read_whole() -> None:
    scenario = load_scenario(read_text(GOOD, "good.yaml"))
    assert scenario.foot.preset == "sound"
    assert scenario.foot.set == {"body_mass_kg": 450}
    assert scenario.sweep is not None
    assert scenario.sweep.points() == [0, 5, 10]
    assert [expectation.measure for expectation in scenario.expect] == ["tendon_tension", None]


@pytest.mark.parametrize("name", BAD)
def test_a_bad_scenario_is_refused_with_its_place(tmp_path: Path, name: str) -> None:
    content, words = BAD[name]
    file = tmp_path / "bad.yaml"
    file.write_bytes(content)
    with pytest.raises(BadInput) as caught:
        read_scenario(file)
    first = str(caught.value).splitlines()[0]
    assert words in str(caught.value)
    assert name == "too large" or re.search(r"bad\.yaml:\d+:\d+: ", first)


def test_complaints_come_in_the_order_of_the_file() -> None:
    text = (
        GOOD.replace("title: Heel raised", "title: 1")
        .replace("case: standing", "case: 2")
        .replace("to: 10", "to: x")
    )
    with pytest.raises(BadInput) as caught:
        load_scenario(read_text(text, "f.yaml"))
    assert [line.split(":")[1] for line in str(caught.value).splitlines()] == ["3", "12", "16"]


def test_the_order_is_the_files_and_not_the_models() -> None:
    text = GOOD.replace("title: Heel raised\n", "").replace("to: 10", "to: x") + "title: 1\n"
    with pytest.raises(BadInput) as caught:
        load_scenario(read_text(text, "f.yaml"))
    assert [line.split(":")[1] for line in str(caught.value).splitlines()] == ["15", "22"]


@pytest.mark.parametrize("file", scenario_files(), ids=lambda file: file.stem)
def test_carried_scenarios_are_good_and_fit_the_schema(file: Path) -> None:
    schema = json.loads(json.dumps(json_schema(SCENARIO)))
    jsonschema.Draft202012Validator.check_schema(schema)
    document = read_file(file)
    load_scenario(document)
    jsonschema.Draft202012Validator(schema).validate(document.data)


def test_the_schema_refuses_an_unknown_key() -> None:
    data = read_text(GOOD.replace("title:", "titel:"), "f.yaml").data
    assert not jsonschema.Draft202012Validator(json_schema(SCENARIO)).is_valid(data)
