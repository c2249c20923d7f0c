"""What mechanics says must happen when one control moves. Directions only: sizes belong to the published comparisons."""

import numpy as np
import pytest

import hoofsim
from hoofsim.measures.compute import measure_all


def trend(name: str, values: list[float], measure: str, load: str = "standing", **fixed: float) -> np.ndarray:
    table = hoofsim.sweep(hoofsim.Foot("sound", **fixed), {name: values}, load=load)
    assert set(table.status) == {"converged"}
    return table[measure]


def falls(numbers: np.ndarray) -> bool:
    return bool((np.diff(numbers) < 0).all())


def rises(numbers: np.ndarray) -> bool:
    return bool((np.diff(numbers) > 0).all())


def test_raised_heels_and_wedges_unload_the_tendon_and_move_the_ground_force_back() -> None:
    """Free body (F4) with posture (F7): a flexed coffin joint shortens the tendon's path."""
    assert falls(trend("heel_change_mm", [-4, 0, 4, 8], "tendon_tension"))
    assert falls(trend("wedge_deg", [-3, 0, 3, 5], "tendon_tension"))
    assert falls(trend("wedge_deg", [-3, 0, 3, 5], "ground_force_lever"))
    assert falls(trend("wedge_deg", [0, 3, 6], "navicular_load", load="trot"))


def test_a_stronger_pull_moves_the_centre_of_pressure_to_the_toe() -> None:
    assert falls(trend("tendon_pull_percent", [0, 50, 100, 200], "centre_of_pressure"))
    assert rises(trend("tendon_tone_n", [0, 200, 400], "tendon_tension"))


def test_a_long_toe_lengthens_the_lever_at_breakover_and_loads_the_wall() -> None:
    """Late in the stance the ground force sits at the toe (F3); a longer toe is a longer lever (F14, F17)."""
    late = {"stance_percent": 88.0, "tendon_tone_n": 400.0}
    assert rises(trend("toe_change_mm", [0, 6, 12], "ground_force_lever", load="walk", **late))
    levers = trend("toe_change_mm", [0, 6, 12], "breakover_to_tip", load="walk", **late)
    assert rises(levers)
    assert rises(trend("toe_change_mm", [0, 6, 12], "laminar_stress_peak", load="walk", **late))


def test_weaker_laminae_turn_bone_and_wall_apart_and_let_the_bone_down() -> None:
    share = [100, 50, 25, 12]
    assert rises(trend("laminae_percent", share, "capsular_rotation"))
    assert rises(trend("laminae_percent", share, "founder_distance"))
    assert falls(trend("laminae_percent", share, "sole_depth_tip"))


def test_quarters_lost_too_is_sinking_more_than_turning() -> None:
    dorsal = hoofsim.Foot("sound", laminae_percent=5)
    both = dorsal.change(quarters_percent=5)
    one, two = dorsal.load().measures(), both.load().measures()
    sound = hoofsim.Foot("sound").load().measures()
    sank = two["founder_distance"] - one["founder_distance"]
    turned = two["capsular_rotation"] - one["capsular_rotation"]
    assert sank > 0.5
    assert two["founder_distance"] > one["founder_distance"] > sound["founder_distance"]
    assert np.radians(turned) * 54 < sank


def test_tipping_the_whole_foot_leaves_the_bones_own_tip_to_frog_distance() -> None:
    """At rest exactly; under load within what a changed centre of pressure does to the tissues."""
    flat, tipped = hoofsim.Foot("sound"), hoofsim.Foot("sound", heel_change_mm=10)
    at_rest = [measure_all(foot.load().rest_points)["tip_to_frog"] for foot in (flat, tipped)]
    assert at_rest[0] == pytest.approx(10.0, abs=1e-9)
    assert at_rest[1] == pytest.approx(at_rest[0], abs=1e-9)
    loaded = [foot.load().measures()["tip_to_frog"] for foot in (flat, tipped)]
    assert abs(loaded[1] - loaded[0]) < 0.5


def test_a_cut_tendon_pulls_nothing_and_the_ground_force_meets_the_joint() -> None:
    measures = hoofsim.Foot("sound", tendon_cut=1).load().measures()
    assert measures["tendon_tension"] == 0.0
    assert measures["navicular_load"] == 0.0
    assert abs(measures["ground_force_lever"]) < 3.0


def test_the_navicular_follows_the_bone() -> None:
    """Correlation 0.97 with coffin-joint flexion (F12, abstract)."""
    turns = []
    for pull in (50.0, 100.0, 200.0, 300.0):
        freedoms = hoofsim.Foot("sound", tendon_pull_percent=pull).load("trot").equilibrium.freedoms
        turns.append(freedoms[2:4, 0])
    bone, navicular = np.array(turns).T
    assert np.corrcoef(bone, navicular)[0, 1] > 0.97


def test_a_yielding_bed_lets_frog_and_sole_share_the_load() -> None:
    firm = hoofsim.Foot("sound").load("walk")
    soft = hoofsim.Foot("sound", bed_depth_mm=30).load("walk")
    plate = slice(8, 17)

    def share(loaded: hoofsim.LoadedFoot) -> float:
        push = loaded.stations["ground"].normal
        return float(push[plate].sum() / push.sum())

    assert share(soft) > share(firm)


def test_a_lighter_load_lets_the_fetlock_up_and_so_unloads_the_tendon() -> None:
    """Fetlock angle follows the limb's force along one line (F5c), and the tendon passes the fetlock."""
    assert rises(trend("load_percent", [50, 75, 100, 125], "tendon_tension", load="trot"))
    assert rises(trend("load_percent", [60, 100, 140], "tendon_tension"))
