"""The strip at the head of a screen: a way back, a title, and buttons at the right."""

from collections.abc import Callable, Sequence

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.painter import Painter

HEIGHT = 2.9  # in text sizes


class Bar(Widget):
    """Back button, title, and further buttons that lose their words where the strip is short."""

    def __init__(self, title: str, back: Callable[[], None], buttons: Sequence[Button] = ()) -> None:
        super().__init__(title)
        self.title = title
        self.back = Button("Back", back, "to the screen before", icon="back", words=False, keys="Esc")
        self.buttons = list(buttons)
        self._title_rect = Rect(0, 0, 0, 0)

    def children(self) -> Sequence[Widget]:
        """Back, then the others from the left."""
        return [self.back, *self.buttons]

    def height_for(self, width: int, theme: Theme) -> int:
        """One strip."""
        return theme.px(HEIGHT)

    def place(self, rect: Rect, theme: Theme) -> None:
        """Buttons from the right; the title gets what is left."""
        super().place(rect, theme)
        side = rect.h - theme.px(0.8)
        y = rect.y + theme.px(0.4)
        self.back.place(Rect(rect.x + theme.px(0.5), y, side, side), theme)
        left = self.back.rect.right + theme.px(0.7)
        title = theme.text_width(self.title, "heading")
        for words in (True, False):
            for button in self.buttons:
                button.words = words or button.icon is None
            widths = [button.width(theme) if button.words else side for button in self.buttons]
            needed = sum(widths) + theme.px(0.35) * len(widths) + title + theme.px(1)
            if left + needed <= rect.right:
                break
        x = rect.right - theme.px(0.5) - sum(widths) - theme.px(0.35) * (len(widths) - 1)
        self._title_rect = Rect(left, rect.y, x - left - theme.px(0.4), rect.h)
        for button, width in zip(self.buttons, widths, strict=True):
            button.place(Rect(x, y, width, side), theme)
            x += width + theme.px(0.35)

    def draw(self, painter: Painter) -> None:
        """The strip, ruled off at its foot."""
        painter.box(self.rect, "card", None, 0)
        y = self.rect.bottom - 1
        painter.line((self.rect.x, y), (self.rect.right, y), "line", painter.theme.hairline)
        painter.text(self.title, self._title_rect, "heading")
        for button in self.children():
            button.draw(painter)
