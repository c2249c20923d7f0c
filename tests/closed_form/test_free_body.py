"""The free body of the foot below the coffin joint, over a grid of cases.

Problem: cut the foot from the limb at the coffin joint. On it act the ground's resultant, the weight of the horn, the deep
flexor tendon, the extensor tendon, the navicular's ligaments from the limb, and the joint's own force, which has no moment
about its centre. Solution (moment balance; the form used for live horses, F4): tendon tension times its lever, less
extensor, plus the small terms, equals ground force times its lever. The grid crosses trims, wedges, bonds, loads and gaits;
every state of rest must close to 1e-5 of the load times 30 mm, ten times the solver's own tolerance.
"""

import itertools

import numpy as np
import pytest

from hoofsim.mechanics.assembly import line_pulls
from hoofsim.mechanics.model import LINES
from hoofsim.model import Foot
from tests.closed_form.seen_red import must_fail

GRID = [
    *itertools.product(
        ("sound", "long_toe_low_heel", "pony"),
        (-4.0, 0.0, 3.0),
        (("standing", None), ("trot", 50.0), ("walk", 80.0)),
    ),
    *itertools.product(("failed_laminae", "sunk"), (0.0, 2.0), (("standing", None), ("other_lifted", None))),
]


def moments(loaded):
    """Moments about the coffin joint in N mm, tip down positive, by name."""
    read, poses, model = loaded.measures(), loaded.poses, loaded.model
    joint = loaded.points["cor"]
    ground = loaded.forces["ground"]
    law, first, _ = line_pulls(model, loaded.equilibrium.freedoms)
    rows = list(LINES)

    def pulled(name):
        row = rows.index(name)
        return -float(law.force[row, 0] * first[row, 0])

    def weighs(body, newtons):
        pose = poses[body]
        return newtons * (pose.pivot[0] + pose.x - joint[0])

    return {
        "ground": -read["ground_force_lever"] * float(np.hypot(*ground.force)),
        "tendon": read["tendon_tension"] * read["tendon_lever"],
        "extensor": pulled("extensor"),
        "navicular ligaments": pulled("sesamoidean"),
        "border": weighs("border", float(model.border_weight[0])),
        "plate": weighs("plate", float(model.plate_weight[0])),
    }


def check(law, cases=GRID):
    for preset, wedge, (case, percent) in cases:
        loaded = Foot(preset, wedge_deg=wedge).load(case, percent)
        assert loaded.status == "converged", (preset, wedge, case)
        total = sum(law(loaded).values())
        assert abs(total) < 1e-5 * 30.0 * float(loaded.model.force[0]), (preset, wedge, case)


def test_moments_about_the_coffin_joint_close_over_the_grid():
    check(moments)


def test_tendon_and_ground_are_the_two_ends_of_the_balance():
    """What the small terms add is under a tenth of the ground's moment where the tendon is taut."""
    told = moments(Foot("sound").load("trot", 50.0))
    assert told["tendon"] == pytest.approx(-told["ground"], rel=0.1)


def mutant(name, change):
    def law(loaded):
        told = moments(loaded)
        return told | {name: change(told[name])}

    return law


@pytest.mark.parametrize(
    "wrong",
    [
        mutant("tendon", lambda m: -m),
        mutant("tendon", lambda m: 1.01 * m),
        mutant("ground", lambda m: m * 30.0 / 31.0),
        mutant("extensor", lambda m: 0.0),
        mutant("plate", lambda m: -m),
    ],
    ids=["wrong sign", "tendon lever 1 % long", "ground lever short", "extensor lost", "weight's sign"],
)
def test_seen_red(wrong):
    must_fail(lambda law: check(law, GRID[1:3]), wrong)
