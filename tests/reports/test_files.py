"""What experiments, evidence tables and trial logs leave behind: tidy tables whose numbers are those of the runs."""

import csv
import io
from dataclasses import replace

import numpy as np
import pytest

from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.summary import paragraph, weigh_table
from hoofsim.claims.experiment import run_experiment
from hoofsim.files.experiment import load_experiment
from hoofsim.files.reader import read_text
from hoofsim.measures import MEASURES
from hoofsim.reports import evidence_files, experiment_files
from hoofsim.reports.plot_style import account_look, series_look, spread_labels
from hoofsim.reports.trial_report import TrialRow, trials_csv, trials_page
from tests.claims.evidence.tables import films
from tests.claims.test_experiment_run import FACTORIAL

PNG = b"\x89PNG\r\n\x1a\n"
GRID = (
    FACTORIAL.split("design:")[0]
    + """\
design: grid
factors:
  - {control: heel_change_mm, values: [0, 5, 10]}
  - {control: wedge_deg, values: [0, 2]}
measures: [palmar_angle]
claim_plot: true
"""
)


def results(text=FACTORIAL, progress=None):
    return run_experiment(load_experiment(read_text(text, "t.yaml")), progress)


def rows(text):
    return list(csv.DictReader(io.StringIO(text)))


def test_the_table_of_runs_has_one_row_a_run_and_one_column_a_variable():
    found = results()
    table = rows(experiment_files.runs_csv(found))
    assert len(table) == 8
    assert table[0]["tendon"] == "cut"
    assert table[0]["heel_change_mm"] == "0"
    assert table[0]["load (level)"] == "standing"
    assert {row["load"] for row in table} == {"standing", "other_lifted"}
    for run, row in enumerate(table):
        assert float(row["palmar_angle (deg)"]) == pytest.approx(
            found.measures["palmar_angle"][run], rel=1e-4
        )
    assert sum(name.split(" ")[0] in MEASURES for name in table[0]) == len(MEASURES)


def test_a_run_not_reached_is_an_empty_row_that_says_so():
    table = rows(experiment_files.runs_csv(results(progress=lambda done, of: False)))
    late = [row for row in table if row["status"] == "not run"]
    assert len(late) == 4
    assert all(row["palmar_angle (deg)"] == "" for row in late)


def test_every_kind_of_experiment_leaves_its_tables_and_figures():
    factorial = experiment_files.files_of(results(FACTORIAL + "claim_plot: true\n"), "x")
    assert set(factorial) == {"x.csv", "x_effects.csv", "x_interactions.csv", "x_effects.png", "x_effects.svg",
                              "x_claim.png", "x_claim.svg"}  # fmt: skip
    grid = experiment_files.files_of(results(GRID), "x")
    assert grid["x_effects.png"].startswith(PNG)
    single = experiment_files.files_of(results(FACTORIAL.replace("factorial", "one at a time")), "x")
    assert set(single) == {"x.csv", "x_effects.csv", "x_effects.png", "x_effects.svg"}


def test_figures_of_runs_of_which_none_came_to_rest_are_still_drawn():
    found = results(GRID)
    found.status[:] = "torn through"
    for column in found.measures.values():
        column[:] = np.nan
    assert experiment_files.files_of(found, "x")["x_claim.png"].startswith(PNG)


def test_the_effects_table_holds_the_effects():
    found = results()
    table = rows(experiment_files.effects_csv(found))
    heel = [row for row in table if row["measure"] == "palmar_angle" and row["factor"] == "heel_change_mm"]
    assert [row["level"] for row in heel] == ["0", "10"]
    assert float(heel[1]["mean_change"]) - float(heel[0]["mean_change"]) > 2.0
    assert [row["runs_at_rest"] for row in heel] == ["4", "4"]


def evidence(**more):
    return weigh_table(paired(films(cases=5, **more), "t"), "invented")


