"""Undo by replay: the start comes back bit for bit, gestures count as one, and trials keep what was read."""

import random
from contextlib import suppress

import numpy as np
import pytest

from hoofsim.errors import BadInput
from hoofsim.foot.parameters import PARAMETERS
from hoofsim.session.commands import (
    BrushLaminae,
    ChoosePreset,
    CutTendon,
    RestoreTrial,
    SetBaseline,
    SetControl,
    SetLoad,
)
from hoofsim.session.session import Session
from hoofsim.session.state import State


def points_of(session):
    return np.concatenate([point for _, point in sorted(session.loaded.points.items())])


def test_undo_to_the_start_gives_the_start_bit_for_bit():
    session = Session()
    before = points_of(session)
    session.do(SetControl("heel_change_mm", 9.5))
    session.do(SetLoad("trot", 40))
    session.do(BrushLaminae("distal", 35))
    session.do(CutTendon(True))
    session.do(ChoosePreset("pony"))
    assert not np.array_equal(points_of(session), before)
    while session.undo():
        pass
    assert session.state == State()
    fresh = Session()
    assert np.array_equal(points_of(session), before)
    assert np.array_equal(points_of(fresh), before)


def test_redo_leads_back_to_the_same_state():
    session = Session()
    session.do(SetControl("wedge_deg", 4))
    session.do(CutTendon(True))
    end = session.state
    session.undo()
    session.undo()
    assert session.redo()
    assert session.redo()
    assert session.state == end
    assert not session.redo()


def test_random_commands_undone_and_redone_agree_with_replay():
    chance = random.Random(7)
    session, states = Session(), [State()]
    for _ in range(60):
        parameter = chance.choice([p for p in PARAMETERS if p.name != "tendon_cut"])
        with suppress(BadInput):  # some would contradict what is set already
            session.do(SetControl(parameter.name, chance.uniform(parameter.low, parameter.high)))
            states.append(session.state)
    for state in reversed(states[:-1]):
        session.undo()
        assert session.state == state


def test_a_drag_is_one_step_of_undo():
    session = Session()
    for value in (1, 2, 3):
        session.do(SetControl("heel_change_mm", value), "drag 1")
    assert len(session.commands) == 1
    session.undo()
    assert session.value("heel_change_mm") == 0


def test_a_brush_over_two_thirds_is_one_step_of_undo_and_of_redo():
    session = Session()
    session.do(SetControl("heel_change_mm", 2))
    for middle, distal in ((90, 100), (80, 90), (70, 60)):
        session.do(BrushLaminae("middle", middle), "brush 1")
        session.do(BrushLaminae("distal", distal), "brush 1")
    end = session.state
    assert len(session.commands) == 3
    session.undo()
    assert session.value("laminae_middle_percent") == 100
    assert session.value("heel_change_mm") == 2
    session.redo()
    assert session.state == end


def test_a_drag_that_ends_where_it_began_leaves_no_step():
    session = Session()
    session.do(SetControl("heel_change_mm", 5), "drag 1")
    session.do(SetControl("heel_change_mm", 0), "drag 1")
    assert session.commands == ()


def test_a_new_command_forgets_what_was_undone():
    session = Session()
    session.do(SetControl("heel_change_mm", 5))
    session.undo()
    session.do(SetControl("wedge_deg", 2))
    assert session.redo_sentence() is None
    assert session.value("heel_change_mm") == 0


def test_the_baseline_is_the_foot_it_was_set_on_under_the_present_load():
    session = Session()
    session.do(SetControl("heel_change_mm", 10))
    session.do(SetBaseline())
    assert all(change.difference == 0 for change in session.changes().values())
    session.do(SetLoad("trot", 50))
    assert session.baseline.case == "trot"
    session.do(SetControl("heel_change_mm", 0))
    assert session.changes()["palmar_angle"].difference < -2
    session.do(SetBaseline(clear=True))
    assert session.changes()["palmar_angle"].difference == 0


def test_changes_say_what_a_radiograph_could_show():
    session = Session()
    session.do(SetControl("heel_change_mm", 1))
    assert not session.changes()["palmar_angle"].readable
    session.do(SetControl("heel_change_mm", 12))
    changes = session.changes()
    assert changes["palmar_angle"].readable
    assert not changes["tendon_tension"].readable


def test_a_trial_keeps_the_numbers_as_read_and_can_be_gone_back_to():
    session = Session()
    session.do(SetControl("heel_change_mm", 8))
    session.keep_trial("heel up", "palmar angle up by 3")
    kept = session.state.trials[0]
    assert dict(kept.results)["palmar_angle"] == session.loaded.measures()["palmar_angle"]
    session.do(ChoosePreset("pony"))
    session.do(RestoreTrial(1))
    assert session.value("heel_change_mm") == 8
    assert session.state.foot.preset == "sound"
    with pytest.raises(BadInput, match="no trial 2"):
        session.do(RestoreTrial(2))


def test_stance_moment_belongs_to_the_moving_loads():
    session = Session()
    session.do(SetLoad("walk"))
    assert session.value("stance_percent") == 50
    session.do(SetControl("stance_percent", 80))
    assert session.state.load.stance_percent == 80
    session.do(SetLoad("standing", 80))
    assert session.state.load.stance_percent is None


def test_an_impossible_command_changes_nothing():
    session = Session()
    session.do(SetControl("heel_change_mm", 3))
    before, history = session.state, session.commands
    with pytest.raises(BadInput):
        session.do(SetControl("heel_change_mm", 300))
    assert (session.state, session.commands) == (before, history)


def test_a_long_history_stands_where_replaying_it_leads():
    chance = random.Random(11)
    session = Session()
    names = [p for p in PARAMETERS if p.name != "tendon_cut"]
    for _ in range(2000):
        parameter = chance.choice(names)
        with suppress(BadInput):
            session.do(SetControl(parameter.name, chance.uniform(parameter.low, parameter.high)))
        if chance.random() < 0.3:
            session.undo()
    assert session.state == Session(session.commands, session.position).state


def test_choices_that_make_no_foot_together_are_refused_and_nothing_is_done():
    session = Session()
    session.do(SetControl("wedge_deg", 2))
    before, history = session.state, session.commands
    with pytest.raises(BadInput, match="contradicts"):
        session.do(SetControl("lucent_zone_mm", 13.4))
    assert (session.state, session.commands) == (before, history)
    session.do(SetControl("wall_to_bone_mm", 18))
    session.do(SetControl("lucent_zone_mm", 13.4))
    assert session.loaded.at_rest


def test_settings_that_need_each_other_may_be_given_in_any_order():
    session = Session()
    session.do_all([SetControl("lucent_zone_mm", 13.4), SetControl("wall_to_bone_mm", 18)])
    assert session.value("lucent_zone_mm") == 13.4
    with pytest.raises(BadInput, match="contradicts"):
        session.do_all([SetControl("wall_to_bone_mm", 12), SetControl("wedge_deg", 1)])
