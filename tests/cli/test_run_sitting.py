"""A saved sitting and a replay are played deed by deed: table, files, JSON, and every refusal with its place."""

import csv
import io
import json
from pathlib import Path

import pytest

from hoofsim.cli.main import main
from hoofsim.model import LoadedFoot
from hoofsim.session.commands import KeepTrial, SetControl, SetLoad
from hoofsim.session.replay import Deed, replay_text
from hoofsim.session.sandbox_file import save
from hoofsim.session.session import Session

HEAD = "hoofsim: 1\nkind: replay\ndeeds:\n"


@pytest.fixture
def sitting(tmp_path: Path) -> Path:
    session = Session()
    session.do(SetControl("heel_change_mm", 10))
    session.do(KeepTrial("=HYPERLINK(1)", "<b>up</b>"))
    session.do(SetLoad("trot"))
    session.undo()
    save(session, tmp_path / "sitting.yaml")
    return tmp_path / "sitting.yaml"


def test_a_sitting_is_checked_and_played(sitting: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(sitting)]) == 0
    assert "a well-written sandbox" in capsys.readouterr().out
    assert main(["run", str(sitting), "--json"]) == 0
    (report,) = json.loads(capsys.readouterr().out)
    assert report["kind"] == "sandbox"
    assert report["steps"][0]["done"] == "start"
    assert len(report["steps"]) == 3, "what was undone is not played"
    assert report["steps"][-1]["measures"]["palmar_angle"]["change"] > 3


def test_its_table_and_pictures_are_written_with_formulas_made_text(sitting: Path, tmp_path: Path) -> None:
    assert main(["run", str(sitting), "--out", str(tmp_path / "out")]) == 0
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        "sitting.csv",
        "sitting.png",
        "sitting.svg",
        "sitting_about.json",
    ]
    rows = list(csv.reader(io.StringIO((tmp_path / "out" / "sitting.csv").read_text(encoding="utf-8"))))
    assert len(rows) == 4
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "@"))]


def test_a_replay_undoes_redoes_and_reopens(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    deeds = [
        Deed(SetControl("wedge_deg", 3), gesture="drag 1"),
        *(Deed(move=word) for word in ("undo", "redo")),
    ]
    deeds += [Deed(move=word) for word in ("reopen", "keep_as_read", "undo_all")]
    (tmp_path / "r.yaml").write_text(replay_text(deeds, "moves"))
    assert main(["run", str(tmp_path / "r.yaml"), "--json"]) == 0
    (report,) = json.loads(capsys.readouterr().out)
    angles = [step["measures"]["palmar_angle"]["value"] for step in report["steps"]]
    assert angles[1] > angles[0] == angles[2] == angles[6]
    assert angles[1] == angles[3] == angles[4]


def test_a_number_that_is_none_is_told_and_is_exit_code_one(
    sitting: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    read = LoadedFoot.measures
    monkeypatch.setattr(LoadedFoot, "measures", lambda self: {**read(self), "tip_to_frog": float("nan")})
    monkeypatch.setattr("hoofsim.cli.run_sitting.picture", lambda *_: None)
    assert main(["run", str(sitting)]) == 1
    assert "deed 1 (Heel change to 10): tip_to_frog is nan" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("deeds", "words"),
    [
        ("- do: undoo\n", "4:3: unknown deed 'undoo': did you mean 'undo'?"),
        ("- do: undo\n  cut: true\n", "4:3: 'undo' stands alone"),
        ("- do: [1]\n", "4:3: unknown deed"),
        ("- cut\n", "expected keys and values"),
        ("- do: cut_tendon\n  gesture: 3\n", "4:3: 'gesture' must be a word"),
        ("- do: undo\n- do: restore_trial\n  number: 2\n", "deed 2: there is no trial 2"),
    ],
)
def test_a_bad_replay_is_refused_with_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], deeds: str, words: str
) -> None:
    (tmp_path / "r.yaml").write_text(HEAD + deeds)
    assert main(["run", str(tmp_path / "r.yaml"), "--out", str(tmp_path / "out")]) == 2
    assert words in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
