"""The facade as a notebook uses it."""

import doctest

import numpy as np
import pytest

import hoofsim
import hoofsim.model
from hoofsim.errors import BadInput
from hoofsim.measures.table import MEASURES


def test_the_example_in_the_docstring_runs() -> None:
    result = doctest.testmod(hoofsim.model)
    assert result.attempted >= 5
    assert result.failed == 0


def test_measures_are_plain_finite_numbers_for_every_name() -> None:
    measures = hoofsim.Foot("sound").load().measures()
    assert set(measures) == set(MEASURES)
    assert all(isinstance(value, float) and np.isfinite(value) for value in measures.values())


def test_feet_are_values() -> None:
    foot = hoofsim.Foot("sound")
    raised = foot.change(heel_change_mm=5)
    assert foot.values["heel_change_mm"] == 0
    assert raised.changes == {"heel_change_mm": 5.0}
    assert raised == hoofsim.Foot("sound", heel_change_mm=5)
    assert raised.change(heel_change_mm=0) == foot


def test_a_sweep_equals_feet_one_by_one() -> None:
    heels = [-4.0, 0.0, 7.0]
    table = hoofsim.sweep(
        "long_toe_low_heel", {"wedge_deg": heels, "laminae_percent": 60}, load="walk", stance_percent=65
    )
    for row, wedge in enumerate(heels):
        one = (
            hoofsim.Foot("long_toe_low_heel", wedge_deg=wedge, laminae_percent=60).load("walk", 65).measures()
        )
        for name, value in one.items():
            assert table[name][row] == pytest.approx(value, abs=1e-5), name


def test_a_sweep_can_be_stopped_and_keeps_what_is_done(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hoofsim.model, "SWEEP_BLOCK", 10)
    seen = []

    def stop_after_two(done: int, total: int) -> bool:
        seen.append((done, total))
        return done < 20

    table = hoofsim.sweep("sound", {"heel_change_mm": np.linspace(0, 5, 50)}, progress=stop_after_two)
    assert seen == [(10, 50), (20, 50)]
    assert table.count == 20 == table["palmar_angle"].size == table.settings["heel_change_mm"].size


def test_bad_settings_are_one_sentence() -> None:
    with pytest.raises(BadInput, match="did you mean 'wedge_deg'"):
        hoofsim.Foot("sound", wedge_degs=3)
    with pytest.raises(BadInput, match="out of range: allowed -8 to 15 deg"):
        hoofsim.sweep("sound", {"wedge_deg": [0, 40]})
    with pytest.raises(BadInput, match="did you mean 'standing'"):
        hoofsim.Foot("sound").load("standin")
    with pytest.raises(BadInput, match="2 values where the others have 3"):
        hoofsim.sweep("sound", {"wedge_deg": [0, 1, 2], "heel_change_mm": [0, 1]})


def test_a_foot_that_finds_no_rest_shows_no_numbers() -> None:
    table = hoofsim.sweep(
        hoofsim.Foot("sound", laminae_percent=3, quarters_percent=3, sole_to_bone_percent=0, sole_to_wall_percent=0,
                     tendon_pull_percent=300, tendon_tone_n=2000, bed_depth_mm=55),
        {"heel_change_mm": np.linspace(-15, 30, 60), "toe_change_mm": np.linspace(40, -10, 60)}, load="trot",
    )  # fmt: skip
    lost = table.status != "converged"
    for name, column in table.items():
        assert np.isnan(column[lost]).all(), name
        assert np.isfinite(column[~lost]).all(), name


def test_baseline_is_the_preset_under_the_same_load() -> None:
    loaded = hoofsim.Foot("pony", wedge_deg=4).load("walk", 65)
    assert loaded.baseline.foot == hoofsim.Foot("pony")
    assert loaded.baseline.stance_percent == 65
    assert loaded.measures()["palmar_angle_change"] > 2


def test_a_foot_can_be_its_own_baseline() -> None:
    worn = hoofsim.Foot("sound", heel_change_mm=8).as_own()
    assert worn.changes == {}
    assert worn.change(wedge_deg=2).changes == {"wedge_deg": 2.0}
    loaded = worn.change(wedge_deg=2).load()
    assert loaded.baseline.foot.values["heel_change_mm"] == 8
    assert loaded.measures()["palmar_angle_change"] == pytest.approx(2.0, abs=0.5)
