"""States of rest: balance, stability, honesty over the whole control space, memory of damage."""

import numpy as np
import pytest

from hoofsim.foot.presets import PRESETS
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.assembly import no_history
from hoofsim.mechanics.audit import audit, unbalanced
from hoofsim.mechanics.equilibrium import CONVERGED, STATUSES, TORN, bond_damage, solve, strains
from hoofsim.mechanics.loads import CASES, load_case
from hoofsim.mechanics.model import build, take
from hoofsim.mechanics.outputs import observe
from tests.mechanics.feet import hypercube, model


@pytest.mark.parametrize("foot", PRESETS)
@pytest.mark.parametrize("case", CASES)
def test_every_ready_foot_rests_under_every_load_and_its_free_bodies_balance(foot: str, case: str) -> None:
    feet = model(case, foot=foot)
    found = solve(feet)
    assert found.status[0] == CONVERGED
    assert found.residual[0] < 1e-6 * max(feet.force[0], 50.0)
    assert unbalanced(feet, found.freedoms, found.worst) == []
    assert found.trace[-1] <= 1e-6


def test_the_audit_sees_a_foot_out_of_balance() -> None:
    feet = model()
    found = solve(feet)
    nudged = found.freedoms.copy()
    nudged[2] += 1e-5
    assert {row.body for row in unbalanced(feet, nudged, found.worst)} >= {"P3 about the coffin joint"}
    assert len(audit(feet, nudged, found.worst)) == 11


def test_balance_holds_the_load_on_the_ground() -> None:
    """Free body of the whole foot: the ground carries what was measured under standing horses, 29 % of body weight (F1)."""
    feet = model(wedge_deg=4.0)
    found = solve(feet)
    ground = observe(feet, found.freedoms, found.worst).forces["ground"].force[0]
    weight = 0.29 * 9.81 * 500.0
    assert ground[1] == pytest.approx(weight, rel=1e-6)


def test_whole_control_space_ends_honestly() -> None:
    """A short form of the 5,000-foot hypercube: none raises, none gives NaN, 99 % of those with a bond left converge."""
    count, converged, eligible = 200, 0, 0
    for seed, case in enumerate(CASES):
        spread = hypercube(count, seed + 20)
        feet = build(spread, load_case(case))
        found = solve(feet)
        assert np.isfinite(found.freedoms).all()
        assert set(found.status) <= set(STATUSES)
        attached = feet.stations.attached[places.BONDED].max(axis=0) > 0.05
        eligible += int(attached.sum())
        converged += int((found.status[attached] == CONVERGED).sum())
    assert converged >= 0.99 * eligible


def test_answers_do_not_depend_on_neighbours_or_order() -> None:
    feet = model("trot", 6, laminae_percent=[100, 60, 30, 20, 10, 100], heel_change_mm=[0, 5, 10, -5, 0, 0])
    together = solve(feet)
    order = np.array([4, 2, 0, 5, 1, 3])
    shuffled = solve(take(feet, order))
    assert np.array_equal(shuffled.freedoms, together.freedoms[:, order])
    assert np.array_equal(together.freedoms[:, 0], together.freedoms[:, 5]), "the same foot twice"
    alone = solve(take(feet, np.array([3])))
    assert np.abs(alone.freedoms[:, 0] - together.freedoms[:, 3]).max() < 1e-7


def test_a_big_batch_is_the_same_as_small_ones() -> None:
    heels = np.linspace(-5, 15, 800)
    whole = solve(model(count=800, heel_change_mm=heels))
    some = np.array([0, 383, 384, 799])
    parts = solve(model(count=4, heel_change_mm=heels[some]))
    assert np.abs(whole.freedoms[:, some] - parts.freedoms).max() < 1e-6


def test_damage_is_done_by_load_and_stays_when_the_load_goes() -> None:
    weak = {"laminae_percent": 25.0, "quarters_percent": 20.0}
    hard, soft = model("trot", **weak), model("standing", **weak)
    first = solve(hard)
    torn = bond_damage(hard, first.worst)
    assert torn.max() > 0.05
    fresh, scarred = solve(soft), solve(soft, worst=first.worst)
    assert (scarred.worst >= first.worst).all()
    assert bond_damage(soft, fresh.worst).max() < torn.max()
    assert scarred.freedoms[1, 0] < fresh.freedoms[1, 0], "a scarred foot sinks further under the same load"
    assert np.array_equal(solve(hard, worst=scarred.worst).worst, scarred.worst) or (
        np.abs(solve(hard, worst=scarred.worst).worst - scarred.worst).max() < 1e-6
    ), "loading again to the same load tears nothing more"


def test_history_covers_every_bonded_station() -> None:
    feet = model()
    found = solve(feet)
    assert no_history(feet).shape == found.worst.shape
    assert np.array_equal(found.worst, strains(feet, found.freedoms))


def test_torn_through_is_said() -> None:
    spread = hypercube(400, 3)
    spread |= {
        name: np.full(400, 4.0) for name in ("laminae_percent", "quarters_percent", "sole_to_bone_percent")
    }
    found = solve(build(spread, load_case("trot")))
    lost = found.status != CONVERGED
    assert np.isfinite(found.freedoms).all()
    if lost.any():
        assert TORN in set(found.status[lost])


def test_a_small_load_reaches_the_same_rest_from_another_start() -> None:
    feet = model(laminae_percent=40.0)
    usual = solve(feet)
    other = solve(feet, start=usual.freedoms * 1.6 - 0.02)
    assert np.abs(other.freedoms - usual.freedoms).max() < 1e-6
