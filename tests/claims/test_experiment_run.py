"""Running an experiment: the same numbers as one foot at a time, honest about what did not come to rest, stoppable."""

import numpy as np
import pytest

from hoofsim.claims.effects import cell_means, effects, interactions
from hoofsim.claims.experiment import NOT_RUN, Results, run_experiment
from hoofsim.files.experiment import load_experiment
from hoofsim.files.reader import read_text
from hoofsim.model import Foot

FACTORIAL = """\
hoofsim: 1
kind: experiment
title: Trial
question: Is it the same?
foot: {set: {body_mass_kg: 450}}
design: factorial
factors:
  - name: tendon
    usual: whole
    levels:
      - {name: cut, set: {tendon_cut: 1}}
      - {name: whole}
  - control: heel_change_mm
    values: [0, 10]
  - name: load
    levels:
      - {name: standing, load: standing}
      - {name: other foot lifted, load: other_lifted}
measures: [palmar_angle, tendon_tension]
"""


def experiment(text=FACTORIAL):
    return load_experiment(read_text(text, "trial.yaml"))


def test_each_run_is_the_foot_that_its_levels_describe():
    results = run_experiment(experiment())
    foot = Foot("sound", body_mass_kg=450)
    for run in range(results.count):
        cut, heel, load = results.levels[run]
        case = ("standing", "other_lifted")[load]
        alone = foot.change(tendon_cut=float(cut == 0), heel_change_mm=10.0 * heel).load(case)
        assert results.loads[run] == case
        for name in ("palmar_angle", "tendon_tension", "frog_to_toe"):
            assert results.measures[name][run] == pytest.approx(alone.measures()[name], abs=1e-3), (run, name)


def test_changes_are_from_the_untouched_foot_under_the_same_load():
    results = run_experiment(experiment())
    untouched = (results.levels[:, 0] == 1) & (results.levels[:, 1] == 0)
    assert untouched.sum() == 2
    assert results.change("palmar_angle")[untouched] == pytest.approx(0.0, abs=1e-5)


def test_a_stopped_experiment_keeps_what_is_done_and_says_what_was_not_run():
    results = run_experiment(experiment(), lambda done, of: False)
    assert results.stopped
    assert results.done == 4  # the first load case was one block
    assert set(results.status[results.loads == "other_lifted"]) == {NOT_RUN}
    assert np.all(np.isnan(results.measures["palmar_angle"][results.status == NOT_RUN]))


def test_progress_counts_up_to_all_runs():
    seen = []
    run_experiment(experiment(), lambda done, of: seen.append((done, of)))
    assert seen == [(4, 8), (8, 8)]


def test_a_run_without_a_state_of_rest_is_not_tabulated():
    text = FACTORIAL.replace("{name: whole}", "{name: whole, set: {laminae_percent: 0, quarters_percent: 0, "
                             "sole_to_bone_percent: 0, sole_to_wall_percent: 0}}")  # fmt: skip
    results = run_experiment(experiment(text.replace("other_lifted", "trot")))
    lost = ~results.at_rest
    assert np.all(np.isnan(results.measures["palmar_angle"][lost]))
    assert np.all(np.isfinite(results.measures["palmar_angle"][~lost]))


def made_up(values, design="factorial", second="[0, 10]"):
    """Results whose palmar angle is `values` above the untouched foot's, without solving more than the baseline."""
    text = FACTORIAL.replace("design: factorial", f"design: {design}").split("  - name: load")[0]
    text = text.replace("[0, 10]", second) + "measures: [palmar_angle]\n"
    ready = run_experiment(experiment(text))
    before = ready.baselines["standing"].measures()["palmar_angle"]
    measures = {**ready.measures, "palmar_angle": before + np.array(values, dtype=float)}
    return Results(ready.experiment, ready.levels, ready.loads, ready.status, measures, ready.baselines)


def test_effects_are_means_over_the_other_factor():
    tendon, heel = effects(made_up([1.0, 3.0, 5.0, 11.0]), "palmar_angle")
    assert tendon.levels == ("cut", "whole")
    assert tendon.means.tolist() == pytest.approx([2.0, 8.0])
    assert heel.means.tolist() == pytest.approx([3.0, 7.0])
    assert heel.lowest.tolist() == pytest.approx([1.0, 3.0])
    assert heel.highest.tolist() == pytest.approx([5.0, 11.0])
    assert heel.size == pytest.approx(4.0)


def test_factors_that_add_up_do_not_interact_and_others_do():
    (none,) = interactions(made_up([1.0, 3.0, 5.0, 7.0]), "palmar_angle")
    assert none.size == pytest.approx(0.0, abs=1e-9)
    (some,) = interactions(made_up([1.0, 3.0, 5.0, 11.0]), "palmar_angle")
    assert some.size == pytest.approx(1.0)  # 11 lies 4 above the sum: each cell departs by a quarter


def test_an_empty_combination_is_left_out_and_not_guessed():
    results = made_up([1.0, np.nan, 5.0, 11.0])
    assert interactions(results, "palmar_angle") == []
    assert np.isnan(cell_means(results, "palmar_angle", 0, 1)[0, 1])
    assert effects(results, "palmar_angle")[1].counts.tolist() == [2.0, 1.0]


def test_one_at_a_time_each_effect_is_read_with_the_others_untouched():
    results = made_up([0.0, 4.0, 9.0], design="one at a time")
    tendon, heel = effects(results, "palmar_angle")
    assert tendon.means.tolist() == pytest.approx([4.0, 0.0])
    assert heel.means.tolist() == pytest.approx([0.0, 9.0])
    assert interactions(results, "palmar_angle") == []
