"""Damage with memory: what a bond has suffered is never taken back by rest, only by mending."""

import numpy as np

from hoofsim import Foot
from hoofsim.scene import Scene

FRAIL = Foot("sound", laminae_percent=15, quarters_percent=15)


def test_worst_strains_never_fall() -> None:
    scene = Scene(FRAIL, "trot", stance_percent=5)
    scene.play(1.0)
    before = scene.worst
    for _ in range(90):
        scene.advance(0.01)
        assert (scene.worst >= before).all()
        before = scene.worst


def test_an_overload_leaves_damage_that_rest_does_not_heal() -> None:
    scene = Scene(FRAIL)
    assert scene.loaded.stations["laminae"].damage.max() == 0.0
    before = scene.loaded.points["tip"]
    scene.set_load("trot", 50)
    scene.settle(3.0)
    scene.set_load("standing")
    assert scene.settle(6.0)
    torn = scene.loaded.stations["laminae"].damage.max() + scene.loaded.stations["quarters"].damage.max()
    assert torn > 0.5
    assert np.hypot(*(scene.loaded.points["tip"] - before)) > 0.05


def test_the_damaged_foot_rests_where_the_solver_puts_a_foot_with_that_history() -> None:
    scene = Scene(FRAIL)
    scene.set_load("trot", 50)
    scene.settle(3.0)
    scene.set_load("standing")
    assert scene.settle(6.0)
    found = FRAIL.load("standing", worst=scene.worst[:, 0])
    off = np.abs(scene.loaded.equilibrium.freedoms - found.equilibrium.freedoms)
    assert off.max() < 0.05


def test_mending_takes_it_back() -> None:
    scene = Scene(FRAIL)
    fresh = scene.loaded.points["tip"]
    scene.set_load("trot", 50)
    scene.settle(3.0)
    scene.set_load("standing")
    scene.mend()
    assert scene.settle(6.0)
    # The load of the trot was still on while the bonds were made whole, so some of them may have suffered again.
    scene.mend()
    assert scene.settle(6.0)
    assert scene.loaded.stations["laminae"].damage.max() == 0.0
    assert np.hypot(*(scene.loaded.points["tip"] - fresh)) < 0.01
