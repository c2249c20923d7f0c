"""Each control does what a hand or a key asks of it, and tells once."""

import pygame
import pytest

from hoofsim.app.theme import theme_for
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.measure_list import MeasureList, MeasureRow
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.rich_text import RichText, parse
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.slider import Slider, rounded
from hoofsim.app.widgets.switch import Switch
from hoofsim.app.widgets.tabs import TabItem, Tabs
from hoofsim.app.widgets.text_field import TextField

THEME = theme_for((1280, 800))


def key(code, text="", mod=0):
    return pygame.event.Event(pygame.KEYDOWN, key=code, unicode=text, mod=mod)


def slider(told, value=0.0):
    made = Slider("Heel", value, -10, 30, 0.5, 0.0, lambda v, g: told.append((v, g)), lambda v: f"{v:.1f} mm")
    made.place(Rect(0, 0, 300, made.height_for(300, THEME)), THEME)
    return made


def test_slider_keys_move_by_steps_pages_and_ends():
    told = []
    one = slider(told)
    for code in (
        pygame.K_RIGHT,
        pygame.K_UP,
        pygame.K_LEFT,
        pygame.K_PAGEUP,
        pygame.K_END,
        pygame.K_HOME,
        pygame.K_BACKSPACE,
    ):
        assert one.key(key(code), THEME)
    assert [value for value, _ in told] == [0.5, 1.0, 0.5, 5.5, 30, -10, 0]
    assert not one.key(key(pygame.K_a), THEME)


def test_slider_stops_at_its_ends_without_telling():
    told = []
    one = slider(told, 30.0)
    one.key(key(pygame.K_RIGHT), THEME)
    assert told == []


def test_slider_follows_the_pointer_and_one_drag_is_one_gesture():
    told = []
    one = slider(told)
    groove = one.groove(THEME)
    assert one.press((round(one.position_of(10, THEME)), groove.centery), THEME)
    one.drag((round(one.position_of(20, THEME)), groove.centery), THEME)
    one.drag((5000, groove.centery), THEME)
    one.release((5000, groove.centery), THEME)
    values, gestures = zip(*told, strict=True)
    assert values[0] == pytest.approx(10, abs=0.5)
    assert values[-1] == 30
    assert len(set(gestures)) == 1
    one.press((round(one.position_of(0, THEME)), groove.centery), THEME)
    assert told[-1][1] != gestures[0]


def test_double_press_puts_the_slider_back():
    told = []
    one = slider(told, 7.0)
    one.press(one.groove(THEME).center, THEME, double=True)
    assert one.value == 0.0


def test_wheel_moves_a_slider_only_when_it_has_the_focus():
    told = []
    one = slider(told)
    assert not one.wheel(1, THEME)
    one.focused = True
    assert one.wheel(1, THEME)
    assert one.value == 0.5


def test_a_disabled_slider_takes_nothing():
    told = []
    one = slider(told)
    one.enabled = False
    one.key(key(pygame.K_RIGHT), THEME)
    one.press(one.groove(THEME).center, THEME)
    assert told == []


def test_rounding_reaches_both_ends_and_leaves_no_dust():
    assert rounded(0.30000000000000004, 0.1, 0, 1) == 0.3
    assert rounded(-3.1, 0.5, -3.2, 5) == -3.0
    assert rounded(-9, 0.5, -3.2, 5) == -3.2


def test_button_acts_on_release_inside_and_on_keys():
    deeds = []
    one = Button("Go", lambda: deeds.append(1))
    one.place(Rect(0, 0, 80, 30), THEME)
    one.press((10, 10), THEME)
    assert deeds == []
    one.release((200, 10), THEME)
    assert deeds == []
    one.press((10, 10), THEME)
    one.release((12, 12), THEME)
    one.key(key(pygame.K_RETURN), THEME)
    one.key(key(pygame.K_SPACE), THEME)
    assert len(deeds) == 3
    one.enabled = False
    assert not one.key(key(pygame.K_SPACE), THEME)


def test_switch_turns_with_press_space_and_arrows():
    told = []
    one = Switch("Contrast", False, told.append)
    one.press((0, 0), THEME)
    one.key(key(pygame.K_SPACE), THEME)
    one.key(key(pygame.K_LEFT), THEME)
    one.key(key(pygame.K_RIGHT), THEME)
    assert told == [True, False, True]


def drop(told):
    made = DropDown("Foot", [Choice(n, n.title()) for n in ("sound", "pony", "steep")], "sound", told.append)
    made.place(Rect(10, 10, 200, made.height_for(200, THEME)), THEME)
    return made


def test_dropdown_by_keys():
    told = []
    one = drop(told)
    one.key(key(pygame.K_DOWN), THEME)
    assert one.open
    one.key(key(pygame.K_DOWN), THEME)
    one.key(key(pygame.K_RETURN), THEME)
    assert (told, one.open) == (["pony"], False)
    one.key(key(pygame.K_SPACE), THEME)
    one.key(key(pygame.K_s, "s"), THEME)
    one.key(key(pygame.K_ESCAPE), THEME)
    assert (told, one.open) == (["pony"], False)


