"""`hoofsim run` on experiments, `evidence`, `match` and `trials`: what they print, write and refuse, and their exit
codes.
"""

import json
import os
import signal
from pathlib import Path

import pytest

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.cli.main import main
from hoofsim.cli.run_experiment import stopping
from hoofsim.resources import scenarios_folder
from tests.claims.evidence.tables import good_rows, text_of
from tests.claims.test_experiment_run import FACTORIAL
from tests.files.bad_scenarios import GOOD

DEMONSTRATION = str(scenarios_folder() / "evidence" / "invented_cases.csv")


def said(words, capsys):
    """Exit code, and what was printed on both streams."""
    code = main([str(word) for word in words])
    return code, *capsys.readouterr()


@pytest.fixture
def experiment(tmp_path: Path) -> Path:
    file = tmp_path / "trial.yaml"
    file.write_text(FACTORIAL, encoding="utf-8")
    return file


def test_run_takes_scenarios_and_experiments_together(experiment, tmp_path, capsys):
    scenario = tmp_path / "good.yaml"
    scenario.write_text(GOOD, encoding="utf-8")
    code, out, _ = said(["run", experiment, scenario, "--out", tmp_path / "out"], capsys)
    assert code == 0
    assert "8 of 8 runs done" in out
    assert "held" in out
    names = {file.name for file in (tmp_path / "out").iterdir()}
    assert {"trial.csv", "trial_effects.csv", "trial_effects.png", "good.csv", "good.png"} <= names


def test_run_prints_an_experiment_as_json(experiment, capsys):
    code, out, _ = said(["run", experiment, "--json"], capsys)
    (report,) = json.loads(out)
    assert code == 0
    assert report["kind"] == "experiment"
    assert report["runs"] == 8
    assert len(report["effects"]) == 2 * 3


def test_a_bad_experiment_is_refused_before_anything_runs(experiment, tmp_path, capsys):
    bad = tmp_path / "bad.yaml"
    bad.write_text(FACTORIAL.replace("tendon_cut", "tendon_cutt"), encoding="utf-8")
    code, out, err = said(["run", experiment, bad, "--out", tmp_path / "out"], capsys)
    assert code == 2
    assert out == ""
    assert "did you mean 'tendon_cut'" in err
    assert not (tmp_path / "out").exists()


def test_ctrl_c_asks_first_and_insists_the_second_time():
    before = signal.getsignal(signal.SIGINT)
    with stopping() as asked:
        assert not asked()
        os.kill(os.getpid(), signal.SIGINT)
        assert asked()
        with pytest.raises(KeyboardInterrupt):
            os.kill(os.getpid(), signal.SIGINT)
    assert signal.getsignal(signal.SIGINT) is before


def test_a_stopped_experiment_writes_what_is_done_and_gives_130(experiment, tmp_path, capsys, monkeypatch):
    from hoofsim.claims import experiment as engine
    from hoofsim.cli import run_experiment

    def stopped(file, progress):
        return engine.run_experiment(file, lambda done, of: False)

    monkeypatch.setattr(run_experiment, "run_experiment", stopped)
    code, out, _ = said(
        ["run", experiment, experiment.parent / "trial.yaml", "--out", tmp_path / "out"], capsys
    )
    assert code == 130
    assert "4 of 8 runs done" in out
    assert "Stopped" in out
    assert "not run" in (tmp_path / "out" / "trial.csv").read_text(encoding="utf-8")


def test_the_demonstration_is_weighed_labelled_and_written(tmp_path, capsys):
    code, out, _ = said(["evidence", DEMONSTRATION, "--out", tmp_path], capsys)
    assert code == 0
    assert out.startswith("INVENTED DATA")
    assert "cannot tell" in out
    assert "invented_cases_report.html" in {file.name for file in tmp_path.iterdir()}


def test_tip_to_frog_alone_cannot_tell(capsys):
    code, out, _ = said(["evidence", DEMONSTRATION, "--only", "tip_to_frog", "--json"], capsys)
    report = json.loads(out)
    assert code == 0
    assert {case["named"] for case in report["cases"]} == {None}
    assert report["paragraph"].endswith("decide nothing between the accounts.")


@pytest.mark.parametrize("account", ACCOUNTS)
def test_an_invented_table_goes_back_in_and_the_account_comes_out(account, tmp_path, capsys):
    words = ["evidence", "--generate", account, "--cases", "6", "--seed", "3", "--error", "0.5"]
    code, table, _ = said(words, capsys)
    assert code == 0
    assert table.startswith("# INVENTED DATA")
    assert said(words, capsys)[1] == table  # the same seed gives the same table
    file = tmp_path / "made.csv"
    file.write_text(table, encoding="utf-8")
    report = json.loads(said(["evidence", file, "--json"], capsys)[1])
    assert [case["named"] for case in report["cases"]].count(account) >= 5
    assert report["label"].startswith("INVENTED DATA")


def test_the_confusion_matrix_is_right_on_its_diagonal_and_tip_to_frog_alone_cannot_tell(capsys):
    counts = json.loads(said(["evidence", "--confusion", "--cases", "20", "--json"], capsys)[1])
    assert all(row.get(name, 0) >= 19 for name, row in counts.items())
    alone = said(["evidence", "--confusion", "--cases", "20", "--only", "tip_to_frog", "--json"], capsys)[1]
    assert all(row == {"cannot tell": 20} for row in json.loads(alone).values())