def test_an_evidence_table_leaves_measures_places_figures_and_both_reports():
    files = evidence_files.files_of(evidence(), "t", "INVENTED DATA")
    assert set(files) == {"t_measures.csv", "t_places.csv", "t_report.html", "t_report.pdf", "t_places.png",
                          "t_places.svg", "t_claim.png", "t_claim.svg"}  # fmt: skip
    assert "INVENTED DATA" in files["t_report.html"]
    places = rows(files["t_places.csv"])
    assert sum(float(row["likelihood"]) for row in places) == pytest.approx(5.0, abs=0.01)
    assert sum(row["named"] == "yes" for row in places) == 5


def test_the_measures_table_gives_changes_with_errors_only_where_there_is_a_baseline():
    with_one = rows(evidence_files.measures_csv(evidence()))
    without = rows(evidence_files.measures_csv(evidence(baselines=False)))
    frog = next(row for row in with_one if row["measure"] == "tip_to_frog")
    assert float(frog["change_error"]) == pytest.approx(
        0.5 * 2.0, rel=0.1
    )  # two points on two films, 0.5 mm each
    assert all(row["change"] == "" for row in without)


def test_the_report_begins_with_one_sentence_and_tells_the_traps_in_their_own_place():
    whole = evidence(seed=2)
    unsure = replace(whole, traps=("A trap.",))
    page = evidence_files.report(unsure, "", {})
    short, more = page.sections[0].blocks
    assert short.strong
    assert not more.strong
    assert len(short.text) < 250
    assert "A trap." not in short.text + more.text
    assert "A trap." in next(one for one in page.sections if one.heading == "Traps noticed").blocks[0].items
    assert f"{short.text} {more.text}" == paragraph(whole)


def test_a_cut_tendon_is_told_as_such():
    assert trial(changes={"tendon_cut": 1.0}).settings.startswith("Sound foot, tendon cut, ")


def test_without_baselines_there_is_no_claim_plot_to_mislead():
    assert set(evidence_files.figures(evidence(baselines=False))) == {"places"}


def trial(**more):
    given = {"number": 1, "preset": "sound", "changes": {"heel_change_mm": 10.0}, "load": "trot", "stance_percent": 50.0,
                 "note": "=1+1", "prediction": "steeper", "results": {"palmar_angle": 8.0, "capsular_rotation": 1.0},
                 "before": {"palmar_angle": 4.0, "capsular_rotation": 0.5}}  # fmt: skip
    return TrialRow(**{**given, **more})


def test_the_trial_table_holds_settings_words_and_changes_and_no_formula():
    (row,) = rows(trials_csv([trial()]))
    assert row["heel_change_mm"] == "10"
    assert row["stance_percent"] == "50"
    assert row["note"] == "'=1+1"
    assert float(row["palmar_angle change"]) == 4.0
    assert row["tip_to_frog (mm)"] == ""


def test_the_trial_report_tells_prediction_and_marks_what_cannot_be_read():
    page = trials_page([trial(), trial(number=2, prediction="", changes={})], "Log")
    told = page.sections[0].blocks[1].items
    assert told[0].startswith(
        "Trial 1: Sound foot, heel change 10 mm, trot at 50 % of stance. Predicted: steeper."
    )
    assert "No prediction was written down" in told[1]
    table = page.sections[1].blocks[-1]
    assert "8.0 (+4.0)" in table.rows[0]
    assert "1.0 (+0.5·)" in table.rows[0]


def test_labels_that_want_one_place_are_moved_apart_and_keep_their_order():
    placed = spread_labels([0.0, 0.1, 5.0], 1.0)
    assert placed[1] - placed[0] >= 1.0 - 1e-9
    assert placed == sorted(placed)


def test_series_differ_by_more_than_colour():
    looks = [series_look(index) for index in range(6)]
    assert len({look.dash for look in looks}) == 6
    assert len({look.marker for look in looks}) == 6
    assert account_look("slide_through") == looks[0]
