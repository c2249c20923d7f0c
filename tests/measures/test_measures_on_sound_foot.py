"""The measures of a sound foot against values published or known in the trade, each with its source beside it."""

import numpy as np
import pytest

from hoofsim import sources
from hoofsim.measures import MEASURES, measure_all
from tests.measures.sound_foot import sound_points

EXPECTED = {
    "hoof_angle": (51.8, 3.9),  # R1: mean and spread
    "p3_dorsal_angle": (52.0, 0.2),  # R11: parallel to the wall
    "capsular_rotation": (0.0, 0.2),  # R11
    "phalangeal_rotation": (3.3, 0.1),  # R4
    "palmar_angle": (4.0, 0.1),  # practice: 3-8
    "founder_distance": (4.7, 0.01),  # R3: 4.1 ± 2.2
    "founder_distance_hairline": (11.7, 0.01),  # R3: 7-10 more than with firm horn
    "wall_to_bone_proximal": (15.5, 0.1),  # practice: 15-19
    "wall_to_bone_distal": (15.5, 0.1),  # practice: equal to the top
    "lucent_zone_middle": (7.0, 0.1),  # R2: 6.9
    "sole_depth_tip": (12.5, 0.01),
    "ground_depth_tip": (15.0, 0.01),
    "tip_to_frog": (10.0, 0.01),  # R10
    "toe_to_cor": (89.0, 1.0),  # R5: the dorsal wall's length, 88, within 1
    "breakover_to_tip": (20.0, 0.01),
    "cor_ratio": (0.6034, 0.0001),
}


@pytest.mark.parametrize(("name", "expected"), EXPECTED.items())
def test_sound_foot_reads(name, expected):
    value, within = expected
    assert measure_all(sound_points())[name] == pytest.approx(value, abs=within)


def test_the_founder_markers_differ_by_7_to_10_mm():
    found = measure_all(sound_points())
    assert 7.0 - 1e-9 <= found["founder_distance_hairline"] - found["founder_distance"] <= 10.0


def test_sound_foot_lies_inside_every_reference_range_that_points_alone_give():
    found = measure_all(sound_points())
    outside = [
        name
        for name, measure in MEASURES.items()
        if measure.kind == "points"
        and measure.reference
        and not measure.reference.holds(round(float(found[name]), 2))
    ]
    assert outside == []


def test_every_source_named_is_in_the_table_of_sources():
    named = {measure.source for measure in MEASURES.values()}
    named |= {measure.reference.source for measure in MEASURES.values() if measure.reference}
    for name in named:
        assert sources.source(name).id == name


def test_nothing_that_is_computed_is_nan():
    for value in measure_all(sound_points(), sound_points()).values():
        assert value is None or np.all(np.isfinite(value))
