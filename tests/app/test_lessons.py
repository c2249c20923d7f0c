"""The course in the window: every lesson played through, left and resumed, by hand and by key."""

import pygame
import pytest
from driving import STEP, application, click, draw, press, tab_to, up, walk, widget
from driving import down as press_down
from driving import move as move_to

from hoofsim.app.widgets.report import complaints
from hoofsim.lessons.events import AskCheck, GiveAnswer, GiveUp, Next
from hoofsim.lessons.loader import lesson_files, lesson_id
from hoofsim.lessons.store import DEFAULT_LEARNER, Store

SENTENCE = (
    "the bone moves with the tendon since one balances the other under load, so I watch both as I change one"
)
TRIALS = ("rises", "3", "10 20", SENTENCE)


def at_lesson(path, size=(1280, 800), keep=False, **settings):
    app = application(size, "lessons", **settings)
    app.keep = keep
    app.open("lesson", path=path)
    draw(app)
    return app


def through(app):
    """Answer or do whatever the present step wants."""
    view = app.screen.now
    if view.can_go_on:
        return
    if view.kind == "do":
        app.screen.send(GiveUp())
        app.screen.send(AskCheck())
        return
    for text in [*(word for word, _ in view.choices[:1]), *TRIALS]:
        app.screen.send(GiveAnswer(text))
        if app.screen.now.can_go_on:
            return
    raise AssertionError(f"step '{view.step}' takes no answer: {app.screen.now.told}")


@pytest.mark.parametrize("path", lesson_files(), ids=lambda path: path.stem)
def test_every_lesson_is_played_to_its_report_without_a_bad_text(path):
    large = int(path.stem[:2]) % 2
    size, percent = ((1024, 700), 200) if large else ((1280, 800), 100)
    app = at_lesson(path, size, text_percent=percent)
    for _ in range(80):
        painter = draw(app, 0.1)
        assert complaints(painter.records, size) == [], app.screen.now.step
        if app.screen.learner.progress.finished:
            break
        through(app)
        painter = draw(app)
        assert complaints(painter.records, size) == [], f"{app.screen.now.step}, answered"
        app.screen.send(Next())
    assert app.screen.learner.progress.finished
    assert any("marks" in record.text or "Read to the end" in record.text for record in painter.records)


def test_a_lesson_is_left_and_resumed_where_it_was():
    path = lesson_files()[0]
    app = at_lesson(path, keep=True)
    app.screen.send(Next())
    here = app.screen.now.step
    press(app, pygame.K_ESCAPE)
    painter = draw(app)
    assert app.screen.name == "lessons"
    assert any("step 2 of" in record.text for record in painter.records)
    again = at_lesson(path, keep=True)
    assert again.screen.now.step == here
    assert "back where you left" in again.notice
    click(again, widget(again, "Begin anew"))
    assert again.screen.now.number == 1
    assert Store.default().peek(DEFAULT_LEARNER, lesson_id(path)) is None


def test_a_lesson_is_read_by_keyboard_alone():
    app = at_lesson(lesson_files()[4])
    press(app, pygame.K_RETURN)
    assert app.screen.now.number == 2
    press(app, pygame.K_RETURN)
    assert app.screen.now.number == 2, "a prediction is committed to before going on"
    field = next(w for w in walk(app.screen.widgets) if w.name.startswith("Type a number"))
    tab_to(app, field.name).typed("-300")
    press(app, pygame.K_RETURN)
    draw(app)
    assert app.screen.now.given.startswith("−300")
    tab_to(app, "2")
    press(app, pygame.K_SPACE, text=" ")
    draw(app)
    assert app.screen.learner.progress.record(app.screen.now.step).sure_before == 2


