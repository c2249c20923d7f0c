"""Strides: every ready foot lands, loads, breaks over, leaves the ground and lands again, with numbers throughout."""

import numpy as np
import pytest

from hoofsim import Foot
from hoofsim.errors import BadInput
from hoofsim.foot.presets import PRESETS
from hoofsim.mechanics.stations import GROUND
from hoofsim.scene import Scene


def bearing(scene: Scene) -> float:
    """Total push of the ground, N."""
    return float(scene.loaded.stations["ground"].normal.sum())


@pytest.mark.parametrize("preset", PRESETS)
@pytest.mark.parametrize("case", ["walk", "trot"])
def test_a_full_cycle_lands_loads_and_leaves(preset: str, case: str) -> None:
    scene = Scene(Foot(preset), case, stance_percent=40)
    scene.play(1.0)
    pushes, heights, percents = [], [], []
    for _ in range(200):
        scene.advance(0.01)
        percents.append(scene.stance_percent)
        if len(percents) % 4 == 0:
            shown = scene.loaded
            assert all(np.isfinite(at).all() for at in shown.points.values())
            pushes.append(bearing(scene))
            heights.append(min(shown.points["toe"][1], shown.points["heel_ground"][1]))
        if len(percents) > 20 and percents[-1] > 45 and percents[-2] <= 45:
            break
    else:
        pytest.fail("the stride never came round")
    assert not scene.settled
    assert max(heights) > 20.0
    assert min(pushes) == pytest.approx(0.0, abs=1e-6)
    weight = 9.81 * scene.foot.values["body_mass_kg"]
    assert max(pushes) > 0.45 * weight


def test_in_the_swing_the_foot_is_clear_of_a_ground_that_stays() -> None:
    scene = Scene(Foot("sound", heel_change_mm=4), "trot", stance_percent=90)
    scene.play(0.5)
    while scene.loaded.lift_mm < 40.0:
        scene.advance(0.007)
    ground = scene.loaded.stations["ground"]
    assert np.allclose(ground.horn_end[:, 1], 0.0, atol=1e-6)
    assert ground.bone_end[:, 1].min() > 25.0
    assert ground.normal.max() == 0.0
    # The bodies stay where they are and feel a ground that has sunk away.
    gaps = scene._model.stations.gap - scene._standing.stations.gap
    assert np.allclose(gaps[GROUND], scene._stride.lift_mm(scene._elapsed))


def test_flight_and_posture_are_drawn_between_windows_too() -> None:
    scene = Scene(Foot(), "walk", stance_percent=99)
    scene.play(1.0)
    for _ in range(12):
        scene.advance(0.01)
    heights, turns = [], []
    for _ in range(3):
        heights.append(scene.loaded.lift_mm)
        turns.append(scene.loaded.poses["p2"].turn)
        scene.advance(0.004)
    assert heights[0] < heights[1] < heights[2]
    assert len(set(turns)) == 3


def test_the_sound_foot_lands_heel_first_or_level_and_leaves_toe_last() -> None:
    scene = Scene(Foot(), "walk", stance_percent=90)
    scene.play(1.0)
    landed, left = None, None
    for _ in range(90):
        flying = bearing(scene) <= 0.0
        scene.advance(0.01)
        now = bearing(scene) <= 0.0
        tip = float(np.degrees(scene.loaded.poses["border"].turn))
        if now and not flying and left is None:
            left = tip
        if flying and not now and left is not None and landed is None:
            landed = tip
    assert left is not None
    assert landed is not None
    assert left > 0.5
    assert -8.0 < landed < 0.5


def test_a_slow_stride_follows_the_equilibria_of_its_moments() -> None:
    scene = Scene(Foot(), "walk", stance_percent=20)
    scene.play(0.05)
    for _ in range(150):
        scene.advance(0.01)
    expected = scene.foot.load("walk", scene.stance_percent)
    tension, known = (foot.outputs.mechanics["tendon_tension"][0] for foot in (scene.loaded, expected))
    assert tension == pytest.approx(known, rel=0.01)


def test_pace_and_case_are_checked() -> None:
    scene = Scene()
    with pytest.raises(BadInput, match="nothing to play"):
        scene.play(1.0)
    scene.set_load("walk")
    with pytest.raises(BadInput, match=r"allowed 0\.05 to 1"):
        scene.play(1.5)
    scene.play(0.05)
    assert scene.playing == 0.05
    scene.pause()
    assert scene.playing == 0.0


def test_a_stride_is_compared_with_the_untouched_foot_at_its_own_moment() -> None:
    scene = Scene(Foot("sound", heel_change_mm=10), "trot", stance_percent=48)
    scene.play(0.5)
    scene.advance(0.01)
    baseline = scene.loaded.baseline
    assert baseline.stance_percent == 50.0
    assert baseline.foot.changes == {}
    alone = Foot("sound").load("trot", 50.0)
    assert np.allclose(baseline.points["tip"], alone.points["tip"], atol=1e-6)
