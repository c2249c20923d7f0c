"""Which accounts the readings leave: known cases, honest silence, and how often the right account is named."""

import numpy as np
import pytest

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.information import next_experiments, next_measures, next_observations
from hoofsim.claims.population import draw_feet, sound_points
from hoofsim.claims.readings import readings_of
from hoofsim.claims.separability import predictions, separate, whitener
from hoofsim.claims.wording import advice_sentence, experiment_sentence, verdict
from hoofsim.errors import BadInput
from hoofsim.files.experiment import read_experiment
from hoofsim.resources import scenarios_folder

USUAL = ("hoof_angle", "capsular_rotation", "phalangeal_rotation", "palmar_angle", "founder_distance",
         "wall_to_bone_distal", "sole_depth_tip", "tip_to_frog", "frog_to_toe")  # fmt: skip


def read(values, error=1.0):
    return separate(readings_of(values, error, sound_points()))


def read_account(name, amount, measures, random=None, own_baseline=True):
    foot = {name: xy[0] for name, xy in draw_feet(random, 1).items()} if random else sound_points()
    found = (ACCOUNTS[name].predict_change if own_baseline else ACCOUNTS[name].predict)(foot, amount)
    values = {m: float(found[m]) + (random.normal() if random else 0.0) for m in measures}
    return separate(readings_of(values, 1.0, foot if own_baseline else None))


def names_given(measures, own_baseline=True, cases=20):
    random = np.random.default_rng(11)
    return {
        name: [
            read_account(name, random.uniform(5.0, 15.0), measures, random, own_baseline).named
            for _ in range(cases)
        ]
        for name in ACCOUNTS
    }


def test_errors_of_a_millimetre_and_a_degree_leave_the_right_account_named():
    for name, named in names_given(USUAL).items():
        assert named.count(name) >= 19
        assert set(named) <= {name, None}  # a wrong account is never named


def test_tip_to_frog_alone_never_names_an_account():
    for named in names_given(("tip_to_frog",)).values():
        assert set(named) == {None}


def test_two_readings_of_tip_to_frog_are_still_one_observation():
    assert read_account("slide_through", 12.0, ("tip_to_frog", "tip_to_frog_capsule")).named is None


def test_without_a_baseline_no_account_is_named_but_a_misfit_is_still_seen():
    separation = read_account("tipped_foot", 12.0, USUAL, own_baseline=False)
    assert separation.named is None
    assert "no baseline of the same foot" in verdict(separation)
    assert separation.remaining[0] == "tipped_foot"
    assert "slide_through" not in separation.remaining


def test_unchanged_tip_to_frog_leaves_four_accounts_about_as_likely():
    likelihood = {name: one.likelihood for name, one in read({"tip_to_frog": 0.0}).standings.items()}
    assert max(likelihood.values()) < 0.3
    assert likelihood["slide_through"] < 0.05


def test_fallen_tip_to_frog_excludes_four_accounts_and_still_names_none():
    separation = read({"tip_to_frog": -6.0})
    assert separation.remaining == ("slide_through",)
    words = verdict(separation)
    assert words.startswith("Cannot tell")
    assert "bone lost at the tip" in words


def test_readings_that_no_account_gives_name_none():
    separation = read({"capsular_rotation": 8.0, "frog_to_toe": -8.0, "tip_to_frog": 0.0})
    assert separation.remaining == ()
    assert "none of the 5 accounts alone fits" in verdict(separation)


def test_a_change_within_the_error_is_called_small():
    assert "small against the reading error" in verdict(read(dict.fromkeys(USUAL, 0.1)))


def test_a_named_account_gives_its_amount_and_says_what_does_not_fit():
    words = verdict(read_account("carried_sole", 10.0, USUAL))
    assert words.startswith("The readings fit carried sole (10.0 ±")
    assert "they do not fit slide-through" in words


def test_likelihoods_are_those_of_a_direct_sum_over_amounts():
    """Two measures, the definition of the marginal likelihood written out with exponentials of its own."""
    readings = readings_of({"capsular_rotation": 4.0, "tip_to_frog": -2.0}, 2.0, sound_points())
    direct = {}
    for name, account in ACCOUNTS.items():
        amounts = np.linspace(account.low, account.high, 2001)
        off = predictions(account, [readings], amounts)[0] - readings.values
        direct[name] = np.mean(np.exp(-np.sum(off**2, axis=1) / 8.0))
    total = sum(direct.values())
    for name, standing in separate(readings).standings.items():
        assert standing.likelihood == pytest.approx(direct[name] / total, rel=0.02)


def test_whitening_turns_correlated_errors_into_unit_ones_and_drops_repeats():
    factor = np.array([[1.0, 0.0], [0.5, 2.0], [0.5, 2.0]])  # the third measure repeats the second
    white = whitener(factor @ factor.T)
    assert white.shape == (2, 3)
    assert white @ factor @ factor.T @ white.T == pytest.approx(np.eye(2), abs=1e-9)


def test_the_next_measure_separates_what_is_left():
    separation = read({"tip_to_frog": 0.0, "capsular_rotation": 8.0})
    assert set(separation.remaining) == {"carried_sole", "flared_wall"}
    advice = next_measures(separation)
    worth = {one.name: one.bits for one in advice}
    assert worth["phalangeal_rotation"] > 0.9  # one account flexes the coffin joint, the other does not
    assert worth["sole_depth_tip"] < 0.05  # both leave it
    assert "read next" in advice_sentence(separation, advice)


def test_information_is_bounded_by_what_there_is_to_learn():
    separation = read({"tip_to_frog": 0.0})
    everything = {"all": ("capsular_rotation", "phalangeal_rotation", "frog_to_toe", "founder_distance")}
    (one,) = next_observations(separation, everything)
    chances = np.array([standing.likelihood for standing in separation.standings.values()])
    assert 1.5 < one.bits <= -np.sum(chances * np.log2(chances)) + 0.05
    assert one.bits > max(advice.bits for advice in next_measures(separation))


def test_one_account_left_is_told_how_it_could_fail():
    separation = read({"tip_to_frog": -6.0})
    assert "slide-through foretells: frog to toe 0.0 mm" in advice_sentence(
        separation, next_measures(separation)
    )


@pytest.mark.parametrize(
    ("values", "error", "complaint"),
    [
        ({}, 1.0, "nothing to compare"),
        ({"tip_to_frog": np.nan}, 1.0, "finite"),
        ({"tip_to_frog": 1.0}, 0.0, "above 0"),
        ({"navicular_load": 1.0}, 1.0, "cannot be read"),
        ({"tip_to_fog": 1.0}, 1.0, "tip_to_frog"),
    ],
)
def test_unusable_readings_are_refused(values, error, complaint):
    with pytest.raises(BadInput, match=complaint):
        readings_of(values, error, sound_points())


def test_the_experiment_that_reads_what_separates_comes_first():
    ready = {file.stem: read_experiment(file) for file in (scenarios_folder() / "experiments").glob("*.yaml")}
    separation = read({"tip_to_frog": 0.0, "capsular_rotation": 8.0})
    advice = next_experiments(separation, ready)
    assert advice[0].bits > 0.9
    assert {"palmar_angle", "frog_to_toe", "phalangeal_rotation"} & set(advice[0].measures)
    assert "tip_to_frog" not in advice[0].measures  # it has been read
    words = experiment_sentence(separation, advice, {name: name for name in ready})
    assert words.startswith(f"A ready experiment that reads it: {advice[0].name}")
    assert experiment_sentence(read({"tip_to_frog": -6.0}), [], {}) == ""
