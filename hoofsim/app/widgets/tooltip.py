"""A small card beside the pointer: a name, a sentence, a number."""

from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines

Lines = list[tuple[str, str]]  # (text, role)


def tooltip_rect(lines: Lines, pointer: tuple[int, int], window: Rect, theme: Theme) -> tuple[Rect, Lines]:
    """The card's rectangle, beside the pointer and inside the window, and the lines wrapped to it."""
    most = min(theme.px(20), window.w - theme.px(2))
    wrapped: Lines = []
    widest = height = 0
    for text, role in lines:
        pixels, face = theme.text_pixels(role)
        for line in wrap_lines(text, lambda part, f=face, p=pixels: theme.fonts.width(part, f, p), most):  # type: ignore[misc]
            wrapped.append((line, role))
            widest = max(widest, theme.fonts.width(line, face, pixels))
            height += theme.fonts.line_height(face, pixels)
    rect = Rect(0, 0, widest + theme.px(1.2), height + theme.px(0.8))
    rect.topleft = (pointer[0] + theme.px(1.1), pointer[1] + theme.px(1.1))
    if rect.right > window.right:
        rect.right = max(rect.w, pointer[0] - theme.px(0.6))
    if rect.bottom > window.bottom:
        rect.bottom = max(rect.h, pointer[1] - theme.px(0.6))
    rect.clamp_ip(window)
    return rect, wrapped


def draw_tooltip(painter: Painter, lines: Lines, pointer: tuple[int, int]) -> None:
    """Draw the card over everything."""
    theme = painter.theme
    rect, wrapped = tooltip_rect(lines, pointer, painter.surface.get_rect(), theme)
    painter.box(rect.move(theme.px(0.12), theme.px(0.16)), "line", None, 0.35)
    painter.box(rect, "field", "quiet", 0.35)
    y = rect.y + theme.px(0.4)
    for line, role in wrapped:
        pixels, face = theme.text_pixels(role)
        height = theme.fonts.line_height(face, pixels)
        painter.text(line, Rect(rect.x + theme.px(0.6), y, rect.w - theme.px(1.1), height), role)
        y += height
