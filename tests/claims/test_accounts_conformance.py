"""The conformance check passes the five accounts and complains of wrong ones; the registry names what it has."""

import dataclasses

import numpy as np
import pytest

from hoofsim.claims.accounts import ACCOUNTS, account, check_account
from hoofsim.errors import BadInput
from tests.measures.sound_foot import sound_points

SINKING = ACCOUNTS["sinking"]


def moved_by(function):
    return dataclasses.replace(SINKING, move=function)


def everything(points, amount, step):
    return {
        name: np.asarray(xy) + step(name) * amount[..., None] * np.array([0.0, -1.0])
        for name, xy in points.items()
    }


WRONG = {
    "moves 'tip'": lambda points, amount: everything(points, amount + 1.0, lambda name: name == "tip"),
    "loses the landmark": lambda points, amount: {"tip": points["tip"] + 0.0 * amount[..., None]},
    "not moved as one piece": lambda points, amount: everything(points, amount, lambda name: name == "tip"),
    "moves nothing": lambda points, amount: everything(points, amount, lambda name: 0.0),
    "not a number": lambda points, amount: everything(
        points, np.where(amount > 5, np.nan, amount), lambda name: 1.0
    ),
    "jumps": lambda points, amount: everything(points, np.where(amount > 5, 50.0, 0.0), lambda name: 1.0),
    "has shape": lambda points, amount: {name: np.asarray(xy) for name, xy in points.items()},
    "cannot move this foot": lambda points, amount: {"tip": points["no_such_landmark"]},
}


@pytest.mark.parametrize("name", ACCOUNTS)
def test_every_account_conforms(name):
    assert check_account(ACCOUNTS[name], sound_points()) == []


@pytest.mark.parametrize("complaint", WRONG)
def test_a_wrong_account_is_complained_of(complaint):
    assert any(complaint in line for line in check_account(moved_by(WRONG[complaint]), sound_points()))


def test_an_account_without_words_or_range_is_complained_of():
    assert "'label' is empty" in check_account(dataclasses.replace(SINKING, label=""), sound_points())
    assert "must hold 0" in check_account(dataclasses.replace(SINKING, low=3.0), sound_points())[-1]


def test_there_are_five_accounts_in_a_settled_order():
    assert list(ACCOUNTS)[:5] == ["slide_through", "carried_sole", "flared_wall", "sinking", "tipped_foot"]


def test_a_misspelt_account_is_refused_with_the_nearest_name():
    with pytest.raises(BadInput, match="did you mean 'sinking'"):
        account("sinkin")


def test_a_foot_without_the_centre_of_rotation_cannot_be_turned_about_it():
    points = sound_points()
    del points["cor"]
    with pytest.raises(BadInput, match="needs the landmark cor"):
        ACCOUNTS["slide_through"].predict(points, 5.0)
