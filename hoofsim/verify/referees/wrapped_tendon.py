"""The wrapped tendon against a general multibody engine.

Problem: a cable from a fixed origin round a cylinder that swings about the joint to an insertion that swings about the same
joint. Referee: MuJoCo's spatial tendon with a cylinder to wrap on and a side site; its path finder is a different algorithm
(two-dimensional tangent construction by sign cases) and its levers come from the engine's own Jacobian.
"""

from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np

from hoofsim.frames import Array
from hoofsim.mechanics.wrapping import path

Point = tuple[float, float]

POSES = 300


class Anatomy(NamedTuple):
    """Origin, arc's centre and insertion in mm from the joint's centre; the arc's radius in mm."""

    origin: Point
    centre: Point
    insertion: Point
    radius: float


def engine_for(one: Anatomy) -> Any:
    """The three points and the cylinder in the engine: two hinges about the joint's centre at its origin."""
    import mujoco

    # The side on which the tendon runs: palmar and distal of the navicular.
    side = (one.centre[0] - 30.0, one.centre[1] - 40.0)
    body = '<joint type="hinge" axis="0 1 0"/><inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>'
    text = f"""
<mujoco><compiler angle="radian"/><worldbody>
  <site name="origin" pos="{one.origin[0]!r} 0 {one.origin[1]!r}"/>
  <body>{body}
    <geom name="arc" type="cylinder" size="{one.radius!r} 20" pos="{one.centre[0]!r} 0 {one.centre[1]!r}"
          euler="{np.pi / 2!r} 0 0"/>
    <site name="side" pos="{side[0]!r} 0 {side[1]!r}"/>
  </body>
  <body>{body}<site name="insertion" pos="{one.insertion[0]!r} 0 {one.insertion[1]!r}"/></body>
</worldbody>
<tendon><spatial><site site="origin"/><geom geom="arc" sidesite="side"/><site site="insertion"/></spatial></tendon>
</mujoco>"""
    return mujoco.MjModel.from_xml_string(text)


def by_engine(one: Anatomy, turns: Array) -> Array:
    """Length (mm) and its two derivatives (mm/rad; navicular, bone) for each pair of turns (N, 2), as (N, 3)."""
    import mujoco

    engine = engine_for(one)
    state, rows = mujoco.MjData(engine), []
    for pair in turns:
        state.qpos[:] = pair
        mujoco.mj_forward(engine, state)
        lever = np.zeros(2)
        count = engine.ten_J_rownnz[0]
        lever[engine.ten_J_colind[:count]] = state.ten_J[:count]
        rows.append([state.ten_length[0], *lever])
    return np.array(rows)


def by_program(one: Anatomy, turns: Array) -> tuple[Array, Array]:
    """The same from `hoofsim.mechanics.wrapping`, and the wrapped angle (N,)."""
    origin, centre, insertion = (np.array(point) for point in (one.origin, one.centre, one.insertion))
    found = path(origin, centre, insertion, np.array(one.radius), turns[:, 0], turns[:, 1])
    return np.stack([found.length, found.d_navicular, found.d_p3], axis=-1), found.wrap


def random_cases() -> Iterator[tuple[Anatomy, Array]]:
    """Ten anatomies about the sound foot's, thirty poses (30, 2) each: 300 poses, the same ones every time."""
    random = np.random.default_rng(20261125)
    for _ in range(10):
        shift = random.normal(0.0, 2.0, (3, 2))
        around = np.array([(-60.0, 43.6), (-13.0, -18.4), (6.1, -31.8)]) + shift
        # The navicular follows the bone to within a few degrees; beyond that the tendon would cross to the joint's side.
        bone = random.uniform(-0.6, 0.6, POSES // 10)
        turns = np.stack([bone + random.uniform(-0.12, 0.12, bone.size), bone], axis=-1)
        origin, centre, insertion = ((float(x), float(y)) for x, y in around)
        yield Anatomy(origin, centre, insertion, float(random.uniform(8.0, 12.5))), turns


def largest_difference() -> float:
    """Over all poses, of length (mm) and levers (mm/rad)."""
    return max(
        float(np.abs(by_program(one, turns)[0] - by_engine(one, turns)).max())
        for one, turns in random_cases()
    )
