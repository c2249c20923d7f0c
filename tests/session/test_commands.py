"""Commands refuse what cannot be done, in one sentence, and survive being written down."""

import pytest

from hoofsim.errors import BadInput
from hoofsim.session.commands import (
    BrushLaminae,
    ChoosePreset,
    CutTendon,
    KeepTrial,
    RestoreTrial,
    SetBaseline,
    SetControl,
    SetLoad,
    from_plain,
)

EVERY = [
    ChoosePreset("pony"),
    SetControl("heel_change_mm", 7.123456789),
    SetLoad("walk", 33.3),
    SetLoad("standing"),
    CutTendon(True),
    BrushLaminae("distal", 40),
    SetBaseline(),
    KeepTrial("first: a note", "palmar angle up", (("palmar_angle", 4.2),)),
    RestoreTrial(1),
]


@pytest.mark.parametrize("command", EVERY, ids=lambda command: command.word)
def test_a_command_comes_back_from_its_plain_form(command):
    assert from_plain(command.plain()) == command


@pytest.mark.parametrize("command", EVERY, ids=lambda command: command.word)
def test_every_command_says_what_undo_takes_back(command):
    assert 3 < len(command.sentence()) < 80


@pytest.mark.parametrize(
    ("plain", "words"),
    [
        ({"do": "set_control", "name": "heel_chnge_mm", "value": 1}, "heel_change_mm"),
        ({"do": "set_control", "name": "heel_change_mm", "value": 99}, "allowed -18 to 30"),
        ({"do": "set_control", "name": "heel_change_mm", "value": "much"}, "needs a number"),
        ({"do": "set_control", "name": ["x"], "value": 1}, "must be a name"),
        ({"do": "set_control", "name": "heel_change_mm"}, "needs value"),
        ({"do": "set_contol", "name": "heel_change_mm", "value": 1}, "set_control"),
        ({"do": "set_load", "case": "canter"}, "unknown load 'canter'"),
        ({"do": "choose_preset", "preset": "ponny"}, "pony"),
        ({"do": "cut_tendon", "cut": 1}, "true or false"),
        ({"do": "brush_laminae", "third": "upper", "percent": 10}, "stretch of laminae"),
        ({"do": "keep_trial", "results": {"palmar_angle": "big"}}, "must be a number"),
        ({"do": "restore_trial", "number": 0}, "from 1"),
        ({"do": "set_load", "case": "walk", "speed": 3}, "has no 'speed'"),
        ("cut", "needs 'do:'"),
    ],
)
def test_a_wrong_command_is_refused_in_words(plain, words):
    with pytest.raises(BadInput, match=words):
        from_plain(plain)
