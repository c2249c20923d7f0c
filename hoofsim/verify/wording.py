"""The rows of the comparison in words and figures, the same on the terminal, in JSON and on the page."""

from collections.abc import Mapping, Sequence

from hoofsim.sources import SOURCES
from hoofsim.units import MINUS
from hoofsim.verify.compare import Comparison
from hoofsim.verify.published import Published

COLUMNS = (
    ("what", "left"), ("model", "right"), ("world", "right"), ("spread", "left"), ("source", "left"),
    ("kind", "left"), ("verdict", "left"),
)  # fmt: skip

HOW_TO_READ = (
    "Calibrated: the model was set by this value, so being inside proves little. Predicted: nothing in the model was set by "
    "it. Inside: within the published spread; where none was printed, within 15 % of the value, about the usual spread "
    "between horses in this table, or for radiographs within the smallest readable change. What falls outside stays outside."
)


def figures(value: float) -> str:
    """Three figures, with a true minus."""
    if abs(value) < 5e-4:
        return "0"
    text = f"{value:.0f}" if abs(value) >= 1000 else f"{value:.3g}"
    return text.replace("-", MINUS)


def with_unit(value: float, unit: str) -> str:
    """Figures and unit; a bare number has none."""
    return figures(value) if unit in ("1", "deg/deg") else f"{figures(value)} {unit}"


def world(one: Published) -> str:
    """The published value, or the direction when only that was published; a range has no middle."""
    if one.is_direction:
        return "falls" if one.high <= 0 else "rises"
    if one.spread == "range" and one.status != "choice":
        return f"{figures(one.low)} to {with_unit(one.high, one.unit)}"
    return with_unit(one.value, one.unit)


def spread(one: Published) -> str:
    """The spread in the unit, and what kind it is when it is not the plain standard deviation."""
    if one.is_direction:
        return "direction only"
    if one.spread == "range":
        return "range"
    half = f"± {figures(0.5 * (one.high - one.low))}"
    if one.spread == "standard deviation":
        return f"{half} (s.d.)"
    return f"{half} (R9)" if "R9" in one.spread else f"{half} (15 %)"


def cited(one: Published) -> str:
    """The source's id, with its status where a reader must know it."""
    return f"{one.source}, {one.mark}" if one.mark and one.mark != one.source else one.source


def cells(row: Comparison) -> list[str]:
    """One line of the table, in the order of COLUMNS."""
    one = row.published
    return [
        one.what, with_unit(row.model, one.unit), world(one), spread(one), cited(one), one.kind,
        row.verdict if row.inside else row.verdict.upper(),
    ]  # fmt: skip


def tally(rows: Sequence[Comparison]) -> str:
    """How many are inside, predicted and calibrated apart."""
    counts = []
    for kind in ("predicted", "calibrated"):
        own = [row for row in rows if row.published.kind == kind]
        counts.append(f"{sum(row.inside for row in own)} of {len(own)} {kind} values inside")
    return "; ".join(counts) + "."


def as_data(row: Comparison) -> Mapping[str, object]:
    """One row for JSON."""
    one = row.published
    return {
        "id": one.id, "what": one.what, "unit": one.unit, "model": row.model, "world": one.value, "low": one.low,
        "high": one.high, "spread": one.spread, "conditions": one.conditions, "source": one.source,
        "citation": SOURCES[one.source].citation, "status": one.status, "kind": one.kind, "inside": row.inside,
        "model_band": row.band,
    }  # fmt: skip


def groups(rows: Sequence[Comparison]) -> dict[str, list[Comparison]]:
    """The rows by group, in the table's order."""
    found: dict[str, list[Comparison]] = {}
    for row in rows:
        found.setdefault(row.published.group, []).append(row)
    return found
