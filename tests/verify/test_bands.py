"""The carried bands: present for every case and measure, made from today's spreads, and about today's model."""

import json
import math

import pytest

from hoofsim.errors import BadInput
from hoofsim.foot.parameters import BY_NAME
from hoofsim.measures.table import MEASURES
from hoofsim.resources import assets_folder
from hoofsim.verify.bands import FILE, as_text, band, carried, case_like, from_text
from hoofsim.verify.uncertainty import CASES, MEASURED, UNCERTAIN, bands_of, sample

RENEW = "renew with: hoofsim verify --uncertainty --bands assets/bands.json"


def test_six_cases_with_every_measure_and_three_parameters():
    assert len(CASES) == 6
    assert set(carried()) == set(CASES)
    for bands in carried().values():
        assert set(bands) == set(MEASURED) <= set(MEASURES)
        for one in bands.values():
            assert one.low <= one.middle <= one.high
            assert len(one.matter) == 3
            assert all(name in BY_NAME for name, _ in one.matter)


def test_made_from_the_spreads_of_today():
    made = json.loads((assets_folder() / FILE).read_text(encoding="utf-8"))["spreads"]
    assert made == {one.name: one.spread for one in UNCERTAIN}, RENEW


@pytest.mark.parametrize("name", CASES)
def test_the_model_of_today_lies_in_every_band(name):
    case = CASES[name]
    read = case.foot.load(case.load, case.stance_percent).measures()
    for measure in MEASURED:
        low, high = band(name, measure)
        assert low <= read[measure] <= high, f"{measure}: {RENEW}"


def test_a_small_design_finds_bands_near_the_carried_ones():
    found = bands_of(CASES["standing"], 48)
    for measure in ("palmar_angle", "tendon_tension", "centre_of_pressure"):
        one = carried()["standing"][measure]
        width = one.high - one.low
        assert found[measure].low == pytest.approx(one.low, abs=0.25 * width), RENEW
        assert found[measure].high == pytest.approx(one.high, abs=0.25 * width), RENEW
    assert found["tendon_tension"].matter[0][0] == "standing_tension_n_per_kg"


def test_samples_keep_to_each_range_and_to_two_deviations():
    case = CASES["standing"]
    for name, values in sample(case, 16).items():
        control = BY_NAME[name]
        centre = case.foot.values[name]
        assert (abs(values - centre) <= 2.0 * control.spread + 1e-9).all()
        assert (values >= control.low).all()
        assert (values <= control.high).all()


def test_text_and_back():
    assert from_text(as_text(carried())) == carried()


def test_no_band_for_what_was_not_computed_and_bad_case_told():
    assert band("standing", "hoof_angle") is None
    assert not any(math.isnan(end) for end in band("trot", "navicular_load"))
    with pytest.raises(BadInput, match="did you mean 'standing'"):
        band("standng", "tendon_tension")


def test_a_case_is_found_for_a_ready_foot_under_a_load():
    assert case_like("sound", "trot") == "trot"
    assert case_like("failed_laminae", "standing") == "failed"
    assert case_like("pony", "trot") is None
