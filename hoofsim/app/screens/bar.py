"""The strip at the head of a screen: a way back, a title, and buttons at the right."""

from collections.abc import Callable, Sequence

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.dropdown import DropDown
from hoofsim.app.widgets.painter import Painter

HEIGHT = 2.9  # in text sizes


class Bar(Widget):
    """Back button, title, drop-downs, and buttons that lose their words where the strip is short."""

    def __init__(
        self,
        title: str,
        back: Callable[[], None],
        buttons: Sequence[Button] = (),
        choices: Sequence[DropDown] = (),
    ) -> None:
        """`choices` stand in the place of the title, which goes when they need the room."""
        super().__init__(title)
        self.title = title
        self.back = Button("Back", back, "to the screen before", icon="back", words=False, keys="Esc")
        self.buttons = list(buttons)
        self.with_words = {button for button in buttons if button.words}
        self.choices = list(choices)
        self.choices_shown = True
        self._title_rect = Rect(0, 0, 0, 0)

    def children(self) -> Sequence[Widget]:
        """Back, choices, then the others from the left."""
        return [self.back, *self.choices, *self.buttons]

    def height_for(self, width: int, theme: Theme) -> int:
        """One strip."""
        return theme.px(HEIGHT)

    def place(self, rect: Rect, theme: Theme) -> None:
        """Buttons from the right; choices and title get what is left."""
        super().place(rect, theme)
        side = rect.h - theme.px(0.8)
        y = rect.y + theme.px(0.4)
        gap = theme.px(0.35)
        self.back.place(Rect(rect.x + theme.px(0.5), y, side, side), theme)
        left = self.back.rect.right + theme.px(0.6)
        title = 0 if self.choices else theme.text_width(self.title, "heading") + theme.px(0.8)
        wanted = [choice.width(theme) for choice in self.choices]
        for words in (True, False):
            for button in self.buttons:
                button.words = words and button in self.with_words
            widths = [button.width(theme) if button.words else side for button in self.buttons]
            needed = sum(widths) + gap * len(widths)
            if left + title + sum(wanted) + gap * len(wanted) + needed <= rect.right - theme.px(0.5):
                break
        x = rect.right - theme.px(0.5) - sum(widths) - gap * max(0, len(widths) - 1)
        room = x - left - gap
        self.choices_shown = room >= sum(wanted) + gap * len(wanted)
        for choice, width in zip(self.choices, wanted, strict=True):
            choice.visible = self.choices_shown
            choice.place(Rect(left, y, width, side), theme)
            left += (width + gap) if choice.visible else 0
        self._title_rect = Rect(left, rect.y, max(0, x - left - gap), rect.h)
        for button, width in zip(self.buttons, widths, strict=True):
            button.place(Rect(x, y, width, side), theme)
            x += width + gap

    def draw(self, painter: Painter) -> None:
        """The strip, ruled off at its foot."""
        painter.box(self.rect, "card", None, 0)
        y = self.rect.bottom - 1
        painter.line((self.rect.x, y), (self.rect.right, y), "line", painter.theme.hairline)
        titled = not any(choice.visible for choice in self.choices)
        if titled and painter.text_width(self.title, "heading") <= self._title_rect.w:
            painter.text(self.title, self._title_rect, "heading")
        for widget in self.children():
            if widget.visible:
                widget.draw(painter)
