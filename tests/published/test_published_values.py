"""Every published value against the model: computed now, placed in or out of its spread, and pinned as recorded.

The table (`assets/published_values.csv`) says for each value its source and status; those from memory, from practice and at
second hand are marked in this test's ids, as in every printout. A predicted value recorded as outside is a finding: if it
ever comes inside, or an inside one falls out, this test fails, and the record, the page and the paragraph must follow.
"""

import pytest

from hoofsim.errors import NoEquilibrium
from hoofsim.foot import landmarks
from hoofsim.mechanics import loads, posture
from hoofsim.verify.compare import STANDING_MEASURES, Comparison, compute
from hoofsim.verify.findings import findings
from hoofsim.verify.published import KINDS, UNREAD, published
from hoofsim.verify.quantities.registry import QUANTITIES
from hoofsim.verify.quantities.stance import stance
from hoofsim.verify.quantities.standing import standing
from hoofsim.verify.wording import cited

OUTSIDE = {
    "coffin_flexion_per_degree",
    "trot_coffin_moment",
    "walk_tendon_strain",
    "walk_breakover_share",
    "heel_joint_force_change",
    "heel_laminar_energy",
    "long_toe_trot",
    "capsular_rotation_small_horses",
    "trim_ground_length",
}


def label(one):
    mark = f" [{one.mark}]" if one.mark else ""
    return f"{one.id} ({one.kind}){mark}"


@pytest.mark.parametrize("one", published(), ids=label)
def test_value_is_where_the_record_says(one):
    row = compute(one)
    said = f"{one.what}: model {row.model:g}, world {one.value:g} from {one.low:g} to {one.high:g} {one.unit}, {cited(one)}"
    assert row.inside == (one.id not in OUTSIDE), said


def test_every_row_has_a_function_and_every_function_a_row():
    assert {one.id for one in published()} == set(QUANTITIES)


def test_every_row_outside_has_its_paragraph_and_no_other():
    assert set(findings()) == OUTSIDE
    assert all(len(text) > 150 for text in findings().values())


def test_unread_values_are_marked_wherever_their_source_is_named():
    unread = [one for one in published() if one.status in UNREAD]
    assert {one.status for one in unread} == {"memory", "practice", "second-hand"}
    for one in unread:
        assert UNREAD[one.status] in cited(one)


def test_both_kinds_are_there_and_the_wedge_is_a_prediction():
    assert {one.kind for one in published()} == set(KINDS)
    wedge = next(one for one in published() if one.id == "wedge_navicular_change")
    assert wedge.kind == "predicted"
    assert compute(wedge).model == pytest.approx(-25.3, abs=0.5)


@pytest.mark.parametrize("shift", [-1.001, 1.001])
def test_a_value_just_beyond_the_spread_is_outside(shift):
    one = published()[0]
    beyond = 0.5 * (one.low + one.high) + shift * 0.5 * (one.high - one.low)
    assert not Comparison(one, beyond).inside
    assert Comparison(one, one.value).inside
    assert Comparison(one, beyond).distance == pytest.approx(shift)


@pytest.fixture
def fresh():
    """Solved stances and feet are kept between rows; a mutant must meet none of them, and leave none behind."""
    stance.cache_clear()
    standing.cache_clear()
    yield
    stance.cache_clear()
    standing.cache_clear()


@pytest.mark.parametrize(
    ("module", "constant", "wrong", "row"),
    [
        (posture, "COFFIN_FLEXION", -0.98, "wedge_navicular_change"),
        (posture, "COFFIN_FLEXION", 0.5, "wedge_navicular_change"),
        (loads, "FETLOCK_DEG_PER_N_PER_KG", 0.0, "walk_tendon_force"),
        (loads, "FETLOCK_DEG_PER_N_PER_KG", 7.0, "trot_navicular_force"),
        (landmarks, "TENDON_HALF_THICKNESS_MM", 14.0, "standing_navicular_load"),
    ],
    ids=["wrong sign", "lost slope", "lost fetlock", "doubled fetlock", "wrong lever"],
)
def test_seen_red_with_a_wrong_model(fresh, monkeypatch, module, constant, wrong, row):
    """The inside verdicts are not given away: one wrong constant and the row falls out, or the foot finds no rest."""
    monkeypatch.setattr(module, constant, wrong)
    one = next(one for one in published() if one.id == row)
    try:
        assert not compute(one).inside
    except NoEquilibrium:
        return


def test_a_plain_standing_measure_carries_the_models_own_band():
    rows = {one.id: compute(one) for one in published() if one.id in STANDING_MEASURES}
    assert set(rows) == set(STANDING_MEASURES)
    for row in rows.values():
        low, high = row.band
        assert low < row.model < high
    assert Comparison(next(one for one in published() if one.id == "trot_coffin_moment"), 1.0).band is None
