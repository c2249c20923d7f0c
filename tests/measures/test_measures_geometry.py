"""The measures against plane geometry done another way: complex numbers, x + iy, and a moved foot whose answer is
known.
"""

import cmath
import math

import numpy as np
import pytest

from hoofsim.errors import BadInput
from hoofsim.frames import rotate
from hoofsim.measures import MEASURES, change_is_readable, measure_all
from tests.measures.sound_foot import FRAMES, sound_points

TURN = 10.0
UNMOVED_BY_TIPPING = [
    "capsular_rotation",
    "wall_to_bone_proximal",
    "wall_to_bone_distal",
    "lucent_zone_proximal",
    "lucent_zone_middle",
    "lucent_zone_distal",
    "tip_to_frog",
    "tip_to_frog_seen",
    "tip_to_frog_capsule",
    "frog_to_toe",
    "frog_to_heel",
]
TURNED_BY_TIPPING = [
    "hoof_angle",
    "hoof_angle_proximal",
    "p3_dorsal_angle",
    "p2_angle",
    "palmar_angle",
    "palmar_angle_change",
]


def as_complex(points):
    return {name: complex(*xy) for name, xy in points.items()}


def turned(points, body, degrees, about):
    """The named body's points turned tip down, by multiplying with exp(-i angle)."""
    moved = dict(points)
    for name in FRAMES[body]:
        z = complex(*about) + (complex(*points[name]) - complex(*about)) * cmath.exp(
            -1j * math.radians(degrees)
        )
        moved[name] = np.array([z.real, z.imag])
    return moved


def lean(z_toe_end, z_other_end):
    """Angle at the toe end opening palmarly, as the argument of the mirrored difference."""
    difference = z_other_end - z_toe_end
    return math.degrees(cmath.phase(complex(-difference.real, difference.imag)))


def distance_to_line(z, a, b):
    """Square distance of z from the line ab: twice the triangle's area over its base."""
    return abs(((b - a).conjugate() * (z - a)).imag) / abs(b - a)


def test_turning_the_bone_alone_by_ten_degrees_reads_ten_on_each_angle_of_the_bone():
    sound = sound_points()
    found, before = measure_all(turned(sound, "p3", TURN, sound["cor"]), sound), measure_all(sound)
    for name in ("p3_dorsal_angle", "capsular_rotation", "phalangeal_rotation", "palmar_angle"):
        assert found[name] - before[name] == pytest.approx(TURN, abs=1e-9)
    assert found["palmar_angle_change"] == pytest.approx(TURN, abs=1e-9)
    assert found["hoof_angle"] == before["hoof_angle"]


def test_angles_and_square_distances_agree_with_complex_numbers_on_a_displaced_foot():
    moved = turned(sound_points(), "p3", 7.3, (3.0, 50.0))
    z, found = as_complex(moved), measure_all(moved)
    assert found["p3_dorsal_angle"] == pytest.approx(lean(z["tip"], z["extensor_process"]), abs=1e-9)
    assert found["palmar_angle"] == pytest.approx(lean(z["tip"], z["palmar_process"]), abs=1e-9)
    assert found["hoof_angle"] == pytest.approx(lean(z["toe"], z["toe_hairline"]), abs=1e-9)
    for name, bone in (("wall_to_bone_proximal", "extensor_process"), ("wall_to_bone_distal", "tip")):
        square = distance_to_line(z[bone], z["toe"], z["toe_hairline"])
        assert found[name] == pytest.approx(square, abs=1e-9)


def test_tip_to_frog_is_the_real_part_along_the_bone_and_not_the_slant_distance():
    moved = turned(sound_points(), "p3", 7.3, (3.0, 50.0))
    z = as_complex(moved)
    base = z["palmar_process"] - z["tip"]
    expected = ((z["frog_point"] - z["tip"]) / base).real * abs(base)
    assert measure_all(moved)["tip_to_frog"] == pytest.approx(expected, abs=1e-9)
    assert abs(z["frog_point"] - z["tip"]) > expected + 1.0


