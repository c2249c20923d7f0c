"""Bands of uncertainty in the rows: for the standard cases alone, drawn, told in the tooltip, and never in the way."""

import pygame
import pytest
from driving import application, draw, move

from hoofsim.app.screens.sandbox.uncertain import bands_for, standard_case
from hoofsim.app.widgets.report import complaints
from hoofsim.session.commands import ChoosePreset, SetControl, SetLoad
from hoofsim.verify.uncertainty import CASES


def rows(app):
    draw(app)
    return {row.key: row for row in app.screen.measures.list.rows}


def give(app, *commands):
    for command in commands:
        app.screen.give(command, None)


SETTINGS = {
    "standing": [],
    "other_lifted": [SetLoad("other_lifted")],
    "trot": [SetLoad("trot", 50)],
    "walk_breakover": [SetLoad("walk", 84)],
    "wedge": [SetControl("wedge_deg", 6)],
    "failed": [ChoosePreset("failed_laminae")],
}


def test_the_cases_tried_are_all_there_are():
    assert set(SETTINGS) == set(CASES)


@pytest.mark.parametrize("size", [(1024, 700), (1280, 800)], ids=["one dock", "wide"])
@pytest.mark.parametrize("case", SETTINGS)
def test_each_standard_case_has_its_bands_round_its_numbers(case, size):
    app = application(size)
    give(app, *SETTINGS[case])
    if not app.screen.wide:
        app.screen.choose_panel("measures")
    app.screen.shown.play(False)
    assert standard_case(app.session.state) == case
    found = rows(app)
    low, high = found["tendon_tension"].band
    assert low <= found["tendon_tension"].place <= high
    assert complaints(draw(app).records, size) == []


@pytest.mark.parametrize(
    "command", [SetControl("heel_change_mm", 1), SetLoad("trot", 40), ChoosePreset("pony")], ids=str
)
def test_any_other_foot_or_moment_has_none(command):
    app = application()
    give(app, command)
    assert bands_for(app.session.state) == {}
    assert all(row.band is None for row in rows(app).values())


def test_a_moment_of_a_running_stride_has_none():
    app = application()
    give(app, SetLoad("trot", 50))
    assert rows(app)["tendon_tension"].band is not None
    app.screen.shown.play(True)
    draw(app, 0.3)
    app.screen.sitting_changed()
    assert rows(app)["tendon_tension"].band is None


def test_the_tooltip_says_what_the_band_is_and_the_row_shows_it():
    app = application()
    found = rows(app)
    row = app.screen.measures.list.row_rect("tendon_tension")
    painter = draw(app)
    assert found["tendon_tension"].band_words in [record.text for record in painter.records]
    move(app, row.center)
    app.advance(1.0)
    said = " ".join(record.text for record in draw(app).records)
    assert "90 % band from uncertain constants" in said
    assert complaints(draw(app).records, app.size) == []


def test_the_bracket_is_drawn_under_the_bar():
    surfaces = []
    for command in ([], [SetControl("bed_depth_mm", 0.01)]):
        app = application()
        give(app, *command)
        app.screen.measures.list.selected = ""
        draw(app)
        rect = app.screen.measures.list.row_rect("palmar_angle")
        surface = pygame.Surface(app.size)
        app.draw(surface)
        quiet = app.theme.colour("quiet")
        part = surface.subsurface(rect)
        surfaces.append(
            sum(part.get_at((x, y))[:3] == quiet for x in range(part.get_width() // 2) for y in range(rect.h))
        )
    assert surfaces[0] > surfaces[1]
