"""Grab and pull: the right part, a bounded force, the right moment, and nothing left behind after letting go."""

import numpy as np
import pytest

from hoofsim.errors import BadInput
from hoofsim.mechanics import bodies
from hoofsim.scene import Scene
from hoofsim.scene.grab import MOST_PULL_N, Hold


@pytest.mark.parametrize(
    ("landmark", "body"),
    [("navicular_flexor", "navicular"), ("p2_dorsal_proximal", "p2"), ("toe_hairline", "wall"), ("heel_hairline", "border")],
)  # fmt: skip
def test_the_part_under_the_pointer_is_taken(landmark: str, body: str) -> None:
    scene = Scene()
    points = scene.loaded.points
    inward = 0.04 * (points["solar_arch"] - points[landmark])
    assert scene.grab(points[landmark] + inward) == body
    assert scene.held == body


def test_a_pointer_off_the_foot_takes_the_nearest_part() -> None:
    assert Scene().grab((140.0, 0.0)) == "wall"


@pytest.mark.parametrize("reach", [1.0, 20.0, 500.0])
def test_the_pull_points_at_the_pointer_and_is_bounded(reach: float) -> None:
    scene = Scene()
    at = scene.loaded.points["solar_arch"]
    assert scene.grab(at) == "p3"
    scene.pull(at + (0.0, reach))
    hand = scene.hand
    assert hand is not None
    assert np.hypot(*hand.force) <= MOST_PULL_N * (1 + 1e-12)
    assert hand.force[1] > 0
    assert abs(hand.force[0]) < 1e-6 * hand.force[1]


def test_even_a_wild_pull_leaves_the_numbers_finite() -> None:
    scene = Scene()
    scene.grab(scene.loaded.points["tip"])
    for k in range(12):
        scene.pull((1e4 * (-1) ** k, 1e4))
        scene.advance(0.05)
    assert all(np.isfinite(at).all() for at in scene.loaded.points.values())


@pytest.mark.parametrize("body", ["p2", "p3", "navicular", "border", "plate", "wall"])
def test_generalised_forces_do_the_work_of_the_pull(body: str) -> None:
    """Virtual work: the pull times the held point's own motion, by central differences of the pose."""
    scene = Scene()
    model, freedoms = scene._model, scene._freedoms + 0.01
    point = model.rest.points["solar_arch"][0]
    hold = Hold(body, point, point + np.array([7.0, 11.0]))
    at, force = hold.force(model, freedoms)
    assert np.hypot(*(at - point)) > 0
    step = 1e-6
    expected = np.zeros(bodies.COUNT)
    for i in range(bodies.COUNT):
        shift = np.zeros(bodies.COUNT)
        shift[i] = step
        there, back = (hold.force(model, freedoms + sign * shift)[0] for sign in (1, -1))
        expected[i] = force @ (there - back) / (2 * step)
    assert np.allclose(hold.generalised(model, freedoms), expected, rtol=1e-6, atol=1e-4)


def test_pulling_a_bone_down_lowers_it_and_letting_go_brings_it_back() -> None:
    scene = Scene()
    before = scene.loaded.points["tip"][1]
    at = scene.loaded.points["solar_arch"]
    scene.grab(at)
    scene.pull(at - (0.0, 30.0))
    scene.settle(0.3)
    assert scene.loaded.points["tip"][1] < before - 0.3
    scene.release()
    assert scene.hand is None
    assert scene.settle(5.0)
    assert scene.loaded.points["tip"][1] == pytest.approx(before, abs=0.01)


def test_nothing_held_cannot_be_pulled() -> None:
    with pytest.raises(BadInput, match="grab a part"):
        Scene().pull((0.0, 0.0))
