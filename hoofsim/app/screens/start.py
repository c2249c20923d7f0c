"""The first thing seen: a sound foot under load, in motion and named, and where to go from here."""

from typing import TYPE_CHECKING, Any

import pygame

from hoofsim.app.foot_picture import picture_of
from hoofsim.app.screens.sandbox.foot_view import FootView
from hoofsim.app.screens.screen import Screen
from hoofsim.app.stride import Stride
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.layout import inset, split_bottom, split_left, split_top
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.wrapping import wrap_lines
from hoofsim.cautions import SHORT_CAUTION
from hoofsim.model import Foot
from hoofsim.session.sandbox_file import recovered
from hoofsim.session.session import Session
from hoofsim.session.state import FootChoice

if TYPE_CHECKING:
    from hoofsim.app.application import Application

FIRST_TRY = (
    "Try first: open the sandbox, take the ring behind the heel and pull it up. Watch which angles follow, "
    "and which do not."
)
NAMED = (
    "p2",
    "p3",
    "navicular",
    "flexor_tendon",
    "lamellar_zone",
    "dorsal_wall",
    "sole",
    "frog",
    "digital_cushion",
)
LABELS = 0.86  # size of the words on the picture, in text sizes
SUBTITLE = "A horse's foot under load, to take apart and put together again"


class StartScreen(Screen):
    """Menu on the left (or under the foot where the window is narrow), the foot beside it."""

    name = "start"
    title = "hoofsim"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.view = FootView("A sound foot at walk")
        self.view.handles_shown = False
        self.loaded: Any = Foot("sound").load("standing")
        self.stride = Stride(FootChoice(), "walk")
        self.last_sitting = recovered() if app.keep else None
        self.menu = ScrollPanel("menu", self._buttons(), gap=0.45)
        self.widgets = [self.menu, self.view]
        self.card = self.sheet = self.head = self.foot_strip = Rect(0, 0, 0, 0)
        self._stale = True

    def _buttons(self) -> list[Any]:
        app = self.app
        buttons = [
            Button("Sandbox", self._new, "a new sitting with a sound foot", "foot", kind="main"),
            Button("Two feet side by side", lambda: app.open("pair"), "same load, one difference", "two"),
            Button("Lessons", lambda: app.open("lessons"), "guided, step by step", "book"),
            Button("Open a file", lambda: app.open("files"), "a sitting that was saved", "open"),
            Button(
                "Settings",
                lambda: app.open("settings"),
                "units, text size, contrast, motion, keys",
                "settings",
                keys="F2",
            ),
            Button("About and cautions", lambda: app.open("cautions"), "", "caution", keys="F1"),
        ]
        if app.session.commands or self.last_sitting is not None:
            buttons.insert(
                0, Button("Continue", self._continue, "the last sitting, as it was", "play", kind="main")
            )
            buttons[1].kind = "plain"
        return buttons

    def entered(self) -> None:
        """A sitting may have begun since."""
        self.menu.items = self._buttons()
        self.set_focus(self.menu.items[0])
        self.place()

    def _continue(self) -> None:
        if not self.app.session.commands and self.last_sitting is not None:
            self.app.session = self.last_sitting
        self.app.open("sandbox")

    def _new(self) -> None:
        self.app.session, self.app.file = Session(), None
        self.app.open("sandbox")

    def layout(self, theme: Theme, window: Rect) -> None:
        """Side by side when there is room, else the foot over the menu."""
        margin = theme.px(1.2)
        area = inset(window, margin)
        if area.w > theme.px(46):
            self.card, self.sheet = split_left(area, theme.px(22), margin)
        else:
            wanted = theme.px(3.6) + self.menu.height_for(area.w, theme)
            self.sheet, self.card = split_bottom(area, min(wanted, round(area.h * 0.62)), margin // 2)
        inner = inset(self.card, theme.px(1.3), theme.px(0.9))
        subtitle = theme.line_height() * len(wrap_lines(SUBTITLE, theme.text_width, inner.w))
        roomy = inner.h > theme.px(24)
        self.head, rest = split_top(inner, theme.px(3.4) + (subtitle if roomy else 0), theme.px(0.7))
        self.subtitle_shown = roomy
        self.menu.place(rest, theme)
        words = theme.line_height() * len(wrap_lines(FIRST_TRY, theme.text_width, self.sheet.w - theme.px(2)))
        caution = theme.line_height("small") * len(
            wrap_lines(
                SHORT_CAUTION, lambda part: theme.text_width(part, "small"), self.sheet.w - theme.px(2)
            )
        )
        view, self.foot_strip = split_bottom(self.sheet, words + caution + theme.px(1.6))
        self.view.place(inset(view, theme.px(0.2)), theme)
        self.view.show_all(theme.em * LABELS, lambda text_mm: self._picture(text_mm).bounds)
        self._stale = True

    def _picture(self, text_mm: float | None = None) -> Any:
        theme = self.app.theme
        return picture_of(
            self.loaded,
            None,
            text_mm=text_mm or self.view.text_mm(theme.em * LABELS),
            labels=NAMED,
            newtons_per_mm=100.0,
            note=False,
            title="A sound front foot "
            + ("at walk" if self.stride.ready and not theme.reduced_motion else "standing"),
            length_unit=self.app.settings.length_unit,
        )

    def draw(self, surface: pygame.Surface) -> Painter:
        """Renew the sheet when the foot moved, then draw."""
        if self._stale:
            self.view.picture = self._picture()
            self.view.points = self.loaded.points
            self._stale = False
        return super().draw(surface)

    def draw_ground(self, painter: Painter) -> None:
        """Card and sheet, name and sentences."""
        super().draw_ground(painter)
        theme = painter.theme
        painter.box(self.card, "card", "line", 0.7)
        painter.box(self.sheet, "card", "line", 0.7)
        name, below = split_top(self.head, theme.px(3.4))
        painter.text(self.title, name, "display", "accent")
        if self.subtitle_shown:
            painter.text(SUBTITLE, below, "body", "quiet", valign="top", wrap=True)
        words = inset(self.foot_strip, theme.px(1), theme.px(0.5))
        used = painter.text(FIRST_TRY, words, "body", valign="top", wrap=True)
        rest = Rect(words.x, words.y + used + theme.px(0.4), words.w, words.h - used - theme.px(0.4))
        painter.text(SHORT_CAUTION, rest, "small", "warn", valign="top", wrap=True)

    def advance(self, seconds: float) -> None:
        """Compute the stride a moment at a time, then play it."""
        if self.app.theme.reduced_motion:
            self.animating = False
            return
        self.animating = True
        if not self.stride.ready:
            self.stride.compute()
            if self.stride.ready:
                self.place()
            return
        self.stride.advance(seconds)
        foot = self.stride.shown()
        if foot is not None:
            self.loaded, self._stale = foot, True

    def shortcut(self, event: pygame.event.Event) -> bool:
        """F2 opens the settings, Up and Down walk the menu."""
        if event.key == pygame.K_F2:
            self.app.open("settings")
        elif event.key in (pygame.K_DOWN, pygame.K_UP):
            self.move_focus(1 if event.key == pygame.K_DOWN else -1)
        else:
            return False
        return True
