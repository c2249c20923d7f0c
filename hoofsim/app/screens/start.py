"""The first thing seen: a sound foot under load, in motion and named, and where to go from here."""

from typing import TYPE_CHECKING, Any

import pygame

from hoofsim.app.foot_picture import bare_picture_of, picture_of
from hoofsim.app.screens.sandbox.foot_view import FootView
from hoofsim.app.screens.screen import Screen
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.layout import inset, split_bottom, split_left, split_top
from hoofsim.app.widgets.menu_entry import MenuEntry
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.wrapping import wrap_lines
from hoofsim.cautions import SHORT_CAUTION
from hoofsim.drawing.display_list import Bounds
from hoofsim.model import Foot
from hoofsim.scene.scene import Scene
from hoofsim.scene.stride import LIFT_MM
from hoofsim.session.session import Session

if TYPE_CHECKING:
    from hoofsim.app.application import Application

FIRST_TRY = (
    "Try first: open the sandbox, take the ring behind the heel and pull it up. Watch which angles follow, "
    "and which do not."
)
SHORT_TRY = "Try first: in the sandbox, pull up the ring behind the heel."
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
PACE = 0.5  # of life's, so that the eye can follow
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
        self.scene: Scene | None = None
        self.last_sitting = app.recovery.last(app.say) if app.keep else None
        self.menu = ScrollPanel("menu", self._buttons(), gap=0.45)
        self.widgets = [self.menu, self.view]
        self.card = self.sheet = self.head = self.foot_strip = Rect(0, 0, 0, 0)
        self.subtitle_shown = self.roomy = True
        self.sentences: list[tuple[str, str, str]] = []
        self._stale = True

    def _buttons(self) -> list[Any]:
        app = self.app
        entries = [
            MenuEntry("Sandbox", self._new, "One foot to trim, load, cut and loosen as you like", "foot"),
            MenuEntry(
                "Two feet side by side", lambda: app.open("pair"), "The same load and one difference", "two"
            ),
            MenuEntry("Lessons", lambda: app.open("lessons"), "Step by step: predict, try, compare", "book"),
            MenuEntry("Open a file", lambda: app.open("files"), "A sitting that was saved before", "open"),
            MenuEntry(
                "Settings",
                lambda: app.open("settings"),
                "Units, text size, contrast, keys",
                "settings",
                keys="F2",
            ),
            MenuEntry(
                "About and cautions",
                lambda: app.open("cautions"),
                "What this can and cannot tell",
                "caution",
                keys="F1",
            ),
        ]
        if app.session.commands or self.last_sitting is not None:
            entries.insert(
                0, MenuEntry("Continue", self._continue, "The last sitting, just as it was left", "play")
            )
        entries[0].kind = "main"
        return entries

    def entered(self) -> None:
        """A sitting may have begun since."""
        self.menu.items = self._buttons()
        self.set_focus(self.menu.items[0])
        self.menu.place(self.menu.rect, self.app.theme)

    def _continue(self) -> None:
        if not self.app.session.commands and self.last_sitting is not None:
            self.app.session = self.last_sitting
        self.app.open("sandbox")

    def _new(self) -> None:
        self.app.session, self.app.file = Session(), None
        self.app.open("sandbox")

    def layout(self, theme: Theme, window: Rect) -> None:
        """Side by side when there is room, else the foot over the menu."""
        margin = theme.px(1.0)
        area = inset(window, margin)
        if window.w >= window.h:
            self.card, self.sheet = split_left(area, min(theme.px(23), round(area.w * 0.5)), margin)
        else:
            self.sheet, self.card = split_bottom(area, area.h // 2, margin // 2)
        inner = inset(self.card, theme.px(1.3), theme.px(0.9))
        subtitle = theme.line_height() * len(wrap_lines(SUBTITLE, theme.text_width, inner.w))
        self.subtitle_shown = inner.h > theme.px(24)
        self.head, rest = split_top(
            inner, theme.px(3.4) + (subtitle if self.subtitle_shown else 0), theme.px(0.7)
        )
        self.menu.place(rest, theme)
        self.sentences = self._sentences(theme)
        room = self.sheet.w - theme.px(2)
        tall = sum(self._height(words, role, room, theme) for words, role, _ in self.sentences)
        view, self.foot_strip = split_bottom(self.sheet, tall + theme.px(1.4))
        self.roomy = self.sheet.w > theme.px(32)
        self.view.place(inset(view, theme.px(0.3)), theme)
        bare = None if self.roomy else self._picture(1.0).bounds
        self.view.show_all(
            theme.em * LABELS, lambda text_mm: self._bounds(bare or self._picture(text_mm).bounds)
        )
        self._stale = True

    def _sentences(self, theme: Theme) -> list[tuple[str, str, str]]:
        """What stands under the foot (words, role, colour): everything where it takes little of the sheet."""
        room = self.sheet.w - theme.px(2)
        every = [(FIRST_TRY, "body", "ink"), (SHORT_CAUTION, "small", "warn")]
        tall = sum(self._height(words, role, room, theme) for words, role, _ in every)
        return every if tall < 0.3 * self.sheet.h else [(SHORT_TRY, "small", "ink")]

    @staticmethod
    def _height(words: str, role: str, room: int, theme: Theme) -> int:
        return theme.line_height(role) * len(
            wrap_lines(words, lambda part: theme.text_width(part, role), room)
        )

    def _bounds(self, picture: Bounds) -> Bounds:
        """Room for the foot in the air."""
        left, bottom, right, top = picture
        return left, bottom, right, top + (0.0 if self.scene is None else LIFT_MM["walk"])

    def _picture(self, text_mm: float | None = None) -> Any:
        theme = self.app.theme
        text_mm = text_mm or self.view.text_mm(theme.em * LABELS)
        unit = self.app.settings.length_unit
        if not self.roomy:
            return bare_picture_of(
                self.loaded, None, text_mm=text_mm, newtons_per_mm=100.0, length_unit=unit
            )[0]
        how = "standing" if self.scene is None else "at walk"
        return picture_of(
            self.loaded,
            None,
            text_mm=text_mm,
            labels=NAMED,
            newtons_per_mm=100.0,
            note=False,
            title=f"A sound front foot {how}",
            length_unit=unit,
        )

    def draw(self, surface: pygame.Surface) -> Painter:
        """Renew the sheet when the foot moved, then draw."""
        if self._stale:
            self.view.hasty = self.animating
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
        strip = inset(self.foot_strip, theme.px(1), theme.px(0.5))
        for words, role, colour in self.sentences:
            used = painter.text(words, strip, role, colour, valign="top", wrap=True)
            strip = Rect(strip.x, strip.y + used + theme.px(0.3), strip.w, strip.h - used)

    def advance(self, seconds: float) -> None:
        """Compute the stride a moment at a time, then play it."""
        if self.app.theme.reduced_motion:
            self.animating = False
            if self.scene is not None:
                self.scene, self.loaded, self._stale = None, Foot("sound").load("standing"), True
            return
        self.animating = True
        if self.scene is None:
            self.scene = Scene(Foot("sound"), "walk", stance_percent=5.0)
            self.scene.play()
            self.place()
        self.scene.advance(PACE * seconds)
        self.loaded, self._stale = self.scene.loaded, True

    def shortcut(self, event: pygame.event.Event) -> bool:
        """Up and Down walk the menu."""
        if event.key not in (pygame.K_DOWN, pygame.K_UP):
            return False
        self.move_focus(1 if event.key == pygame.K_DOWN else -1)
        return True