def test_a_slider_drag_is_one_event_and_moves_the_foot_at_once():
    app = at_lesson(lesson_files()[4])
    for _ in range(20):
        if app.screen.now.kind == "do":
            break
        through(app)
        app.screen.send(Next())
    assert app.screen.now.kind == "do"
    painter = draw(app)
    assert painter.records
    slider = widget(app, "Heel change")
    before, events = float(app.screen.foot.points["heel_hairline"][1]), app.screen.learner.progress.events
    start = (round(slider.position_of(slider.value, app.theme)), slider.groove(app.theme).centery)
    move_to(app, start)
    press_down(app, start)
    for x in range(10, 120, 10):
        move_to(app, (start[0] + x, start[1]), (1, 0, 0))
        draw(app, STEP)
    assert float(app.screen.foot.points["heel_hairline"][1]) > before + 1
    up(app, (start[0] + 110, start[1]))
    draw(app, 0.6)
    assert app.screen.learner.progress.events == events + 1
    assert app.screen.now.controls[0].now == widget(app, "Heel change").value > 1


def test_a_place_on_the_drawing_is_an_answer():
    for path in lesson_files():
        app = at_lesson(path)
        for _ in range(80):
            if app.screen.now.wants_position or app.screen.learner.progress.finished:
                break
            through(app)
            app.screen.send(Next())
        if app.screen.now.wants_position:
            break
    assert app.screen.now.wants_position, "no lesson of the course asks for a place"
    draw(app)
    step = app.screen.now.step
    click(app, app.screen.view.sheet.center)
    assert app.screen.learner.progress.record(step).tries
    assert app.screen.now.wants_position is None


def test_a_term_is_explained_when_its_link_is_followed():
    app = at_lesson(lesson_files()[4])
    link = next(w for w in walk(app.screen.widgets) if w.name == "palmar angle")
    click(app, link)
    assert app.notice.lower().startswith("palmar angle")


def test_a_file_that_is_no_lesson_says_so_in_the_list(tmp_path, monkeypatch):
    bad = tmp_path / "bad.yaml"
    bad.write_text("hoofsim: 1\nkind: lesson\ntitle: x\n")
    monkeypatch.setattr("hoofsim.app.screens.lessons.lesson_files", lambda: [bad])
    app = application((1280, 800), "lessons")
    painter = draw(app)
    assert any("bad.yaml" in record.text for record in painter.records)


def test_a_lesson_is_read_again_when_its_author_saves_it(tmp_path):
    first = lesson_files()[0]
    path = tmp_path / "mine.yaml"
    text = first.read_text(encoding="utf-8")
    path.write_text(text, encoding="utf-8")
    app = at_lesson(path)
    app.screen.send(Next())
    at = app.screen.now.step
    title = app.screen.learner.lesson.title

    def saved(words):
        path.write_text(words, encoding="utf-8")
        return [record.text for record in draw(app, 0.6).records]

    assert "A better title" in saved(text.replace(f"title: {title}", "title: A better title", 1))
    assert "read again" in app.notice
    assert app.screen.now.step == at
    saved(text + "nonsense: true\n")
    assert app.notice.startswith(f"The lesson stays as it was: {path}:")
    assert app.screen.learner.lesson.title == "A better title"
    app.screen.send(Next())
    path.unlink()
    before = app.notice
    draw(app, 0.6)
    assert app.notice == before, "an editor has the file away for a moment"
    assert title in saved(text)
    assert complaints(draw(app).records, app.size) == []


def test_what_was_answered_stays_where_it_still_fits(tmp_path):
    path = tmp_path / "mine.yaml"
    text = lesson_files()[0].read_text(encoding="utf-8")
    path.write_text(text, encoding="utf-8")
    app = at_lesson(path)
    while not app.screen.learner.progress.records.get(app.screen.now.step) or app.screen.now.can_go_on:
        app.screen.send(Next())
    through(app)
    answered = {name: record.answer for name, record in app.screen.learner.progress.records.items()}
    assert any(answered.values())
    path.write_text(text + "\n# a remark of the author\n", encoding="utf-8")
    draw(app, 0.6)
    assert {name: record.answer for name, record in app.screen.learner.progress.records.items()} == answered
