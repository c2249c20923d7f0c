"""Build one row of the table of measures: what a radiograph can show of it and its reference range come in
here.
"""

from collections.abc import Callable

from hoofsim.frames import Array
from hoofsim.measures.measure import Measure, MeasureKind, Unit
from hoofsim.measures.references import REFERENCES, SMALLEST_READABLE, SMALLEST_READABLE_RATIO


def describe(
    name: str,
    label: str,
    definition: str,
    sign: str,
    unit: Unit,
    source: str,
    needs: tuple[str, ...],
    function: Callable[..., Array],
    kind: MeasureKind = "points",
) -> Measure:
    """The measure `name`; anything that comes from points is readable on a radiograph, anything mechanical is
    not.
    """
    readable = kind != "mechanics"
    smallest = (SMALLEST_READABLE_RATIO if unit == "1" else SMALLEST_READABLE) if readable else None
    needed = tuple(dict.fromkeys(needs))
    reference = REFERENCES.get(name)
    return Measure(
        name, label, definition, sign, unit, source, kind, needed, function, readable, smallest, reference
    )
