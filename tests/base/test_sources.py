"""The table of sources: complete entries, and every id that the program uses is in it."""

import re

import pytest

from hoofsim.errors import BadInput
from hoofsim.foot.parameters import PARAMETERS
from hoofsim.measures.table import MEASURES
from hoofsim.mechanics.loads import CASES
from hoofsim.sources import SOURCES, STATUSES, source

ID = re.compile(r"[FR][0-9]+b?")


@pytest.mark.parametrize("one", SOURCES.values(), ids=lambda one: one.id)
def test_every_entry_is_complete(one: object) -> None:
    assert all(vars(one).values())
    assert SOURCES[vars(one)["id"]] is one
    assert vars(one)["status"] in STATUSES


@pytest.mark.parametrize(
    ("where", "text"),
    [
        *((parameter.name, parameter.source) for parameter in PARAMETERS),
        *((measure.name, measure.source) for measure in MEASURES.values()),
        *((measure.name, measure.reference.source) for measure in MEASURES.values() if measure.reference),
        *((case.name, case.source) for case in CASES.values()),
    ],
)
def test_every_id_in_use_is_known(where: str, text: str) -> None:
    assert all(found in SOURCES for found in ID.findall(text)), where


@pytest.mark.parametrize("parameter", PARAMETERS, ids=lambda parameter: parameter.name)
def test_every_control_says_how_well_its_value_is_known(parameter: object) -> None:
    assert vars(parameter)["status"] in STATUSES


def test_an_unknown_id_names_the_nearest() -> None:
    with pytest.raises(BadInput, match="did you mean 'practice'"):
        source("practise")
