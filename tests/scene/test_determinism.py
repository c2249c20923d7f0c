"""The same foot, seed and acts give the same numbers to the last bit: another process, frame rate or replay."""

import subprocess
import sys

import numpy as np

from hoofsim import Foot
from hoofsim.scene import Scene

SCRIPT = """
from hoofsim import Foot
from hoofsim.scene import Scene
scene = Scene(Foot("long_toe_low_heel"), seed=7)
scene.change(heel_change_mm=4, laminae_percent=60)
for _ in range(9):
    scene.advance(1 / 60)
scene.grab((40, 30)); scene.pull((50, 60))
for _ in range(9):
    scene.advance(1 / 60)
scene.release(); scene.set_load("walk", 70); scene.play(1.0)
for _ in range(60):
    scene.advance(1 / 60)
print(scene.loaded.equilibrium.freedoms.tobytes().hex(), scene.worst.tobytes().hex())
"""


def run_once(script: str) -> str:
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return done.stdout


def test_two_processes_agree_to_the_last_bit() -> None:
    assert run_once(SCRIPT) == run_once(SCRIPT)


def test_another_seed_walks_another_stride() -> None:
    heights = []
    for seed in (0, 1):
        scene = Scene(Foot(), "walk", seed=seed, stance_percent=95)
        scene.play(1.0)
        for _ in range(24):
            scene.advance(0.01)
        heights.append(scene.loaded.lift_mm)
    assert heights[0] != heights[1]


def watched(frames: list[float]) -> tuple[int, bytes, bytes]:
    """A scene advanced by `frames`, s, and its state after them."""
    scene = Scene(Foot("pony"), "trot", stance_percent=10)
    scene.play(0.5)
    for seconds in frames:
        scene.advance(seconds)
    return scene.windows, scene.loaded.equilibrium.freedoms.tobytes(), scene.worst.tobytes()


def test_a_jittered_run_equals_a_regular_one_bit_for_bit() -> None:
    random = np.random.default_rng(3)
    regular = [0.0125] * 60
    jittered = random.dirichlet(np.full(97, 2.0)) * 0.75
    # Whole nanoseconds, as the clock counts them, so that both runs last equally long.
    jittered = np.round(jittered, 9)
    jittered[-1] += 0.75 - jittered.sum()
    assert watched(regular) == watched(jittered.tolist())


def test_a_run_of_another_length_differs() -> None:
    assert watched([0.0125] * 60) != watched([0.0125] * 61)


def test_a_snapshot_replays_to_the_same_bits_and_goes_on_alike() -> None:
    scene = Scene(Foot("overgrown_heel"), seed=2)
    scene.change(wedge_deg=3)
    scene.advance(0.1)
    scene.grab((20.0, 30.0))
    scene.pull((25.0, 10.0))
    scene.advance(0.07)
    scene.release()
    scene.set_load("trot", 30)
    scene.play(0.7)
    scene.advance(0.2)
    again = Scene.replay(scene.snapshot())
    assert again.windows == scene.windows
    # A snapshot keeps whole windows: let both run on from one.
    for one in (scene, again):
        one.settle(0.07)
    assert again.worst.tobytes() == scene.worst.tobytes()
    assert again.energy == scene.energy
    assert again.snapshot() == scene.snapshot()


def test_pictures_between_two_windows_lie_between_them() -> None:
    scene = Scene()
    scene.change(load_percent=140)
    for _ in range(8):
        scene.advance(0.01)
    start = scene.loaded.points["cor"][1]
    scene.advance(0.005)
    middle = scene.loaded.points["cor"][1]
    scene.advance(0.005)
    end = scene.loaded.points["cor"][1]
    assert end < middle < start
    assert np.isclose(middle, 0.5 * (start + end), rtol=0, atol=1e-9)


def test_pulls_between_two_windows_are_remembered_as_one() -> None:
    scene = Scene()
    scene.grab((30.0, 30.0))
    for x in (31.0, 32.0, 33.0):
        scene.pull((x, 30.0))
    scene.advance(0.01)
    scene.pull((34.0, 30.0))
    assert [(act.window, act.name) for act in scene.snapshot().acts] == [
        (0, "grab"),
        (0, "pull"),
        (1, "pull"),
    ]
    assert dict(scene.snapshot().acts[1].values) == {"point": (33.0, 30.0)}
