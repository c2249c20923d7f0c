"""Experiment files: what a good one means, and that every bad one is refused with its line and what is allowed."""

import re

import pytest
from jsonschema import Draft202012Validator

from hoofsim.errors import BadInput
from hoofsim.files.experiment import EXPERIMENT, load_experiment, read_experiment
from hoofsim.files.kinds import json_schema
from hoofsim.files.reader import read_text
from hoofsim.resources import scenarios_folder
from tests.files.bad_experiments import BAD, GOOD

READY = sorted((scenarios_folder() / "experiments").glob("*.yaml"))


def loaded(text):
    return load_experiment(read_text(text, "trial.yaml"))


@pytest.mark.parametrize("name", BAD)
def test_a_bad_experiment_is_refused_in_words_with_its_place(name):
    text, words = BAD[name]
    with pytest.raises(BadInput) as refusal:
        loaded(text)
    assert words in str(refusal.value)
    assert re.match(r"trial\.yaml:\d+:\d+: ", str(refusal.value))


def test_a_full_factorial_combines_every_level():
    experiment = loaded(GOOD)
    runs = experiment.runs()
    assert len(runs) == len(set(runs)) == 3 * 2 * 2
    assert [factor.title for factor in experiment.factors] == ["tendon", "laminae_percent", "load"]
    assert [level.name for level in experiment.factors[1].options()] == ["100", "10"]


def test_one_at_a_time_leaves_all_other_factors_at_their_usual_level():
    experiment = loaded(GOOD.replace("factorial", "one at a time"))
    usual = (1, 0, 0)
    runs = experiment.runs()
    assert runs[0] == usual
    assert len(runs) == 1 + 2 + 1 + 1
    assert all(sum(a != b for a, b in zip(run, usual, strict=True)) == 1 for run in runs[1:])


def test_a_grid_takes_two_controls_through_numbers():
    text = re.sub(r"factors:.*measures", "factors:\n"
                  "  - {control: laminae_percent, from: 0, to: 100, steps: 5}\n"
                  "  - {control: heel_change_mm, values: [0, 5, 15]}\nmeasures", GOOD, flags=re.S)  # fmt: skip
    experiment = loaded(text.replace("factorial", "grid"))
    assert len(experiment.runs()) == 15
    assert experiment.factors[0].numbers() == [0, 25, 50, 75, 100]


def test_there_are_twelve_ready_experiments_each_asking_one_question():
    assert len(READY) == 12
    for file in READY:
        assert read_experiment(file).question.count("?") == 1, file


def test_the_schema_accepts_what_the_reader_accepts():
    validator = Draft202012Validator(json_schema(EXPERIMENT))
    for file in READY:
        assert list(validator.iter_errors(read_text(file.read_text(encoding="utf-8"), str(file)).data)) == []
    assert list(validator.iter_errors(read_text(BAD["unknown design"][0], "x").data)) != []
