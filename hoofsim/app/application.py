"""The running program without a window: settings, theme, sitting, screens, and one sentence for the reader."""

import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pygame

from hoofsim.app.fonts import Fonts
from hoofsim.app.saving import Saving
from hoofsim.app.screens.screen import Screen
from hoofsim.app.screens.stack import ScreenStack
from hoofsim.app.settings import Settings, save_settings
from hoofsim.app.theme import TEXT_SCALE_HIGH, TEXT_SCALE_LOW, Theme, theme_for
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.layout import inset
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines
from hoofsim.errors import HoofsimError
from hoofsim.files.kinds import kind_word
from hoofsim.files.reader import read_file
from hoofsim.lessons.loader import LESSON, load_lesson
from hoofsim.session.opening import READERS, load_sitting
from hoofsim.session.recovery import Recovery
from hoofsim.session.sandbox_file import SANDBOX, save
from hoofsim.session.session import Session

NOTICE_SECONDS, SECONDS_A_SIGN = 5.0, 0.06  # how long a sentence stays: time to look up, and time to read
TEXT_STEP = 10
AUTOSAVE_AFTER = 1.5  # seconds without a change


class Application:
    """Everything that outlives a screen. The window asks it to handle events, to advance and to draw."""

    def __init__(
        self,
        size: tuple[int, int],
        settings: Settings | None = None,
        keep: bool = True,
        density: float = 1.0,
    ) -> None:
        """`keep`: write settings and recovery to the user folder (not for pictures made from the command line).

        `density`: how many times larger than usual the display wants things drawn, if the settings leave it to that.
        """
        self.settings = settings or Settings()
        self.keep = keep
        self.density = density
        self.size = size
        self.fonts = Fonts()
        self.theme = self._theme()
        self.session = Session()
        self.file: Path | None = None
        self.stack = ScreenStack()
        self.running = True
        self.fullscreen = False
        self.notice = ""
        self.saving: Saving | None = None
        self._notice_left = 0.0
        self._kept_at: tuple[int, object] = (0, self.session.state)
        self._unkept_for = 0.0
        self._recovery: Recovery | None = None
        self.painter: Painter | None = None
        self.clock: Callable[[], float] = time.perf_counter
        # When drawing has to end, s of that clock; None: there is no hurry.
        self.draw_until: float | None = None

    def _theme(self) -> Theme:
        chosen = self.settings
        return theme_for(
            self.size,
            chosen.text_scale,
            chosen.contrast,
            chosen.reduced_motion,
            self.fonts,
            chosen.screen_factor(self.density),
        )

    # -- screens -------------------------------------------------------------------------------------------------

    def open(self, name: str, **arguments: Any) -> None:
        """Put the screen of that name on top, or uncover it when it is already on the stack."""
        from hoofsim.app.screens.registry import make_screen

        if not self.stack.pop_to(name):
            self.stack.push(make_screen(name, self, **arguments))

    def back(self) -> None:
        """Uncover the screen below; on the last one this is a request to leave, which goes to the start screen."""
        if not self.stack.pop() and self.stack.top.name != "start":
            self.stack = ScreenStack()
            self.open("start")

    @property
    def screen(self) -> Screen:
        """The screen in view."""
        return self.stack.top

    def say(self, sentence: str) -> None:
        """Show one sentence at the bottom for a while."""
        self.notice, self._notice_left = sentence, NOTICE_SECONDS + SECONDS_A_SIGN * len(sentence)

    # -- settings ------------------------------------------------------------------------------------------------

    def change_settings(self, **changes: Any) -> None:
        """Take new settings, lay out anew, keep them."""
        self.settings = replace(self.settings, **changes)
        self.resized(self.size)
        if self.keep:
            problem = save_settings(self.settings)
            if problem:
                self.say(problem)

    def resized(self, size: tuple[int, int]) -> None:
        """The window has another size."""
        self.size = size
        self.theme = self._theme()
        if self.stack.names:
            self.stack.place()

    # -- files ---------------------------------------------------------------------------------------------------

    def open_file(self, path: Path) -> bool:
        """Open a sitting, a scenario's foot or a lesson; on trouble say the sentence and leave everything as it was."""
        try:
            document = read_file(path)
            kind = kind_word(document, [*READERS, LESSON.name])
            opened = load_lesson(document) if kind == LESSON.name else load_sitting(document)
        except HoofsimError as problem:
            self.say(str(problem))
            return False
        self.stack = ScreenStack()
        self.open("start")
        if isinstance(opened, Session):
            self.session, self.file = opened, path if kind == SANDBOX.name else None
            self.open("sandbox")
            self.say(f"Opened {path.name}.")
        else:
            self.open("lesson", path=path)
        return True

    def save_sandbox_file(self, path: Path) -> bool:
        """Save the sitting; on trouble say the sentence, and the sitting stays as it is."""
        try:
            save(self.session, path)
        except HoofsimError as problem:
            self.say(str(problem))
            return False
        self.file = path
        self.say(f"Saved to {path}.")
        return True

    @property
    def recovery(self) -> Recovery:
        """Where this window's sitting is kept, taken when first asked for."""
        if self._recovery is None:
            self._recovery = Recovery.take()
        return self._recovery

    def export(self, path: Path) -> bool:
        """Begin to save a picture, a handout or a clip, as the name's ending says; on trouble say the sentence."""
        if self.saving is not None:
            self.say(f"{self.saving.path.name} is still being saved; Esc stops it.")
            return False
        try:
            self.saving = Saving(self.session, path, self.settings.length_unit)
        except HoofsimError as problem:
            self.say(f"Not saved: {problem}")
            return False
        return True

    def _follow_saving(self) -> None:
        """Say how far the file is that is being made, or what came of it."""
        if self.saving is None:
            return
        if self.saving.over:
            self.say(self.saving.sentence)
            self.saving = None
        else:
            self.say(self.saving.words)

    def keep_recovery(self) -> None:
        """Keep the sitting against a crash, if it changed since it was last kept."""
        now = (self.session.position, self.session.state)
        if not self.keep or now == self._kept_at:
            return
        self._kept_at = now
        try:
            self.recovery.keep(self.session)
        except HoofsimError as problem:
            self.say(f"This sitting cannot be kept against a crash: {problem}")

    # -- the loop's three calls ----------------------------------------------------------------------------------

    def handle(self, event: pygame.event.Event) -> None:
        """One event of the window."""
        if event.type == pygame.QUIT:
            self.quit()
        elif not (event.type == pygame.KEYDOWN and self._own_key(event)):
            self.screen.handle(event)

    def _own_key(self, event: pygame.event.Event) -> bool:
        """Keys that work on every screen."""
        control = bool(event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META))
        if event.key == pygame.K_F1:
            if self.screen.name != "cautions":
                self.open("cautions")
        elif event.key == pygame.K_F2:
            if self.screen.name != "settings":
                self.open("settings")
        elif event.key == pygame.K_F11:
            self.fullscreen = not self.fullscreen
        elif control and event.key in (pygame.K_PLUS, pygame.K_EQUALS, pygame.K_KP_PLUS):
            self.scale_text(TEXT_STEP)
        elif control and event.key in (pygame.K_MINUS, pygame.K_KP_MINUS):
            self.scale_text(-TEXT_STEP)
        elif control and event.key == pygame.K_0:
            self.change_settings(text_percent=100)
        elif control and event.key == pygame.K_q:
            self.quit()
        elif event.key == pygame.K_ESCAPE and self.saving is not None:
            self.saving.stop()
        else:
            return False
        return True

    def scale_text(self, step: int) -> None:
        """Larger or smaller text, by so many percent."""
        low, high = round(100 * TEXT_SCALE_LOW), round(100 * TEXT_SCALE_HIGH)
        self.change_settings(text_percent=min(max(self.settings.text_percent + step, low), high))
        self.say(f"Text size {self.settings.text_percent} %.")

    def quit(self) -> None:
        """Leave, with the sitting kept, and with the file that is just being made."""
        if self.saving is not None:
            self.saving.wait()
        self.keep_recovery()
        self.running = False

    def advance(self, seconds: float) -> None:
        """One fixed step of time."""
        self._follow_saving()
        self._notice_left -= seconds
        if self._notice_left <= 0:
            self.notice = ""
        if (self.session.position, self.session.state) != self._kept_at:
            self._unkept_for += seconds
            if self._unkept_for >= AUTOSAVE_AFTER:
                self._unkept_for = 0.0
                self.keep_recovery()
        self.screen.tick(seconds)

    @property
    def moving(self) -> bool:
        """True while something on the screen changes by itself."""
        return self.screen.animating or bool(self.notice) or self.screen.tooltip_due

    def draw(self, surface: pygame.Surface) -> Painter:
        """Draw the screen in view and the notice over it."""
        self.painter = self.screen.draw(surface)
        if self.notice:
            self.painter.layer += 1
            draw_notice(self.painter, self.notice)
        return self.painter


def draw_notice(painter: Painter, sentence: str) -> None:
    """A card with one sentence at the foot of the window."""
    theme, window = painter.theme, painter.surface.get_rect()
    width = min(window.w - theme.px(2), max(theme.px(14), theme.text_width(sentence) + theme.px(2.2)))
    lines = wrap_lines(sentence, theme.text_width, width - theme.px(2.1))
    height = theme.line_height() * len(lines) + theme.px(1)
    card = Rect(window.centerx - width // 2, window.bottom - height - theme.px(3), width, height)
    painter.box(card, "ink", None, 0.4)
    painter.text(sentence, inset(card, theme.px(1), theme.px(0.5)), "body", "card", wrap=True)
