"""How wide a line of text will be, without a font: generous widths, so that laid-out labels never touch."""

from functools import lru_cache

from hoofsim.drawing.display_list import Bounds, Text

LINE_HEIGHT = 1.2  # of the type size: what a line needs with its ascenders and descenders
NARROW, WIDE = frozenset("iljI.,:;'|!()[]ftr"), frozenset("mwMW%@—")


def character_width(character: str) -> float:
    """Width of one character as a fraction of the type size; a wide open-licensed sans face sets the scale."""
    if character.isspace():
        return 0.33
    if character in NARROW:
        return 0.40
    if character in WIDE:
        return 1.0
    return 0.76 if character.isupper() else 0.64


@lru_cache(maxsize=4096)
def _ems(text: str) -> float:
    return sum(character_width(character) for character in text)


def text_width(text: str, height: float) -> float:
    """Width of a line in the unit of `height`, its type size."""
    return height * _ems(text)


def text_box(text: Text) -> Bounds:
    """The area (left, bottom, right, top in mm) that a text covers."""
    along, across = text_width(text.text, text.height), text.height * LINE_HEIGHT
    width, height = (across, along) if text.turn == 90 else (along, across)
    back = {"left": 0.0, "centre": 0.5, "right": 1.0}[text.anchor[0]] * width
    down = {"bottom": 0.0, "middle": 0.5, "top": 1.0}[text.anchor[1]] * height
    left, bottom = text.at[0] - back, text.at[1] - down
    return left, bottom, left + width, bottom + height


def unbroken(quantity: str) -> str:
    """A number and its unit that no line will part."""
    return quantity.replace(" ", "\N{NO-BREAK SPACE}")


def wrapped(text: str, height: float, width: float) -> list[str]:
    """The words of `text` in lines no wider than `width`; a longer word keeps a line of its own.

    A no-break space holds a number and its unit together.
    """
    lines: list[str] = []
    for word in text.split(" "):
        if lines and text_width(f"{lines[-1]} {word}", height) <= width:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return lines
