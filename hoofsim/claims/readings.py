"""What was read of a foot: measures, as changes from its baseline or as they stand, with their errors together."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from hoofsim.claims.population import between_feet, sound_points
from hoofsim.errors import BadInput
from hoofsim.frames import Array
from hoofsim.measures import Points, find, measure_all

# Measures that look at the same thing: together they count as one observation.
SAME_OBSERVATION = (
    ("tip_to_frog", "tip_to_frog_seen", "tip_to_frog_capsule"),
    ("palmar_angle", "palmar_angle_seen", "palmar_angle_change"),
    ("founder_distance", "founder_distance_hairline"),
    ("sole_depth_tip", "sole_depth_tip_seen"),
    ("frog_to_toe", "frog_to_heel"),
    ("hoof_angle", "hoof_angle_proximal"),
    ("lucent_zone_proximal", "lucent_zone_middle", "lucent_zone_distal"),
)


@dataclass(frozen=True)
class Readings:
    """Readings of one foot. `values` (M,) are changes from `baseline` in each measure's unit.

    `covariance` (M, M) is that of the changes' errors. `own_baseline` is False when the changes are against the sound
    foot for want of a baseline; the covariance then holds the difference between feet as well.
    """

    measures: tuple[str, ...]
    values: Array
    covariance: Array
    baseline: Points
    own_baseline: bool

    @property
    def observations(self) -> int:
        """How many different things were observed: measures that look at the same thing count once."""
        return len({observation(name) for name in self.measures})


def observation(measure: str) -> str:
    """The name under which measures that look at the same thing are counted together."""
    return next((family[0] for family in SAME_OBSERVATION if measure in family), measure)


def readings_of(
    values: Mapping[str, float],
    errors: Mapping[str, float] | float,
    baseline: Points | None = None,
) -> Readings:
    """Readings from `values` with independent standard errors (one for all, or by measure).

    With `baseline` (landmark name -> (2,) mm of the same foot), `values` are changes from it and `errors` are those of
    the changes. Without, `values` are the measures as they stand, and the spread between feet is added.
    """
    names = tuple(values)
    for name in names:
        measure = find(name)
        if not measure.readable:
            raise BadInput(f"'{name}' cannot be read on a radiograph, so no account predicts it.")
    if not names:
        raise BadInput("There is nothing to compare: give at least one measure.")
    error = np.array([float(errors[name] if isinstance(errors, Mapping) else errors) for name in names])
    given = np.array([float(values[name]) for name in names])
    if not np.all(np.isfinite(given)) or not np.all(np.isfinite(error)) or np.any(error <= 0.0):
        raise BadInput("Every reading must be a finite number and its error a number above 0.")
    if baseline is not None:
        return Readings(names, given, np.diag(error**2), baseline, True)
    return Readings(*against_sound_foot(names, given, np.diag(error**2)), False)


def against_sound_foot(
    names: tuple[str, ...], values: Array, covariance: Array
) -> tuple[tuple[str, ...], Array, Array, Points]:
    """Standing values as changes from the sound foot, with the spread between feet in their covariance."""
    sound = sound_points()
    found = measure_all(sound, sound)
    kept = tuple(name for name in names if found[name] is not None and find(name).kind == "points")
    at = [names.index(name) for name in kept]
    level = np.array([float(found[name]) for name in kept])  # type: ignore[arg-type]
    between = between_feet(kept) if kept else np.zeros((0, 0))
    return kept, values[at] - level, covariance[np.ix_(at, at)] + between, sound
