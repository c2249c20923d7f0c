"""The march: forces at the predicted pose, look-aheads that change nothing, energy that only falls, joints that hold."""

import numpy as np
import pytest

from hoofsim import Foot
from hoofsim.frames import to_engine_angle
from hoofsim.mechanics import bodies
from hoofsim.mechanics.assembly import evaluate
from hoofsim.scene import Scene, march
from hoofsim.scene.space import SUBSTEP_S, SUBSTEPS_PER_SECOND, FootSpace


def test_sub_steps_are_finer_than_two_kilohertz() -> None:
    assert SUBSTEPS_PER_SECOND >= 2000
    window = march.WINDOW * SUBSTEP_S
    assert window == pytest.approx(0.01, abs=1e-15)


def direct(scene: Scene, count: int) -> np.ndarray:
    """`count` sub-steps of the same scheme written out in numpy, elements evaluated at every single predicted pose."""
    space, model = scene._space, scene._model
    pose, speed = space.read()
    for _ in range(count):
        pose = pose + SUBSTEP_S * speed
        force = -evaluate(model, pose[:, None], scene.worst).gradient[:, 0]
        speed = space.decay * speed + SUBSTEP_S * force / space.inertia
    return pose


def disturbed(size: float) -> Scene:
    """A standing foot knocked: every freedom given a speed of about `size` mm/s, turns at the usual arm."""
    scene = Scene()
    speeds = size * np.random.default_rng(5).standard_normal(bodies.COUNT) * bodies.scales()
    scene._space.place(scene._model, scene._freedoms, speeds)
    return scene


@pytest.mark.parametrize("size", [100.0, 300.0, 600.0])
def test_looking_ahead_gives_what_single_evaluations_give(size: float) -> None:
    scene = disturbed(size)
    expected = direct(scene, march.WINDOW)
    scene._march.window(scene._model, scene.worst, np.zeros(bodies.COUNT))
    found, _ = scene._space.read()
    assert np.abs((found - expected) / bodies.scales()).max() < 0.01
    assert np.abs((expected - scene._freedoms) / bodies.scales()).max() > 0.2


@pytest.mark.parametrize("size", [30.0, 3000.0])
def test_one_matrix_foresees_what_single_sub_steps_foresee(
    size: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    scene = disturbed(size)
    space, one = scene._space, scene._march
    pose, speed = space.read()
    here = march._Laws.at(scene._model, pose[None], scene.worst)
    pull = np.linspace(-50.0, 50.0, bodies.COUNT)
    quickly = one._predict(here, pose, speed, pull, march.WINDOW)
    monkeypatch.setattr(march.March, "_under_one_law", lambda *_: None)
    slowly = one._predict(here, pose, speed, pull, march.WINDOW)
    assert quickly.shape == slowly.shape
    assert (len(slowly) < march.WINDOW) == (size > 1000.0)
    assert np.abs((quickly - slowly) / bodies.scales()).max() < 1e-9


def test_a_blow_too_hard_for_one_matrix_is_foreseen_step_by_step() -> None:
    scene = Scene()
    pose, speed = scene._space.read()
    here = march._Laws.at(scene._model, pose[None], scene.worst)
    blow = np.zeros(bodies.COUNT)
    blow[5] = 1e6
    assert scene._march._under_one_law(here, pose, speed, blow, march.WINDOW) is None
    foreseen = scene._march._predict(here, pose, speed, blow, march.WINDOW)
    kick = (foreseen[1] - foreseen[0]) / SUBSTEP_S - speed * scene._space.decay
    assert np.linalg.norm(kick / bodies.scales()) == pytest.approx(march.MOST_KICK_MM_PER_S, rel=1e-6)


def test_without_any_allowance_every_sub_step_is_evaluated_at_its_own_pose(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(march, "MOST_MISS_MM", 0.0)
    scene = disturbed(100.0)
    expected = direct(scene, march.WINDOW)
    scene._march.window(scene._model, scene.worst, np.zeros(bodies.COUNT))
    assert scene._march.looks == march.WINDOW
    found, _ = scene._space.read()
    # Joints make carried bodies' little mass felt by the bodies that carry them.
    assert np.abs((found - expected) / bodies.scales()).max() < 2e-3


@pytest.mark.parametrize("preset", ["sound", "pony", "failed_laminae"])
def test_energy_never_rises_when_nothing_drives_the_foot(preset: str) -> None:
    scene = Scene(Foot(preset))
    scene.grab((25.0, 30.0))
    scene.pull((25.0, 5.0))
    scene.settle(0.3)
    scene.release()
    energies = [scene.energy]
    for _ in range(20):
        scene.advance(0.01)
        energies.append(scene.energy)
    fall = energies[0] - energies[-1]
    assert fall > 10.0
    assert np.diff(energies).max() < 1e-6 * fall


def test_joints_keep_carried_bodies_in_place() -> None:
    scene = disturbed(200.0)
    for _ in range(5):
        scene._march.window(scene._model, scene.worst, np.zeros(bodies.COUNT))
    space = scene._space
    pose, _ = space.read()
    model = scene._model
    full = bodies.poses(pose[:, None], model.hinge_x, model.hinge_y)[:, 0]
    hinge = model.pivot["wall"][0] + full[[11, 12]]
    assert np.hypot(*(np.array(space.bodies["wall"].position) - hinge)) < 0.02
    for carried in ("p3", "navicular"):
        off = np.array(space.bodies[carried].position) - np.array(space.bodies["p2"].position)
        assert np.hypot(*off) < 0.01


def test_a_turn_tip_down_is_clockwise_in_the_engine() -> None:
    model = Scene()._model
    freedoms = np.zeros(bodies.COUNT)
    freedoms[2] = 0.1
    space = FootSpace(model, freedoms)
    body = space.bodies["p3"]
    assert body.angle == to_engine_angle(0.1) == -0.1
    assert space.read()[0][2] == pytest.approx(0.1, abs=1e-15)
    # A force that turns the tip down lowers it.
    force = np.zeros(bodies.COUNT)
    force[2] = 1.0e5
    before = body.local_to_world((50.0, -40.0)).y
    for _ in range(3):
        space.step(force)
    assert body.local_to_world((50.0, -40.0)).y < before


def test_no_body_has_a_collision_shape() -> None:
    space = Scene()._space.space
    assert not space.shapes
    assert space.collision_slop == 0.0


@pytest.mark.parametrize("preset", ["sound", "pony", "sunk", "failed_laminae"])
def test_sub_steps_stay_inside_the_limit_of_stability(preset: str) -> None:
    """An undamped mode of rate w (rad/s) is stable under this scheme while w h < 2."""
    for load_percent in (50, 150):
        found = Foot(preset, load_percent=load_percent).load("trot", 50)
        state = evaluate(found.model, found.equilibrium.freedoms, found.equilibrium.worst)
        space = FootSpace(found.model, found.equilibrium.freedoms[:, 0])
        root = 1.0 / np.sqrt(space.inertia)
        fastest = np.sqrt(np.linalg.eigvalsh(state.hessian[:, :, 0] * np.outer(root, root))[-1])
        assert fastest * SUBSTEP_S < 0.6 * 2.0
