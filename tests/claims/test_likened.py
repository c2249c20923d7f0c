"""An account's amount matched to a foot: found again when the account itself moved it, and a default otherwise."""

import pytest

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.likened import DEFAULT_AMOUNT, likened
from hoofsim.model import Foot


@pytest.fixture(scope="module")
def points():
    return Foot("sound").load().points


@pytest.mark.parametrize("name", ACCOUNTS)
def test_the_amount_of_the_account_itself_is_found_again(points, name):
    account = ACCOUNTS[name]
    change = {key: float(value) for key, value in account.predict_change(points, 6.0).items()}
    found = likened(account, points, change)
    assert found.amount == pytest.approx(6.0, abs=0.11)
    assert found.measure is not None


@pytest.mark.parametrize("name", ACCOUNTS)
@pytest.mark.parametrize(
    "change", [{}, {"capsular_rotation": 0.2, "palmar_angle": 0.1, "founder_distance": 0.1}]
)
def test_a_foot_that_hardly_changed_gives_the_default(points, name, change):
    found = likened(ACCOUNTS[name], points, change)
    assert (found.amount, found.measure) == (DEFAULT_AMOUNT, None)


def test_a_change_the_other_way_gives_the_default_and_a_large_one_the_end_of_the_range(points):
    account = ACCOUNTS["tipped_foot"]
    assert likened(account, points, {"palmar_angle": -8.0}).measure is None
    assert likened(account, points, {"palmar_angle": 80.0}).amount == account.high
