"""Referees with and without their package."""

from hoofsim.verify.referees.referee import Referee, Verdict
from hoofsim.verify.referees.registry import REFEREES, ask_all


def referee(package, largest):
    return Referee("a length", "somebody", package, f"{package}-wheel", "mm", 0.1, lambda: largest)


def test_a_missing_package_is_named_and_not_asked():
    (outcome,) = ask_all([referee("no_such_package", 1 / 3)])
    assert outcome.largest is None
    assert outcome.agrees is None
    assert outcome.cells[-1] == "left out: no_such_package-wheel is not installed"


def test_agreement_is_by_what_was_asked():
    assert ask_all([referee("numpy", 0.05)])[0].agrees is True
    far = ask_all([referee("numpy", 0.2)])[0]
    assert far.agrees is False
    assert far.cells[-1] == "DIFFERS"


def test_small_differences_are_shown_with_their_size():
    assert Verdict(REFEREES[0], 4e-14).cells[1] == "4e-14 mm"


def test_every_carried_referee_names_its_package():
    assert {one.package for one in REFEREES} == {"mujoco", "scipy", "skfem"}
