"""The carried 90 % bands: `assets/bands.json`, made by `hoofsim verify --uncertainty --bands FILE`.

>>> low, high = band("standing", "tendon_tension")
>>> low < high
True
"""

import json
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from hoofsim.errors import BadInput, nearest
from hoofsim.resources import assets_folder
from hoofsim.verify.uncertainty import CASES, SAMPLES, SEED, UNCERTAIN, MeasureBand

FILE = "bands.json"


def as_text(found: Mapping[str, Mapping[str, MeasureBand]], count: int = SAMPLES) -> str:
    """The file's text: how it was made, the spreads it was made from, and every band."""
    content = {
        "how": "90 % bands from a Saltelli design; renewed by hoofsim verify --uncertainty --bands FILE",
        "samples": count,
        "seed": SEED,
        "spreads": {one.name: one.spread for one in UNCERTAIN},
        "cases": {
            case: {measure: _plain(one) for measure, one in bands.items()} for case, bands in found.items()
        },
    }
    return json.dumps(content, indent=1) + "\n"


def _plain(one: MeasureBand) -> dict[str, Any]:
    numbers = {name: float(f"{getattr(one, name):.5g}") for name in ("low", "middle", "high")}
    return {**numbers, "matter": [[name, round(share, 2)] for name, share in one.matter]}


def from_text(text: str) -> dict[str, dict[str, MeasureBand]]:
    """Case -> measure -> band, from the file's text."""
    cases = json.loads(text)["cases"]
    return {
        case: {
            measure: MeasureBand(
                one["low"], one["middle"], one["high"], tuple((name, share) for name, share in one["matter"])
            )
            for measure, one in bands.items()
        }
        for case, bands in cases.items()
    }


@lru_cache(maxsize=1)
def carried() -> dict[str, dict[str, MeasureBand]]:
    """The bands that came with the program."""
    return from_text((assets_folder() / FILE).read_text(encoding="utf-8"))


def band(case: str, measure: str) -> tuple[float, float] | None:
    """Low and high end of the 90 % band of `measure` in the standard case `case`; None where there is none.

    `BadInput` names an unknown case.
    """
    if case not in CASES:
        raise BadInput(f"unknown standard case '{case}': {nearest(case, CASES)}")
    found = carried()[case].get(measure)
    return None if found is None else (found.low, found.high)


def case_like(preset: str, load: str) -> str | None:
    """The standard case with that ready foot and load, whose bands say how wide a reading of such a foot is; else None."""
    for case in CASES.values():
        if case.foot.preset == preset and not case.foot.changes and case.load == load:
            return case.name
    return None
