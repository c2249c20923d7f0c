"""What a frame carries: work in turns, what stands round the sheet kept, drags handed over one by one."""

import pygame
import pytest
from driving import STEP, application, draw

from hoofsim.app.loop import Loop
from hoofsim.app.turns import Turns
from hoofsim.session.commands import SetLoad


class Clock:
    """A clock that the works below move on."""

    now = 0.0

    def __call__(self):
        return self.now

    def work(self, done, name, seconds):
        def do():
            done.append(name)
            self.now += seconds

        return do


def test_what_fits_is_done_and_the_rest_comes_first_next_time():
    clock, done = Clock(), []
    turns = Turns(clock)
    due = {"picture": clock.work(done, "picture", 8.0), "panels": clock.work(done, "panels", 5.0)}
    assert not turns.take(due, 100.0)
    assert done == ["picture", "panels"]
    done.clear()
    assert turns.take(due, clock.now + 10.0), "8 and 5 do not fit into 10"
    assert done == ["picture"]
    done.clear()
    assert turns.take(due, clock.now + 10.0)
    assert done == ["panels"], "what waited longest comes first"
    done.clear()
    assert not turns.take({"picture": due["picture"]}, clock.now), "one work is done however late it is"
    assert done == ["picture"]
    assert not turns.take({}, clock.now)


def motion(position, pressed=0):
    return pygame.event.Event(pygame.MOUSEMOTION, pos=position, rel=(0, 0), buttons=(pressed, 0, 0))


def button(kind, position):
    return pygame.event.Event(kind, pos=position, button=1)


@pytest.fixture
def loop():
    app = application()
    pygame.display.init()
    loop = Loop(app, pygame.display.set_mode(app.size))
    for _ in range(60):
        loop.frame(STEP, [])
    yield loop
    pygame.display.quit()


def assert_drawn_as_anew(loop):
    """What stands on the window is what drawing everything anew gives."""
    for _ in range(80):
        loop.frame(STEP, [])
    anew = pygame.Surface(loop.app.size, 0, loop.surface)
    loop.app.draw(anew)
    assert pygame.image.tobytes(loop.surface, "RGB") == pygame.image.tobytes(anew, "RGB")


def drag_handle(loop, key, moves):
    x, y = map(round, loop.app.screen.view.handle_places()[key])
    loop.frame(STEP, [motion((x, y)), button(pygame.MOUSEBUTTONDOWN, (x, y))])
    for dx, dy in moves:
        loop.frame(STEP, [motion((x + dx, y + dy), 1)])
    return x, y


def test_after_keys_drags_and_a_stride_the_window_is_as_drawn_anew(loop):
    screen = loop.app.screen
    x, y = drag_handle(loop, "heel", [(0, 3 * n) for n in range(8)])
    loop.frame(STEP, [button(pygame.MOUSEBUTTONUP, (x, y + 21))])
    assert_drawn_as_anew(loop)
    loop.frame(STEP, [motion(screen.parts.tools["blade"].rect.center)])
    assert_drawn_as_anew(loop)
    for key in (pygame.K_b, pygame.K_g, pygame.K_3, pygame.K_l, pygame.K_TAB):
        loop.frame(STEP, [pygame.event.Event(pygame.KEYDOWN, key=key, mod=0, unicode="")])
        assert_drawn_as_anew(loop)
    screen.give(SetLoad("walk"), None)
    screen.toggle_play()
    for _ in range(40):
        loop.frame(STEP, [])
    screen.toggle_play()
    assert_drawn_as_anew(loop)


def test_numbers_follow_a_stride_without_anything_being_touched(loop):
    screen = loop.app.screen
    screen.give(SetLoad("trot"), None)
    screen.toggle_play()
    seen = set()
    for _ in range(60):
        loop.frame(STEP, [])
        seen.add(next(row.value for row in screen.measures.list.rows if row.key == "tendon_tension"))
    assert len(seen) >= 5
    words = {record.text for record in loop.app.painter.records}
    assert next(row.value for row in screen.measures.list.rows if row.key == "tendon_tension") in words


def test_a_drag_goes_on_once_what_it_changed_is_drawn(loop):
    screen = loop.app.screen
    x, y = drag_handle(loop, "heel", [])
    screen.behind = True
    loop.frame(STEP, [motion((x, y + 10), 1)])
    assert screen.session.commands == ()
    screen.behind = False
    loop.frame(STEP, [motion((x, y + 30), 1)])
    assert len(screen.session.commands) == 1
    screen.behind = True
    loop.frame(STEP, [motion((x, y + 40), 1), button(pygame.MOUSEBUTTONUP, (x, y + 40))])
    assert not screen.following, "letting go is never held back"


def test_pictures_made_without_a_loop_are_whole():
    app = application()
    app.screen.give(SetLoad("other_lifted"), None)
    painter = draw(app)
    assert not app.screen.behind
    assert any("ther" in record.text and "lifted" in record.text for record in painter.records)
