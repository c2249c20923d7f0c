"""Errors carried through, traps caught, and the right account named as often as the readings allow."""

import numpy as np
import pytest

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.propagation import measured
from hoofsim.claims.evidence.summary import paragraph, weigh_table
from hoofsim.claims.evidence.weighing import weigh
from hoofsim.claims.wording import verdict
from hoofsim.measures import measure_all
from tests.claims.evidence.tables import cases_of, films, good_rows


def pairs(account="slide_through", cases=1, **more):
    return paired(films(account, cases, **more), "t")


def test_propagated_errors_are_those_of_many_readings_of_one_film():
    """The covariance of 4,000 simulated re-readings of the two films, against the one that was propagated."""
    (case,) = pairs(seed=3)
    names, _, covariance = measured([case])[0].change
    random = np.random.default_rng(5)
    readings = []
    for film in (case.film, case.baseline):
        noisy = {name: xy + random.normal(0.0, film.error, (4000, 2)) for name, xy in film.points.items()}
        readings.append(measure_all(noisy))
    for index, name in enumerate(names):
        spread = np.std(readings[0][name] - readings[1][name])
        assert np.sqrt(covariance[index, index]) == pytest.approx(spread, rel=0.06), name
    i, j = names.index("capsular_rotation"), names.index("tip_to_frog")
    both = [readings[0][name] - readings[1][name] for name in ("capsular_rotation", "tip_to_frog")]
    assert covariance[i, j] == pytest.approx(np.cov(both)[0, 1], rel=0.2, abs=0.03)


def test_cases_that_mark_different_points_are_each_measured_as_if_alone():
    rows = good_rows(cases=2)
    for row in rows[2:]:
        row["frog_point_x"] = row["frog_point_y"] = ""
    cases = cases_of(rows)
    together = measured(cases)
    assert "tip_to_frog" in together[0].change[0]
    assert "tip_to_frog" not in together[1].change[0]
    for case, found in zip(cases, together, strict=True):
        alone = measured([case])[0]
        assert found.change[1] == pytest.approx(alone.change[1])
        assert found.change[2] == pytest.approx(alone.change[2])


def named(account, measures=None, cases=20, **more):
    return [one.separation.named for one in weigh(pairs(account, cases, seed=8, error=1.0, **more), measures)]


@pytest.mark.parametrize("account", ACCOUNTS)
def test_with_baselines_the_right_account_is_named_and_never_a_wrong_one(account):
    found = named(account)
    assert found.count(account) >= 19
    assert set(found) <= {account, None}


@pytest.mark.parametrize("account", ACCOUNTS)
def test_with_tip_to_frog_alone_the_program_cannot_tell(account):
    assert set(named(account, ("tip_to_frog",))) == {None}


@pytest.mark.parametrize("account", ACCOUNTS)
def test_without_baselines_no_account_is_named(account):
    assert set(named(account, baselines=False)) == {None}


def with_lost_tip(rows, baseline):
    """The film in question reads 6 mm less of the bone; nothing else changes."""
    row = rows[1]
    tip, top = (np.array([float(row[f"{n}_x"]), float(row[f"{n}_y"])]) for n in ("tip", "extensor_process"))
    seen = tip + 6.0 * (top - tip) / np.linalg.norm(top - tip)
    row["tip_x"], row["tip_y"] = f"{seen[0]:.4f}", f"{seen[1]:.4f}"
    return rows if baseline else rows[1:]


def test_a_lost_tip_that_is_owned_up_to_is_put_back_from_the_baseline():
    rows = good_rows("carried_sole", amounts=(10.0, 10.0), error=0.01)
    rows[1]["tip_lost"] = "yes"
    (case,) = cases_of(with_lost_tip(rows, True))
    names, values, _ = measured([case])[0].change
    assert values[names.index("tip_to_frog")] == pytest.approx(0.0, abs=0.1)
    assert values[names.index("capsular_rotation")] == pytest.approx(10.0, abs=0.1)
    assert weigh([case])[0].separation.named == "carried_sole"
    assert "put back from the baseline" in " ".join(case.traps)


