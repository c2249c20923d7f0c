"""The wrapped tendon against a general multibody engine.

Problem: a cable from a fixed origin round a cylinder that swings about the joint to an insertion that swings about the same
joint. Referee: MuJoCo's spatial tendon with a cylinder to wrap on and a side site; its path finder is a different algorithm
(two-dimensional tangent construction by sign cases) and its levers come from the engine's own Jacobian. Both are exact
constructions in double precision, so they should agree to rounding: 1e-4 mm and 1e-4 mm/rad are asked, 1e-13 is usual.
"""

import mujoco
import numpy as np
import pytest

from hoofsim.mechanics.wrapping import path

POSES = 300
TOLERANCE_MM = 1e-4


def engine_for(origin, centre, insertion, radius):
    """The three points and the cylinder in the engine: two hinges about the joint's centre at its origin."""
    away = (-30.0, -40.0)  # palmar and distal of the navicular, where the tendon runs
    text = f"""
<mujoco><compiler angle="radian"/><worldbody>
  <site name="origin" pos="{origin[0]!r} 0 {origin[1]!r}"/>
  <body><joint type="hinge" axis="0 1 0"/><inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
    <geom name="arc" type="cylinder" size="{radius!r} 20" pos="{centre[0]!r} 0 {centre[1]!r}" euler="{np.pi / 2!r} 0 0"/>
    <site name="side" pos="{centre[0] + away[0]!r} 0 {centre[1] + away[1]!r}"/>
  </body>
  <body><joint type="hinge" axis="0 1 0"/><inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
    <site name="insertion" pos="{insertion[0]!r} 0 {insertion[1]!r}"/></body>
</worldbody>
<tendon><spatial><site site="origin"/><geom geom="arc" sidesite="side"/><site site="insertion"/></spatial></tendon>
</mujoco>"""
    return mujoco.MjModel.from_xml_string(text)


def by_engine(origin, centre, insertion, radius, turns):
    """Length and its two derivatives (navicular, bone) for each pair of turns (N, 2)."""
    engine = engine_for(origin, centre, insertion, radius)
    state, rows = mujoco.MjData(engine), []
    for pair in turns:
        state.qpos[:] = pair
        mujoco.mj_forward(engine, state)
        lever = np.zeros(2)
        lever[engine.ten_J_colind[: engine.ten_J_rownnz[0]]] = state.ten_J[: engine.ten_J_rownnz[0]]
        rows.append([state.ten_length[0], *lever])
    return np.array(rows)


def by_product(origin, centre, insertion, radius, turns):
    found = path(np.array(origin), np.array(centre), np.array(insertion), radius, turns[:, 0], turns[:, 1])
    return np.stack([found.length, found.d_navicular, found.d_p3], axis=-1), found.wrap


def random_cases():
    """Ten anatomies about the sound foot's, thirty poses each: 300 poses."""
    random = np.random.default_rng(20261125)
    for _ in range(10):
        shift = random.normal(0.0, 2.0, (3, 2))
        points = [
            tuple((np.array(point) + move).tolist())
            for point, move in zip(((-60.0, 43.6), (-13.0, -18.4), (6.1, -31.8)), shift, strict=True)
        ]
        # The navicular follows the bone to within a few degrees; beyond that the tendon would cross to the joint's side.
        bone = random.uniform(-0.6, 0.6, POSES // 10)
        turns = np.stack([bone + random.uniform(-0.12, 0.12, bone.size), bone], axis=-1)
        yield (*points, float(random.uniform(8.0, 12.5))), turns


def test_length_and_levers_agree_over_300_random_poses():
    wrapped = 0
    for case, turns in random_cases():
        mine, wrap = by_product(*case, turns)
        wrapped += np.count_nonzero(wrap > 0)
        np.testing.assert_allclose(mine, by_engine(*case, turns), rtol=0, atol=TOLERANCE_MM)
    assert wrapped > 200


MUTANTS = {
    "wrong sign of a lever": lambda rows: rows * [1.0, 1.0, -1.0],
    "radius of the surface, not of the centre line": None,
    "arc left out of the length": None,
    "lever of the bone alone, navicular's part lost": lambda rows: rows * [1.0, 0.0, 1.0],
}


@pytest.mark.parametrize("name", MUTANTS)
def test_the_check_sees_a_wrong_path(name):
    (origin, centre, insertion, radius), turns = next(random_cases())
    rows, wrap = by_product(origin, centre, insertion, radius, turns)
    if name.startswith("radius"):
        rows = by_product(origin, centre, insertion, radius - 3.0, turns)[0]
    elif name.startswith("arc"):
        rows = rows - np.stack([radius * wrap, 0 * wrap, 0 * wrap], axis=-1)
    else:
        rows = MUTANTS[name](rows)
    with pytest.raises(AssertionError):
        np.testing.assert_allclose(
            rows, by_engine(origin, centre, insertion, radius, turns), rtol=0, atol=TOLERANCE_MM
        )
