"""The page about the model: opened from the cautions by keys, every block of it shown, and read to its end."""

import pygame
import pytest
from driving import application, draw, press, tab_to

from hoofsim.app.widgets.report import complaints
from hoofsim.app.widgets.rich_text import parse
from hoofsim.resources import model_page


def test_it_is_opened_from_the_cautions_by_keys_and_left_by_escape():
    app = application((1280, 800), "cautions")
    tab_to(app, "The model")
    press(app, pygame.K_RETURN)
    draw(app)
    assert app.screen.name == "model"
    press(app, pygame.K_ESCAPE)
    assert app.screen.name == "cautions"


@pytest.mark.parametrize("scale", [100, 200])
@pytest.mark.parametrize("size", [(640, 480), (1024, 700), (1280, 800)], ids=lambda s: f"{s[0]}x{s[1]}")
def test_every_word_of_it_is_shown_on_the_way_to_its_end(size, scale):
    app = application(size, "model", text_percent=scale)
    shown = set()
    for _ in range(200):
        painter = draw(app)
        assert complaints(painter.records, size) == []
        shown |= {word for record in painter.records for word in record.text.split()}
        before = app.screen.panel.offset
        press(app, pygame.K_PAGEDOWN)
        if app.screen.panel.offset == before:
            break
    blocks = parse(model_page())
    wanted = {word for block in blocks for span in block.spans for word in span.text.split()}
    # A word set in two looks ("*Predicted*,") is shown as two; all others stand as they are written.
    assert len(wanted - shown) <= 0.01 * len(wanted)


def test_headings_of_any_depth_and_numbered_items_are_understood():
    blocks = parse("## Deep\n\n1. one\n2. two\n10. ten\n\n- dot\n\n2026 was. A year")
    assert [(block.kind, block.sign) for block in blocks] == [
        ("heading", ""), ("item", "1."), ("item", "2."), ("item", "10."), ("item", "•"), ("paragraph", ""),
    ]  # fmt: skip
    assert blocks[2].spans[0].text == "two"
