"""Random hands on the window, the short form; and planted faults are met."""

from collections.abc import Callable
from pathlib import Path

import pytest

from hoofsim.app.application import Application
from hoofsim.app.turns import Turns
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.session.session import Session
from tests.soak.window import Found, Plan, soak


@pytest.fixture(autouse=True)
def home(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOOFSIM_HOME", "set by the soak, and put back after it")


@pytest.mark.parametrize("seed", [1, 3])
def test_random_hands_break_nothing(seed: int, tmp_path: Path) -> None:
    tally = soak(Plan(400, seed, sitting=200, look_every=40), tmp_path)
    assert tally.events >= 400
    assert tally.sittings == 2
    assert tally.looks >= 8
    assert tally.compared >= 4


def test_a_screen_that_breaks_is_met_with_the_sitting_to_meet_it_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ScrollPanel, "wheel", lambda self, steps, theme: 1 // 0)
    with pytest.raises(
        Found, match=r"(?s)ZeroDivisionError.*sitting \d+, event \d+ of it: --seed 1 --first \d+"
    ):
        soak(Plan(2000, 1), tmp_path)


def test_a_window_that_is_not_drawn_anew_is_met(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = Turns.take

    def without_panels(self: Turns, due: dict[str, Callable[[], None]], until: float) -> bool:
        return whole(self, {name: work for name, work in due.items() if name != "panels"}, until)

    monkeypatch.setattr(Turns, "take", without_panels)
    with pytest.raises(Found, match=r"stand as drawn anew"):
        soak(Plan(2000, 1, look_every=20), tmp_path)


def test_a_program_that_leaves_and_an_undo_that_forgets_are_met(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as planted:
        planted.setattr(Application, "back", Application.quit)
        with pytest.raises(Found, match="left by itself"):
            soak(Plan(3000, 1), tmp_path)
    monkeypatch.setattr(Session, "undo", lambda self: False)
    with pytest.raises(Found, match="undoing to the start"):
        soak(Plan(2000, 1, look_every=20), tmp_path)
