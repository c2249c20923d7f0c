"""The assembled energy: gradient and Hessian by complex step over random feet, poses and histories; rigid moves."""

import numpy as np
import pytest

from hoofsim.foot.parameters import BY_NAME
from hoofsim.mechanics import bodies
from hoofsim.mechanics.assembly import evaluate, no_history, slope
from hoofsim.mechanics.linear import solve_symmetric
from hoofsim.mechanics.model import take
from tests.mechanics.complex_step import STEP, largest_error
from tests.mechanics.feet import model

SPREAD = np.array([1, 2, 0.05, 0.05, 1, 1, 0.03, 1, 1, 0.03, 0.03])[:, None]


@pytest.mark.parametrize("case", ["standing", "suspended"])
@pytest.mark.parametrize("bed", [0.0, 20.0])
def test_exact_gradient_and_hessian(case: str, bed: float) -> None:
    rng = np.random.default_rng(11)
    count = 40
    changes = {
        name: rng.uniform(max(BY_NAME[name].low, -10), min(BY_NAME[name].high, 100), count)
        for name in ("laminae_percent", "quarters_percent", "sole_to_bone_percent", "sole_to_wall_percent",
                     "heel_change_mm", "toe_change_mm", "wedge_deg")
    }  # fmt: skip
    feet = model(case, count, bed_depth_mm=bed, **changes)
    history = no_history(feet) + rng.uniform(0.0, 0.7, no_history(feet).shape)
    freedoms = rng.normal(size=(bodies.COUNT, count)) * SPREAD * rng.choice([1.0, 6.0], count)
    # The navicular stays near the bone, or the insertion would lie inside its arc.
    freedoms[3] = freedoms[2] + rng.uniform(-0.05, 0.05, count)
    claimed = evaluate(feet, freedoms, history)
    for row in range(bodies.COUNT):
        stepped = freedoms.astype(complex)
        stepped[row] += 1j * STEP
        energy, gradient = slope(feet, stepped, history)
        assert largest_error(claimed.gradient[row], energy.imag / STEP) < 1e-10
        for column in range(bodies.COUNT):
            true = gradient[column].imag / STEP
            assert np.abs(claimed.hessian[row, column] - true).max() < 1e-9 * np.abs(claimed.hessian).max()


def test_a_free_foot_carried_rigidly_keeps_its_energy() -> None:
    """Nothing but the ground, the limb's hold and weight may notice a rigid move of all bodies about the joint."""
    feet = model("suspended")
    turn, arm = 0.2, {body: feet.pivot[body][0] - feet.pivot["p3"][0] for body in ("border", "plate", "wall")}

    def carried(angle: float) -> np.ndarray:
        q = np.zeros((bodies.COUNT, 1))
        q[[2, 3, 6, 9, 10], 0] = angle
        for body, row in (("border", 4), ("plate", 7)):
            x, y = arm[body]
            q[row, 0] = np.cos(angle) * x + np.sin(angle) * y - x
            q[row + 1, 0] = -np.sin(angle) * x + np.cos(angle) * y - y
        return q

    energies = []
    for angle in (0.0, turn):
        q = carried(angle)
        energy, _ = slope(feet, q, no_history(feet))
        weight = feet.border_weight * q[5] + feet.plate_weight * q[8]
        energies.append(float((energy - weight)[0]))
    limb_only = energies[1] - energies[0]
    # What is left is stored in the lines to the limb (tendon slack here, extensor and sesamoidean stretched).
    assert 0.0 < limb_only < 4e4
    pose = bodies.poses(carried(turn), feet.hinge_x, feet.hinge_y)
    x, y = arm["wall"]
    assert pose[11, 0] == pytest.approx(np.cos(turn) * x + np.sin(turn) * y - x)
    assert pose[12, 0] == pytest.approx(-np.sin(turn) * x + np.cos(turn) * y - y)


def test_a_foot_does_not_feel_its_neighbours() -> None:
    feet = model(count=5, heel_change_mm=[-5, 0, 5, 10, 15])
    freedoms = np.full((bodies.COUNT, 5), -0.01)
    together = evaluate(feet, freedoms, no_history(feet))
    for foot in range(5):
        alone = take(feet, np.array([foot]))
        single = evaluate(alone, freedoms[:, :1], no_history(alone))
        assert single.energy[0] == together.energy[foot]
        assert np.array_equal(single.hessian[:, :, 0], together.hessian[:, :, foot])


def test_symmetric_solver_against_numpy() -> None:
    rng = np.random.default_rng(3)
    root = rng.normal(size=(7, 11, 11))
    matrix = root @ root.transpose(0, 2, 1) + np.eye(11)
    right = rng.normal(size=(7, 11))
    found, pivots = solve_symmetric(matrix.transpose(1, 2, 0).copy(), right.T.copy())
    assert np.allclose(found.T, np.linalg.solve(matrix, right[..., None])[..., 0], rtol=1e-9)
    assert (pivots > 0).all()
    matrix[3] -= 40 * np.eye(11)
    assert solve_symmetric(matrix.transpose(1, 2, 0).copy(), right.T.copy())[1][:, 3].min() < 0