def test_tipping_the_whole_foot_leaves_what_lies_between_bone_and_capsule_and_adds_to_each_angle():
    sound = sound_points()
    tipped = {name: rotate(xy, math.radians(TURN), sound["toe"]) for name, xy in sound.items()}
    before, after = measure_all(sound, sound), measure_all(tipped, sound)
    for name in UNMOVED_BY_TIPPING:
        assert after[name] == pytest.approx(before[name], abs=1e-9), name
    for name in TURNED_BY_TIPPING:
        assert after[name] - before[name] == pytest.approx(TURN, abs=1e-9), name


def test_sole_depth_is_vertical_to_the_sole_line_even_where_the_tip_has_left_its_mark():
    points = sound_points()
    points["tip"] = points["tip"] + np.array([-20.0, 0.0])
    points["sole_under_tip"] = points["sole_under_tip"] + np.array([0.0, 75.9 / 10])
    expected = 15.0 - (2.5 + 75.9 / 10 - 20.0 / 10)  # the line climbs a tenth from the palmar mark
    assert measure_all(points)["sole_depth_tip"] == pytest.approx(expected, abs=1e-9)


def test_a_lost_tip_moves_only_what_is_read_from_the_tip_that_is_seen():
    points = sound_points()
    intact = measure_all(points)
    points["tip_seen"] = points["tip"] + np.array([-5.0, 0.0])
    found = measure_all(points)
    moved = {name for name, value in found.items() if value is not None and abs(value - intact[name]) > 1e-9}
    assert moved == {
        "tip_to_frog_seen",
        "palmar_angle_seen",
    }  # the sole is level under the tip: its depth stays
    assert found["tip_to_frog_seen"] < found["tip_to_frog"] - 4.5


def test_any_batch_shape_goes_through_and_each_foot_is_read_alone():
    rng = np.random.default_rng(3)
    batch = {name: xy + rng.normal(0.0, 1.0, (4, 3, 2)) for name, xy in sound_points().items()}
    baseline = sound_points()
    whole = measure_all(batch, baseline)
    one = measure_all({name: xy[2, 1] for name, xy in batch.items()}, baseline)
    for name, value in whole.items():
        if value is not None:
            assert value.shape == (4, 3)
            assert value[2, 1] == pytest.approx(one[name], abs=1e-12)


def test_what_is_not_given_is_none_and_not_a_guess():
    points = sound_points()
    del points["frog_point"]
    found = measure_all(points)
    absent = {name for name, value in found.items() if value is None and MEASURES[name].kind == "points"}
    assert absent == {"tip_to_frog", "tip_to_frog_seen", "tip_to_frog_capsule", "frog_to_toe", "frog_to_heel"}
    assert found["palmar_angle_change"] is None
    assert found["tendon_tension"] is None


def test_mechanical_measures_pass_through_and_the_peak_is_found_with_its_place():
    stress = np.array([[0.1, 0.4, 0.2], [0.5, 0.1, 0.3]])
    found = measure_all(
        {},
        mechanics={
            "laminar_stress": stress,
            "laminar_stress_at": np.array([0.0, 0.5, 1.0]),
            "tendon_tension": np.array([700.0, 800.0]),
        },
    )
    assert found["laminar_stress_peak"].tolist() == [0.4, 0.5]
    assert found["laminar_stress_peak_at"].tolist() == [0.5, 0.0]
    assert found["tendon_tension"].tolist() == [700.0, 800.0]
    assert found["navicular_load"] is None


@pytest.mark.parametrize(
    ("name", "change", "readable"),
    [
        ("palmar_angle", 1.9, False),
        ("palmar_angle", -2.0, True),
        ("founder_distance", 2.1, True),
        ("cor_ratio", 0.019, False),
        ("cor_ratio", 0.02, True),
        ("tendon_tension", 500.0, False),
    ],
)
def test_a_change_is_readable_from_two_degrees_or_two_millimetres(name, change, readable):
    assert change_is_readable(name, change) is readable


def test_a_misspelt_measure_is_refused_with_the_nearest_name():
    with pytest.raises(BadInput, match="palmar_angle"):
        change_is_readable("palmer_angle", 3.0)
