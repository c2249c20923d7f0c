"""The scene's face: what it shows has everything a foot at rest has, changes come on smoothly, bad input changes nothing."""

import numpy as np
import pytest

from hoofsim import Foot
from hoofsim.drawing.foot_picture import foot_picture
from hoofsim.errors import BadInput
from hoofsim.mechanics import bodies
from hoofsim.scene import Scene
from hoofsim.scene.march import MOST_KICK_MM_PER_S


def test_it_starts_at_rest_on_the_equilibrium() -> None:
    scene, found = Scene(Foot("steep")), Foot("steep").load("standing")
    assert scene.settled
    assert scene.loaded.status == found.status
    assert np.array_equal(scene.loaded.equilibrium.freedoms, found.equilibrium.freedoms)
    assert scene.loaded.measures() == found.measures()
    scene.advance(0.2)
    assert np.array_equal(scene.loaded.equilibrium.freedoms, found.equilibrium.freedoms)


def test_a_moving_foot_has_measures_and_a_picture() -> None:
    scene = Scene(Foot("pony"))
    scene.change(heel_change_mm=6)
    scene.advance(0.05)
    shown = scene.loaded
    assert shown.status == "moving"
    assert shown.at_rest
    assert not scene.settled
    assert shown.measures().keys() == shown.baseline.measures().keys()
    assert shown.measures()["tendon_tension"] is not None
    assert foot_picture(shown, baseline=shown.baseline).items
    assert set(shown.forces) == set(shown.baseline.forces)
    assert set(shown.poses) == set(shown.baseline.poses)


def test_a_resting_foot_is_the_same_object_until_something_is_asked() -> None:
    scene = Scene()
    scene.change(heel_change_mm=3)
    scene.settle(5.0)
    scene.advance(0.013)
    resting = scene.loaded
    scene.advance(0.04)
    assert scene.loaded is resting
    scene.change(heel_change_mm=0)
    assert scene.loaded is not resting


def test_a_changed_control_comes_on_without_a_blow() -> None:
    """The fastest landmark of a foot whose heels grow by 10 mm moves a few times faster than on average, no more."""
    scene = Scene()
    start = scene.loaded.points["tip"]
    scene.change(heel_change_mm=10)
    steps, before = [], start
    while not scene.settled:
        scene.advance(0.01)
        now = scene.loaded.points["tip"]
        steps.append(float(np.hypot(*(now - before))))
        before = now
    whole = float(np.hypot(*(before - start)))
    assert whole > 1.0
    assert sum(steps) < 1.3 * whole
    assert max(steps) < 0.3 * whole


def test_bad_input_is_one_sentence_and_changes_nothing() -> None:
    scene = Scene()
    for spoil in (
        lambda: scene.change(heel_chang_mm=3),
        lambda: scene.change(heel_change_mm=300),
        lambda: scene.change(palmar_angle_deg=14, hoof_angle_deg=42),
        lambda: scene.set_load("stand"),
        lambda: scene.set_load("walk", 130),
        lambda: scene.advance(-1.0),
        lambda: scene.advance(float("nan")),
    ):
        with pytest.raises(BadInput):
            spoil()
    assert scene.settled
    assert scene.case == "standing"
    assert scene.foot == Foot()
    assert scene.snapshot().acts == ()


def test_a_long_pause_of_the_program_is_not_caught_up() -> None:
    scene = Scene()
    scene.advance(60.0)
    assert scene.time < 1.0


def test_a_cut_tendon_pulls_no_more_and_a_restored_one_pulls_as_before() -> None:
    scene = Scene()
    before = scene.loaded.measures()["tendon_tension"]
    scene.change(tendon_cut=1)
    assert scene.settle(5.0)
    assert scene.loaded.measures()["tendon_tension"] == pytest.approx(0.0, abs=1e-9)
    scene.change(tendon_cut=0)
    assert scene.settle(5.0)
    assert scene.loaded.measures()["tendon_tension"] == pytest.approx(before, rel=0.005)


def test_a_hanging_foot_pulled_awry_is_put_down_gently() -> None:
    """The ground meets a tipped foot on its way up: pushed, never shot away, and at rest as if it had always stood."""
    scene = Scene(Foot(), "suspended")
    scene.grab(scene.loaded.points["toe"])
    scene.pull(scene.loaded.points["toe"] - (30.0, 60.0))
    scene.settle(0.3)
    scene.release()
    scene.set_load("standing")
    fastest, before = 0.0, scene.loaded.points["toe"]
    for _ in range(400):
        scene.advance(0.01)
        fastest = max(fastest, float(np.hypot(*(scene.loaded.points["toe"] - before))))
        before = scene.loaded.points["toe"]
        if scene.settled:
            break
    assert fastest < 15.0
    assert scene.settled
    found = scene.foot.load("standing", worst=scene.worst[:, 0])
    assert np.abs(scene.loaded.equilibrium.freedoms - found.equilibrium.freedoms).max() < 0.05


def test_no_sub_step_kicks_harder_than_the_bound() -> None:
    scene = Scene()
    deep = scene._freedoms.copy()
    deep[[1, 5, 8]] -= 60.0
    scene._space.place(scene._model, deep, np.zeros(deep.size))
    scene._march.forget()
    for _ in range(40):
        scene._march.window(scene._model, scene.worst, np.zeros(deep.size))
        pose, speed = scene._space.read()
        assert np.isfinite(pose).all()
        assert np.linalg.norm(speed / bodies.scales()) < 1.05 * MOST_KICK_MM_PER_S / (
            1.0 - scene._space.decay
        )
