"""What stands beside every table and picture: which program made them, from which file, with which values and sources."""

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from hoofsim import __version__
from hoofsim.cautions import CAUTIONS, LIMITS
from hoofsim.foot.parameters import PARAMETERS
from hoofsim.foot.presets import preset
from hoofsim.measures import MEASURES
from hoofsim.mechanics.loads import CASES
from hoofsim.sources import SOURCES
from hoofsim.units import shown_unit


def about(file: Path, kind: str, content: Any, preset_name: str | None = None) -> str:
    """JSON (same input, same text): version, the file it was made from and its content, values, measures, sources.

    `preset_name`: the ready foot whose values hold where `content` changes nothing; None for evidence, which has none.
    """
    known: Mapping[str, float] = {} if preset_name is None else preset(preset_name).values
    parameters = {
        one.name: {
            "value": known[one.name],
            "unit": shown_unit(one.unit),
            "status": one.status,
            "source": one.source,
        }
        for one in PARAMETERS
        if one.name in known
    }
    measures = {
        one.name: {
            "unit": shown_unit(one.unit),
            "definition": one.definition,
            "sign": one.sign,
            "source": one.source,
        }
        for one in MEASURES.values()
    }
    used = {one.source for one in PARAMETERS} | {one.source for one in CASES.values()}
    used |= {one.source for one in MEASURES.values()}
    used |= {one.reference.source for one in MEASURES.values() if one.reference is not None}
    return (
        json.dumps(
            {
                "made_with": f"hoofsim {__version__}",
                "kind": kind,
                "from": {"name": file.name, "sha256": hashlib.sha256(file.read_bytes()).hexdigest()},
                "content": content,
                "unchanged_values": parameters,
                "measures": measures,
                "sources": {
                    name: f"{one.what}. {one.citation} [{one.status}]"
                    for name, one in SOURCES.items()
                    if name in used
                },
                "limits": LIMITS,
                "cautions": list(CAUTIONS),
            },
            indent=1,
            ensure_ascii=False,
            allow_nan=False,
        )
        + "\n"
    )


def plain(model: Any) -> Any:
    """A file's typed content as plain values, with what was left out filled in."""
    return model.model_dump(mode="json", by_alias=True, exclude_none=True)