def test_dropdown_by_pointer_and_closing_outside():
    told = []
    one = drop(told)
    one.press((20, 30), THEME)
    rect, index = one._placed(THEME)[2]
    one.hover(rect.center, THEME)
    assert one.pointed == index == 2
    one.press(rect.center, THEME)
    assert told == ["steep"]
    one.press((20, 30), THEME)
    one.press((900, 700), THEME)
    assert not one.open


def test_a_list_longer_than_the_window_scrolls_to_what_is_pointed_at():
    small = theme_for((640, 480))
    one = DropDown("Many", [Choice(str(n), f"line {n}") for n in range(80)], "0", lambda value: None)
    one.place(Rect(10, 400, 200, 60), small)
    one.key(key(pygame.K_RETURN), small)
    one.key(key(pygame.K_END), small)
    assert 79 in [index for _, index in one._placed(small)]
    assert Rect(0, 0, 640, 480).contains(one.over_rect())


def test_text_field_types_moves_and_enters():
    entered = []
    one = TextField("Note", "", entered.append)
    one.typed("heel p")
    one.key(key(pygame.K_HOME), THEME)
    one.typed("a ")
    one.key(key(pygame.K_DELETE), THEME)
    one.key(key(pygame.K_END), THEME)
    one.key(key(pygame.K_BACKSPACE), THEME)
    one.typed("up\n")
    one.key(key(pygame.K_RETURN), THEME)
    assert entered == ["a eel up"]
    assert one.key(key(pygame.K_c, "c"), THEME), "letters must not fall through to shortcuts"
    assert not one.key(key(pygame.K_F1), THEME)


def test_text_field_keeps_its_length():
    one = TextField("Note", "", lambda text: None, longest=5)
    one.typed("abcdefgh")
    assert one.text == "abcde"


def test_tabs_walk_round_with_arrows():
    told = []
    items = [TabItem(name, name, "foot") for name in ("trim", "bonds", "load")]
    one = Tabs("groups", items, "trim", told.append)
    one.place(Rect(0, 0, 60, 400), THEME)
    one.key(key(pygame.K_UP), THEME)
    one.key(key(pygame.K_DOWN), THEME)
    one.press((10, 80), THEME)
    assert told == ["load", "trim", "bonds"]


def test_measure_list_moves_its_choice_and_draws_every_row():
    told = []
    one = MeasureList("Measures", told.append)
    one.rows = [
        MeasureRow(f"m{n}", f"measure {n}", f"{n}.0 mm", "+1.0", 1, n % 2 == 0, (0, 5), n) for n in range(6)
    ]
    one.place(Rect(0, 0, 280, one.height_for(280, THEME)), THEME)
    one.key(key(pygame.K_DOWN), THEME)
    one.key(key(pygame.K_END), THEME)
    one.press(one.row_rect("m2").center, THEME)
    assert told == ["m0", "m5", "m2"]
    painter = Painter(pygame.Surface((300, 600)), THEME)
    one.draw(painter)
    assert {record.text for record in painter.records} >= {f"measure {n}" for n in range(6)}


def panel_of(count):
    one = ScrollPanel("p", [Button(f"b{n}", lambda: None) for n in range(count)])
    one.place(Rect(0, 0, 200, 100), THEME)
    return one


def test_scroll_panel_reveals_wheels_and_clamps():
    one = panel_of(20)
    assert one.overflows()
    one.reveal(one.items[-1])
    assert one.rect.contains(one.items[-1].rect)
    one.wheel(1000, THEME)
    assert one.offset == 0
    one.wheel(-1000, THEME)
    assert one.offset == one.content_height - one.rect.h
    assert not panel_of(1).wheel(-1, THEME)


def test_scroll_bar_can_be_dragged():
    one = panel_of(20)
    assert one.press((one.rect.right - 2, 5), THEME)
    one.drag((one.rect.right - 2, 500), THEME)
    assert one.offset == one.content_height - one.rect.h


def test_a_panel_of_mere_text_takes_the_focus_itself():
    text = ScrollPanel("t", [RichText("words " * 400)])
    text.place(Rect(0, 0, 200, 100), THEME)
    assert text.focusable
    assert not panel_of(20).focusable


def test_rich_text_knows_its_marks_and_follows_links():
    blocks = parse("# Head\n\nplain **bold** *slanted* `code` [words](there)\n\n- one\n- two")
    assert [block.kind for block in blocks] == ["heading", "paragraph", "item", "item"]
    assert [span.role for span in blocks[1].spans if span.text.strip()] == [
        "body",
        "bold",
        "italic",
        "code",
        "body",
    ]
    followed = []
    one = RichText("see [the **sole**](sole) now", followed.append)
    one.place(Rect(0, 0, 300, 100), THEME)
    one.children()[0].key(key(pygame.K_RETURN), THEME)
    assert followed == ["sole"]


def test_rich_text_lines_stay_inside_their_width():
    one = RichText("# A long heading that must wrap\n\n" + "some **bold** and plain words " * 20)
    for width in (90, 200, 500):
        one.place(Rect(0, 0, width, one.height_for(width, THEME)), THEME)
        for piece in one._placed:
            pixels, face = THEME.text_pixels(piece.span.role)
            assert piece.rect[0] + THEME.fonts.width(piece.span.text.rstrip(), face, pixels) <= width