def test_a_lost_tip_without_a_baseline_leaves_every_measure_from_the_tip_out():
    rows = good_rows("carried_sole")
    rows[1]["tip_lost"] = "yes"
    (case,) = cases_of(with_lost_tip(rows, False))
    names = measured([case])[0].standing[0]
    assert "hoof_angle" in names
    assert "tip_to_frog_seen" in names
    assert not {"tip_to_frog", "capsular_rotation", "palmar_angle", "sole_depth_tip"} & set(names)


def test_a_tip_not_spoken_of_is_a_trap():
    rows = good_rows()
    rows[1]["tip_lost"] = ""
    evidence = weigh_table(cases_of(rows), "t")
    assert "not said whether the tip is whole" in " ".join(evidence.weighed[0].case.traps)
    assert "does not say whether the tip is whole" in paragraph(evidence)


def test_mixed_founder_markers_are_never_subtracted_from_one_another():
    rows = good_rows("sinking")
    row = rows[0]
    row.update(founder_marker="hairline", founder_x=row["toe_hairline_x"], founder_y=row["toe_hairline_y"])
    (case,) = cases_of(rows)
    names = measured([case])[0].change[0]
    assert "founder_distance" not in names
    assert "founder_distance_hairline" in names  # both films show the hairline
    assert "founder markers of the two films differ" in " ".join(case.traps)
    assert "mixes founder markers" in paragraph(weigh_table([case], "t"))


def test_films_without_the_ground_give_no_height_above_it():
    rows = good_rows()
    for column in ("ground_a_x", "ground_a_y", "ground_b_x", "ground_b_y"):
        rows[1][column] = ""
    (case,) = cases_of(rows)
    assert "ground_depth_tip" not in measured([case])[0].change[0]
    assert "the ground is marked on one film only" in " ".join(case.traps)


def test_a_table_of_one_kind_excludes_what_it_can_and_says_what_it_cannot():
    words = paragraph(weigh_table(pairs("slide_through", 40, seed=4, error=1.0), "t"))
    assert "excludes carried sole and flared wall" in words
    assert "say nothing for or against sinking or tipped foot" in words
    assert "not what caused it" in words


def test_a_table_of_several_kinds_excludes_nothing_by_its_average_line():
    mixed = [*pairs("slide_through", 8, seed=4), *pairs("carried_sole", 8, seed=5)]
    evidence = weigh_table(mixed, "t")
    assert evidence.mixed
    assert "excludes no account" in paragraph(evidence)
    assert "That excludes" not in paragraph(evidence)


def test_tip_to_frog_alone_over_a_whole_table_decides_nothing():
    words = paragraph(weigh_table(pairs("carried_sole", 30, error=1.0), "t", ("tip_to_frog",)))
    assert words.endswith("So these cases decide nothing between the accounts.")


def test_the_invented_demonstration_is_labelled_and_holds_every_trap():
    from hoofsim.claims.evidence.reader import read_table
    from hoofsim.resources import scenarios_folder

    file = scenarios_folder() / "evidence" / "invented_cases.csv"
    assert file.read_text(encoding="utf-8").startswith("# INVENTED DATA")
    evidence = weigh_table(paired(read_table(file), str(file)), "demonstration")
    traps = " ".join([*evidence.traps, *(trap for one in evidence.weighed for trap in one.case.traps)])
    for words in (
        "mixes founder markers",
        "no baseline",
        "put back from the baseline",
        "left out",
        "not said",
    ):
        assert words in traps


def test_a_case_in_which_nothing_asked_for_was_read_is_kept_and_cannot_tell():
    rows = good_rows("carried_sole")
    rows[1]["tip_lost"] = "yes"
    (one,) = weigh(cases_of(with_lost_tip(rows, False)), ("tip_to_frog",))
    assert one.separation.named is None
    assert "nothing was read that could be compared" in verdict(one.separation)