def test_a_bad_table_is_refused_and_nothing_is_written(tmp_path, capsys):
    rows = good_rows()
    rows[1]["tip_x"] = "left"
    file = tmp_path / "bad.csv"
    file.write_text(text_of(rows), encoding="utf-8")
    code, out, err = said(["evidence", file, "--out", tmp_path / "out"], capsys)
    assert code == 2
    assert out == ""
    assert "row 3, column tip_x: 'left' is not a finite number" in err
    assert not (tmp_path / "out").exists()


def test_columns_are_explained(capsys):
    code, out, _ = said(["evidence", "--columns", "--json"], capsys)
    columns = {one["name"]: one for one in json.loads(out)}
    assert code == 0
    assert columns["tip_x"]["required"]
    assert not columns["frog_point_x"]["required"]


def test_a_match_names_what_is_not_fixed(capsys):
    words = [
        "match",
        "--measure",
        "palmar_angle=9",
        "--vary",
        "palmar_angle_deg,healed_rotation_deg",
        "--json",
    ]
    code, out, _ = said(words, capsys)
    report = json.loads(out)
    assert code == 0
    assert report["measures"]["palmar_angle"]["matched"] == pytest.approx(9.0, abs=0.3)
    assert report["controls"]["palmar_angle_deg"]["error"] is None
    assert report["not_fixed"]


def test_a_case_of_a_table_is_matched_and_printed(capsys):
    code, out, _ = said(
        ["match", DEMONSTRATION, "--case", "Bramble", "--vary", "hoof_angle_deg,healed_rotation_deg"], capsys
    )
    assert code == 0
    assert "to see it: hoofsim solve --foot sound --set hoof_angle_deg=" in out
    assert "It is not the horse's foot" in out.replace("\n", " ")


def test_trials_are_kept_listed_and_reported(tmp_path, capsys):
    log = tmp_path / "log.yaml"
    keep = ["trials", log, "--keep"]
    assert said([*keep, "--set", "heel_change_mm=10", "--predict", "less tension"], capsys)[0] == 0
    assert said([*keep, "--foot", "pony", "--load", "trot", "--stance-percent", "50"], capsys)[0] == 0
    code, out, _ = said(["trials", log, "--out", tmp_path / "out", "--json"], capsys)
    trials = json.loads(out)
    assert code == 0
    assert [trial["foot"] for trial in trials] == ["sound", "pony"]
    assert trials[0]["changes"] == {"heel_change_mm": 10.0}
    assert trials[0]["prediction"] == "less tension"
    assert trials[1]["stance_percent"] == 50.0
    assert {file.name for file in (tmp_path / "out").iterdir()} == {
        "log.csv",
        "log.html",
        "log.pdf",
        "log_about.json",
    }


def test_a_run_that_cannot_be_kept_leaves_the_log_as_it_was(tmp_path, capsys):
    log = tmp_path / "log.yaml"
    said(["trials", log, "--keep"], capsys)
    before = log.read_bytes()
    code, _, err = said(["trials", log, "--keep", "--set", "heel_change_mm=900"], capsys)
    assert code == 2
    assert "allowed" in err
    assert log.read_bytes() == before


REFUSED = {
    "nothing asked": (["evidence"], "needs one of"),
    "two things asked": (["evidence", DEMONSTRATION, "--columns"], "needs one of"),
    "no such table": (["evidence", "none.csv"], "no such file"),
    "unknown account": (["evidence", "--generate", "carried_soul"], "did you mean 'carried_sole'"),
    "no cases": (["evidence", "--generate", "sinking", "--cases", "0"], "allowed 1 to 2000"),
    "error of nothing": (["evidence", "--generate", "sinking", "--error", "0"], "must be above 0"),
    "negative seed": (["evidence", "--generate", "sinking", "--seed", "-1"], "must be 0 or more"),
    "unknown measure": (["evidence", DEMONSTRATION, "--only", "tip_to_fog"], "tip_to_frog"),
    "nothing to match": (["match"], "needs either readings"),
    "measure without value": (["match", "--measure", "palmar_angle"], "expected NAME=VALUE"),
    "measure not finite": (["match", "--measure", "palmar_angle=nan"], "expected NAME=VALUE"),
    "match of a change": (["match", "--measure", "palmar_angle_change=3"], "is a change from a baseline"),
    "unknown control": (
        ["match", "--measure", "palmar_angle=9", "--vary", "heel_chang_mm"],
        "heel_change_mm",
    ),
    "unknown case": (["match", DEMONSTRATION, "--case", "Hether"], "did you mean 'Heather'"),
    "no case": (["match", DEMONSTRATION], "choose a case"),
    "unknown foot": (["match", "--measure", "palmar_angle=9", "--foot", "ponny"], "did you mean 'pony'"),
    "unknown load": (["match", "--measure", "palmar_angle=9", "--load", "trott"], "did you mean 'trot'"),
    "match with no error": (["match", "--measure", "palmar_angle=9", "--error", "0"], "must be above 0"),
    "no log": (["trials", "none.yaml"], "no such file"),
    "note without keep": (["trials", "none.yaml", "--note", "x"], "add --keep"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_used_is_refused_in_one_sentence(name, capsys):
    words, sentence = REFUSED[name]
    code, out, err = said(words, capsys)
    assert code == 2
    assert out == ""
    assert sentence in err
    assert "Traceback" not in err
