"""A settled scene lies on the equilibrium that the solver finds on its own, by whatever way it came there.

Problem: a preset stands; its controls change to random ones and its load to another; the bodies march until they rest.
Known solution: `Foot.load`, Newton's minimum of the same energy from its own start, without the scene's history.
"""

import numpy as np
import pytest

from hoofsim import Foot
from hoofsim.foot.presets import PRESETS
from hoofsim.mechanics.bodies import TURNS
from hoofsim.scene import Scene

MOST_MM, MOST_DEG, MOST_TENSION_SHARE = 0.05, 0.05, 0.005
FEET = 12

# Moderate ranges, where a foot has a state of rest.
MODERATE = {
    "hoof_angle_deg": (49, 56), "heel_change_mm": (-6, 12), "toe_change_mm": (-6, 18), "wedge_deg": (-3, 6),
    "sole_change_mm": (-2, 2), "laminae_percent": (40, 100), "laminae_distal_percent": (40, 100),
    "quarters_percent": (50, 100), "sole_to_bone_percent": (50, 100), "sole_to_wall_percent": (50, 100),
    "tendon_pull_percent": (50, 160), "tendon_tone_n": (0, 300), "load_percent": (50, 130),
    "posture_spring_n_per_mm": (3, 30), "laminar_large_modulus_mpa": (5, 11), "friction": (0.4, 0.9),
}  # fmt: skip


def random_foot(random: np.random.Generator) -> Foot:
    """Any preset, with every moderate control drawn evenly from its range."""
    preset = str(random.choice(list(PRESETS)))
    return Foot(preset, **{name: float(random.uniform(low, high)) for name, (low, high) in MODERATE.items()})


def misses(scene: Scene, case: str, stance_percent: float | None = None) -> tuple[float, float, float]:
    """How far the settled scene is from the solver's answer: mm, degrees, share of the tendon's tension."""
    found = scene.foot.load(case, stance_percent)
    assert found.at_rest
    shown = scene.loaded
    off = np.abs(shown.equilibrium.freedoms - found.equilibrium.freedoms)[:, 0]
    turns = list(TURNS)
    tension, expected = (foot.outputs.mechanics["tendon_tension"][0] for foot in (shown, found))
    return (
        float(np.delete(off, turns).max()),
        float(np.degrees(off[turns].max())),
        float(abs(tension - expected) / max(expected, 1.0)),
    )


@pytest.mark.parametrize("number", range(FEET))
def test_a_settled_foot_is_the_equilibrium(number: int) -> None:
    random = np.random.default_rng([2400, number])
    foot, case = random_foot(random), str(random.choice(["standing", "other_lifted"]))
    scene = Scene(Foot(foot.preset))
    scene.set_load(case)
    scene.change(**foot.changes)
    assert scene.settle(8.0)
    mm, degrees, share = misses(scene, case)
    assert mm < MOST_MM
    assert degrees < MOST_DEG
    assert share < MOST_TENSION_SHARE


def test_the_check_would_see_a_foot_that_has_not_arrived() -> None:
    scene = Scene()
    scene.change(heel_change_mm=8)
    scene.settle(0.05)
    assert max(misses(scene, "standing")[:2]) > MOST_MM


@pytest.mark.parametrize("case", ["walk", "trot"])
def test_a_paused_stride_settles_on_the_stance_it_was_paused_in(case: str) -> None:
    scene = Scene(Foot(), case, stance_percent=20)
    scene.play(1.0)
    for _ in range(12):
        scene.advance(0.01)
    scene.pause()
    assert scene.settle(8.0)
    mm, degrees, share = misses(scene, case, scene.stance_percent)
    assert mm < MOST_MM
    assert degrees < MOST_DEG
    assert share < MOST_TENSION_SHARE


def test_a_foot_dragged_away_and_let_go_comes_back_to_its_place() -> None:
    scene = Scene()
    scene.grab((30.0, 30.0))
    scene.pull((75.0, 30.0))
    scene.settle(0.6)
    assert abs(scene.loaded.points["cor"][0] - scene.loaded.rest_points["cor"][0]) > 5.0
    scene.release()
    assert scene.settle(10.0)
    assert misses(scene, "standing")[0] < MOST_MM


def test_a_foot_hung_up_and_put_down_again_stands_as_before() -> None:
    scene = Scene()
    scene.set_load("suspended")
    assert scene.settle(8.0)
    assert max(misses(scene, "suspended")[:2]) < MOST_MM
    scene.set_load("standing")
    assert scene.settle(8.0)
    assert max(misses(scene, "standing")[:2]) < MOST_MM


def test_a_foot_whose_sole_lies_flat_and_stiff_on_the_ground_settles_too() -> None:
    """The plate is light: under its usual weight this contact would be too stiff for a sub-step, and rattle for ever."""
    values = {
        "hoof_angle_deg": 54.946, "heel_change_mm": -0.924, "toe_change_mm": 17.03, "sole_change_mm": -0.392,
        "wedge_deg": -1.203, "laminae_percent": 46.848, "laminae_distal_percent": 73.937, "quarters_percent": 86.133,
        "sole_to_bone_percent": 84.382, "sole_to_wall_percent": 50.359, "tendon_pull_percent": 158.072,
        "tendon_tone_n": 93.003, "load_percent": 109.311, "posture_spring_n_per_mm": 28.018,
        "laminar_large_modulus_mpa": 9.681, "friction": 0.662,
    }  # fmt: skip
    scene = Scene(Foot("steep"))
    scene.set_load("other_lifted")
    scene.change(**values)
    assert scene.settle(4.0)
    mm, degrees, share = misses(scene, "other_lifted")
    assert mm < MOST_MM
    assert degrees < MOST_DEG
    assert share < MOST_TENSION_SHARE
