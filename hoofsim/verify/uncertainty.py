"""How far the model's numbers may be wrong because its constants are: 90 % bands, and which constants matter.

Every control with a spread (`hoofsim.foot.parameters`) varies at once, each about the foot's own value as a normal curve cut
at two standard deviations and at the control's range, independently of the others. That is an assumption: a steep foot
and a large palmar angle may go together. What the model leaves out altogether is in no band.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from hoofsim.errors import BadInput
from hoofsim.foot.geometry import rest_foot
from hoofsim.foot.parameters import PARAMETERS, Parameter
from hoofsim.frames import Array
from hoofsim.model import Foot, sweep
from hoofsim.verify.sensitivity import design, indices

SAMPLES, SEED = 512, 1
LOW_PERCENT, HIGH_PERCENT = 5.0, 95.0
CUT = 2.0
MATTER = 3
NORMAL = NormalDist()
UNCERTAIN: tuple[Parameter, ...] = tuple(one for one in PARAMETERS if one.spread is not None)

MEASURED = (
    "palmar_angle", "phalangeal_rotation", "capsular_rotation", "founder_distance", "tip_to_frog", "sole_depth_tip",
    "wall_to_bone_distal", "ground_force_lever", "centre_of_pressure", "tendon_tension", "navicular_load",
    "laminar_stress_peak", "sole_pressure_tip",
)  # fmt: skip


@dataclass(frozen=True)
class StandardCase:
    """A standard case: a foot under a load, with the words for it."""

    name: str
    label: str
    foot: Foot
    load: str
    stance_percent: float | None = None


CASES: Mapping[str, StandardCase] = {
    case.name: case
    for case in (
        StandardCase("standing", "sound foot, standing", Foot("sound"), "standing"),
        StandardCase("other_lifted", "sound foot, other foot lifted", Foot("sound"), "other_lifted"),
        StandardCase("trot", "sound foot, middle of the trot's stance", Foot("sound"), "trot", 50.0),
        StandardCase("walk_breakover", "sound foot, breakover of the walk", Foot("sound"), "walk", 84.0),
        StandardCase(
            "wedge", "sound foot on a 6 deg wedge, standing", Foot("sound", wedge_deg=6.0), "standing"
        ),
        StandardCase("failed", "failed laminae, standing", Foot("failed_laminae"), "standing"),
    )
}


@dataclass(frozen=True)
class MeasureBand:
    """90 % band of a measure in its unit, its middle, and the controls that matter most with their total indices."""

    low: float
    middle: float
    high: float
    matter: tuple[tuple[str, float], ...]


def sample(case: StandardCase, count: int, seed: int = SEED) -> dict[str, Array]:
    """Values of every uncertain control for each row of the design about the case's foot."""
    rows = design(count, len(UNCERTAIN), seed)
    values = {}
    for column, one in enumerate(UNCERTAIN):
        assert one.spread is not None
        centre = case.foot.values[one.name]
        least = NORMAL.cdf(max(-CUT, (one.low - centre) / one.spread))
        most = NORMAL.cdf(min(CUT, (one.high - centre) / one.spread))
        share = least + rows[:, column] * (most - least)
        z = np.array([NORMAL.inv_cdf(min(max(each, 1e-9), 1.0 - 1e-9)) for each in share])
        values[one.name] = np.clip(centre + one.spread * z, one.low, one.high)
    return values


def possible(foot: Foot, values: Mapping[str, Array], rows: NDArray[np.int_]) -> NDArray[np.int_]:
    """Those of `rows` that are not contradictory feet, found by halving."""
    fixed = {name: np.full(rows.size, value) for name, value in foot.values.items()}
    try:
        rest_foot(fixed | {name: column[rows] for name, column in values.items()})
    except BadInput:
        if rows.size == 1:
            return rows[:0]
        half = rows.size // 2
        return np.concatenate([possible(foot, values, rows[:half]), possible(foot, values, rows[half:])])
    return rows


def bands_of(
    case: StandardCase, count: int = SAMPLES, progress: Callable[[int, int], bool | None] | None = None
) -> dict[str, MeasureBand]:
    """Measure -> band of one case from a design of `count`."""
    values = sample(case, count)
    total = count * (len(UNCERTAIN) + 2)
    rows = possible(case.foot, values, np.arange(total))
    kept = {name: column[rows] for name, column in values.items()}
    table = sweep(case.foot, kept, case.load, case.stance_percent, progress)
    found = {}
    for measure in MEASURED:
        results = np.full(total, np.nan)
        results[rows] = table[measure]
        plain = results[: 2 * count]
        low, middle, high = np.nanpercentile(plain, [LOW_PERCENT, 50.0, HIGH_PERCENT])
        shares = indices(results, count).total
        order = np.argsort(shares)[::-1][:MATTER]
        matter = tuple((UNCERTAIN[i].name, float(shares[i])) for i in order)
        found[measure] = MeasureBand(float(low), float(middle), float(high), matter)
    return found
