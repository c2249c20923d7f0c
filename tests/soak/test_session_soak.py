"""Random sittings, the short form; and the finder finds: a planted fault is met, shrunk, and played by `hoofsim run`."""

import json
from pathlib import Path
from random import Random

import pytest

from hoofsim.cli.main import main
from hoofsim.session import session as session_module
from hoofsim.session.commands import SetControl
from hoofsim.session.replay import Deed, replay_text
from hoofsim.session.session import Session
from tests.soak.session import Found, Plan, fails, random_deed, shrunk, soak


@pytest.mark.parametrize("seed", [1, 2])
def test_random_sittings_hold(seed: int) -> None:
    tally = soak(Plan(2000, seed))
    assert tally.deeds == 2000
    assert tally.solved >= 20
    assert tally.drawn >= 5
    assert 0 < tally.refused < tally.deeds / 5


def test_the_same_seed_gives_the_same_deeds() -> None:
    one, other = Random(5), Random(5)
    assert [random_deed(one) for _ in range(300)] == [random_deed(other) for _ in range(300)]


def test_memory_of_a_sitting_stays_flat() -> None:
    session = Session()
    for number in range(2 * session_module.KEPT_EQUILIBRIA):
        session.do(SetControl("wedge_deg", 5 * number / (2 * session_module.KEPT_EQUILIBRIA)))
        assert session.loaded.at_rest
    assert len(session._equilibria) == session_module.KEPT_EQUILIBRIA


def test_a_planted_fault_is_found_and_shrunk_and_played(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    whole = Session.undo

    def forgets(self: Session) -> bool:
        if self.value("tendon_cut") == 1.0:
            self._position += 1  # one beyond what was done
            return False
        return whole(self)

    monkeypatch.setattr(Session, "undo", forgets)
    with pytest.raises(Found) as found:
        soak(Plan(4000, 1))
    assert fails(found.value.deeds)
    short = shrunk(found.value.deeds)
    assert len(short) <= 3
    assert short[-1] == Deed(move="undo")
    file = tmp_path / "failing.yaml"
    file.write_text(replay_text(short, found.value.what), encoding="utf-8")
    assert main(["check", str(file)]) == 0
    with pytest.raises((IndexError, SystemExit)):  # the planted fault takes the sitting with it
        main(["run", str(file)])
    monkeypatch.undo()
    capsys.readouterr()
    assert main(["run", str(file), "--json"]) == 0
    (report,) = json.loads(capsys.readouterr().out)
    assert report["holds"]
    assert len(report["steps"]) == len(short) + 1


def test_a_refused_move_is_a_fault_and_a_refused_command_is_none() -> None:
    impossible = Deed(SetControl("lucent_zone_mm", 13.4))
    assert not fails([impossible])
    assert not fails([impossible, Deed(move="undo"), Deed(move="reopen"), Deed(move="keep_as_read")])
