"""Runs pooled: what one run rules out stays ruled out, and the sentence says what they cannot tell apart."""

import pytest

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.information import each_once, next_measures, next_observations, ranked, unread
from hoofsim.claims.readings import readings_of
from hoofsim.claims.runs import NO_RUNS, pooled, runs_sentence
from hoofsim.claims.separability import separate
from hoofsim.claims.wording import advice_sentence
from hoofsim.model import Foot

MEASURES = ("capsular_rotation", "tip_to_frog", "frog_to_toe")


@pytest.fixture(scope="module")
def points():
    return Foot("sound").load().points


def run(points, account, amount, measures=MEASURES):
    change = ACCOUNTS[account].predict_change(points, amount)
    return separate(readings_of({name: float(change[name]) for name in measures}, 1.0, points))


def test_one_run_pooled_is_itself(points):
    alone = run(points, "slide_through", 9.0)
    together = pooled([alone])
    assert together.named == alone.named == "slide_through"
    assert together.remaining == alone.remaining


def test_a_run_of_another_movement_leaves_no_account_and_names_none(points):
    runs = [run(points, "slide_through", 12.0), run(points, "carried_sole", 12.0)]
    assert {one.named for one in runs} == {"slide_through", "carried_sole"}
    together = pooled(runs)
    assert together.named is None
    assert set(together.remaining) <= set(runs[0].remaining) & set(runs[1].remaining)
    said = runs_sentence(runs, [])
    assert "Cannot tell" in said
    assert "needed" not in said


def test_runs_agreeing_name_the_account_and_say_how_many_they_are(points):
    runs = [run(points, "slide_through", 9.0), run(points, "slide_through", 12.0)]
    said = runs_sentence(runs, [])
    assert said.startswith(
        "All 2 runs, taken as one and the same movement (the amount is the first run's). The readings fit slide-through"
    )
    assert "caus" not in said


def test_runs_that_cannot_tell_say_so_and_what_to_read_next(points):
    runs = [run(points, "tipped_foot", 6.0)]
    advice = next_measures(pooled(runs))
    said = runs_sentence(runs, advice)
    assert said.startswith("Cannot tell")
    assert "tipped foot" in said
    assert said.endswith(advice_sentence(pooled(runs), advice))
    assert runs_sentence(runs, None) in said


def test_no_runs_are_said():
    assert runs_sentence([], []) == NO_RUNS


def test_advice_gathered_piece_by_piece_is_the_same_as_at_once(points):
    separation = pooled([run(points, "tipped_foot", 6.0)])
    pieces = [
        advice
        for name, measures in unread(separation).items()
        for advice in next_observations(separation, {name: measures})
    ]
    assert each_once(ranked(pieces)) == next_measures(separation)


def test_one_account_left_without_a_clear_lead_is_not_said_to_share_the_readings(points):
    change = {"capsular_rotation": 5.6, "tip_to_frog": -2.3, "frog_to_toe": 2.8}
    alone = separate(readings_of(change, 1.0, points))
    assert alone.named is None
    assert len(alone.remaining) == 1
    assert "the one account left" in runs_sentence([alone], None)
    assert "more than one" not in runs_sentence([alone], None)
