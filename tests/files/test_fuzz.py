"""Whatever stands in place of a value of a good scenario, the answer is a scenario or a refusal with its place."""

import copy
import re
from typing import Any

import yaml
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.errors import BadInput
from hoofsim.files.reader import read_text
from hoofsim.files.scenario import load_scenario
from tests.files.bad_scenarios import GOOD

DATA = read_text(GOOD, "good.yaml").data
NASTY = st.sampled_from(
    [
        None,
        True,
        -1,
        0,
        1e300,
        "",
        "x",
        "heel_change_mm",
        "from",
        [],
        [None],
        {},
        {"a": 1},
        {"from": []},
        10**14,
    ]
)


def paths(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Every path in plain data."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(found for key, child in inner for found in paths(child, (*path, key)))]


PATHS = paths(DATA)[1:]


@given(st.lists(st.tuples(st.sampled_from(PATHS), NASTY), min_size=1, max_size=3))
def test_a_replaced_value_is_read_or_refused_in_words(
    replacements: list[tuple[tuple[str | int, ...], Any]],
) -> None:
    data = copy.deepcopy(DATA)
    for path, value in replacements:
        parent = data
        for part in path[:-1]:
            parent = parent[part] if isinstance(parent, dict | list) and _has(parent, part) else None
        if isinstance(parent, dict | list) and _has(parent, path[-1]):
            parent[path[-1]] = value  # type: ignore[index]
    text = yaml.safe_dump(data, sort_keys=False)
    try:
        complaint = ""
        load_scenario(read_text(text, "f.yaml"))
    except BadInput as error:
        complaint = str(error)
    assert complaint == "" or re.match(r"f\.yaml:\d+:\d+: .", complaint)


def _has(parent: Any, part: str | int) -> bool:
    """Whether a dictionary or list holds that key or index."""
    return part in parent if isinstance(parent, dict) else isinstance(part, int) and part < len(parent)
