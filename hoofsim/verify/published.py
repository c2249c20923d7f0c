"""The table of published values, read from the carried file `assets/published_values.csv`.

Columns: id, group, what, unit, value, low and high (the spread, in the unit), spread (what kind of spread it is),
conditions, source (an id of `hoofsim.sources`), status (see there), kind: `calibrated` when the model was set by it,
`predicted` when nothing in the model was.
"""

import csv
from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import lru_cache
from pathlib import Path

from hoofsim.errors import BadInput
from hoofsim.resources import assets_folder
from hoofsim.sources import STATUSES, source

FILE = "published_values.csv"
KINDS = ("calibrated", "predicted")
# Statuses that every printout must mark.
UNREAD = {"memory": "from memory", "practice": "practice", "second-hand": "second-hand"}


@dataclass(frozen=True)
class Published:
    """One published value and its spread, all in `unit`."""

    id: str
    group: str
    what: str
    unit: str
    value: float
    low: float
    high: float
    spread: str
    conditions: str
    source: str
    status: str
    kind: str

    @property
    def is_direction(self) -> bool:
        """True when only the direction of a change was published, so that the value itself is only a place-holder."""
        return self.spread == "direction only"

    @property
    def mark(self) -> str:
        """The status where a reader must know it, else an empty text."""
        return UNREAD.get(self.status, "")


COLUMNS = tuple(field.name for field in fields(Published))


def read(path: Path) -> tuple[Published, ...]:
    """Every row of a table of published values; `BadInput` names the line and what is wrong with it."""
    with path.open(encoding="utf-8", newline="") as stream:
        table = csv.DictReader(stream)
        rows = list(table)
    missing = [name for name in COLUMNS if name not in (table.fieldnames or ())]
    if missing:
        raise BadInput(f"{path.name}, line 1: no column {', '.join(missing)}; expected {', '.join(COLUMNS)}")
    found = tuple(_row(path, line, row) for line, row in enumerate(rows, start=2))
    _refuse_twice(path, [row.id for row in found])
    return found


def _row(path: Path, line: int, row: dict[str, str]) -> Published:
    where = f"{path.name}, line {line}"
    try:
        value, low, high = (float(row[name]) for name in ("value", "low", "high"))
    except (TypeError, ValueError):
        raise BadInput(f"{where}: value, low and high must be numbers") from None
    if not low <= value <= high:
        raise BadInput(f"{where}: value {value:g} must lie from low {low:g} to high {high:g}")
    if row["kind"] not in KINDS:
        raise BadInput(f"{where}: kind '{row['kind']}' must be one of {', '.join(KINDS)}")
    if row["status"] not in STATUSES:
        raise BadInput(f"{where}: status '{row['status']}' must be one of {', '.join(STATUSES)}")
    source(row["source"])
    return Published(
        row["id"], row["group"], row["what"], row["unit"], value, low, high, row["spread"], row["conditions"],
        row["source"], row["status"], row["kind"],
    )  # fmt: skip


def _refuse_twice(path: Path, ids: Sequence[str]) -> None:
    seen: set[str] = set()
    for name in ids:
        if name in seen:
            raise BadInput(f"{path.name}: the id '{name}' stands there twice")
        seen.add(name)


@lru_cache(maxsize=1)
def published() -> tuple[Published, ...]:
    """The carried table."""
    return read(assets_folder() / FILE)
