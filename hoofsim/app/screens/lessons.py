"""The course: every lesson with what it is about, how long it takes, and how far one has come."""

from pathlib import Path
from typing import TYPE_CHECKING

from hoofsim.app.screens.bar import HEIGHT, Bar
from hoofsim.app.screens.card_screen import CardScreen
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.label import Label
from hoofsim.app.widgets.layout import inset, split_top
from hoofsim.app.widgets.menu_entry import MenuEntry
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.errors import HoofsimError
from hoofsim.lessons.loader import lesson_files, lesson_id, read_lesson
from hoofsim.lessons.store import DEFAULT_LEARNER, Store

if TYPE_CHECKING:
    from hoofsim.app.application import Application


class LessonsScreen(CardScreen):
    """A list of lessons; one that cannot be read says why in its place."""

    name = "lessons"
    title = "Lessons"

    def __init__(self, app: "Application") -> None:
        super().__init__(app)
        self.bar = Bar(self.title, app.back)
        self.panel = ScrollPanel("lessons", [], gap=0.5)
        self.widgets = [self.bar, self.panel]

    def entered(self) -> None:
        """Read the list anew: progress may have been made."""
        self.panel.items = [self._entry(path) for path in lesson_files()]
        self.place()

    def _entry(self, path: Path) -> Widget:
        try:
            lesson = read_lesson(path)
        except HoofsimError as problem:
            return Label(str(problem).splitlines()[0], "small", "warn")
        kept = Store.default().peek(DEFAULT_LEARNER, lesson_id(path))
        if kept is None:
            how_far, icon = f"{lesson.minutes} minutes.", "book"
        elif kept.finished:
            how_far, icon = ("Passed." if kept.passed else "Read to the end, not passed yet."), "tick"
        else:
            seen = [step.id for step in lesson.steps]
            place = seen.index(kept.at) + 1 if kept.at in seen else 1
            how_far, icon = f"Begun: step {place} of {len(seen)}.", "play"
        return MenuEntry(
            lesson.title, lambda: self.app.open("lesson", path=path), f"{how_far} {lesson.summary}", icon
        )

    def layout(self, theme: Theme, window: Rect) -> None:
        """Bar and list."""
        bar, rest = split_top(window, theme.px(HEIGHT))
        self.bar.place(bar, theme)
        wide = min(rest.w - theme.px(2), theme.px(58))
        card = Rect(rest.centerx - wide // 2, rest.y + theme.px(1), wide, rest.h - theme.px(2))
        self.cards = (card,)
        self.panel.place(inset(card, theme.px(1.2), theme.px(1.0)), theme)
