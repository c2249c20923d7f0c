"""The line at the foot of the sandbox, and the words shown when a foot finds no state of rest."""

from typing import TYPE_CHECKING

from hoofsim.app.screens.sandbox.holding import HOLDABLE
from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.app.screens.sandbox.told import number_words
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.layout import inset
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines
from hoofsim.drawing.parts import PARTS
from hoofsim.session.commands import LOAD_CASES

if TYPE_CHECKING:
    from hoofsim.app.screens.sandbox.screen import SandboxScreen

STATUS_WORDS = {
    "converged": "At rest: forces balance.",
    "slack": "Forces balance, but some part hangs loose: not shown as a result.",
    "torn through": "Torn through: no state of rest.",
    "no equilibrium": "No state of rest found.",
}
HELD = {
    "p2": "middle phalanx (P2)",
    "p3": "distal phalanx (P3)",
    "navicular": "navicular bone",
    "border": "quarters and heels",
    "plate": "sole and frog",
    "wall": "dorsal wall",
}
TO_TAKE = "Enter: take hold."
TO_PULL = "Arrows pull 1 mm, with Shift 5 mm; Enter lets go."
NO_REST = {
    "torn through": "The bonds tear through under this load, so this foot has no state of rest and no numbers. It is "
    "drawn as it was before the load. Take back a step, lower the load, or give back some of the bonds.",
    "no equilibrium": "No state of rest was found for this foot, so no number is shown. It is drawn as it was before "
    "the load. Take back a step, or change something.",
}


def status_words(screen: "SandboxScreen") -> tuple[str, str]:
    """What to say at the left (the structure pointed at, or the state) and at the right (the load)."""
    state = screen.session.state
    part = screen.view.pointed_part
    left = state_words(screen)
    view = screen.view
    if screen.shown.held is None and part is not None and part in PARTS and (view.hovered or view.focused):
        number = number_words(part, screen.shown.values(), screen.app.settings.length_unit)
        left = headed(PARTS[part].label) + (f". {number}" if number else "")
        if part in HOLDABLE and view.focused and screen.focus_shown:
            left += f". {TO_TAKE}"
    right = LOAD_CASES[state.load.case]
    percent = screen.shown.stance_percent()
    if percent is not None:
        right += f", {percent:.0f} % of stance"
    elif screen.shown.playing:
        right += ", in the air"
    return left, right


def state_words(screen: "SandboxScreen") -> str:
    """What state the foot is in."""
    shown = screen.shown
    if shown.held is not None:
        how = f" {TO_PULL}" if screen.view.focused and screen.focus_shown else ""
        return f"In the hand: {HELD.get(shown.held, shown.held)}.{how}"
    if shown.playing:
        return "In motion."
    if shown.torn_by_hand:
        return "Bonds were torn by hand. Undo (Ctrl Z) mends them; any other change starts from a whole foot, too."
    return "Settling." if shown.scene is not None else STATUS_WORDS[screen.session.loaded.status]


def draw_status(painter: Painter, rect: Rect, screen: "SandboxScreen") -> None:
    """Left words and, where there is room, right words."""
    theme = painter.theme
    painter.box(rect, "card", None, 0)
    painter.line(rect.topleft, (rect.right, rect.top), "line", theme.hairline)
    inner = inset(rect, theme.px(0.9), 0)
    left, right = status_words(screen)
    width = theme.text_width(right, "small")
    left_width = theme.text_width(left, "small_bold")
    if left_width + width + theme.px(1.5) <= inner.w:
        painter.text(right, Rect(inner.right - width, inner.y, width, inner.h), "small", "quiet")
    elif left_width > inner.w:
        left = left.split(". ")[0] + "."
        left = left if theme.text_width(left, "small_bold") <= inner.w else left.split(" (")[0]
    trouble = not screen.shown.at_rest
    painter.text(left, inner, "small_bold", "warn" if trouble else "ink")


NAMED_HINTS = ("Names are shown, so the rings are away; drag a bone, or the sheet.", "Drag a bone.")
HINTS = {
    "hand": (
        "Drag a ring, a bone or the sheet; wheel: nearer, farther.",
        "Drag a ring.",
    ),
    "blade": (
        "Press on the deep flexor tendon to cut it, or to make it whole again.",
        "Press on the tendon.",
    ),
    "brush_away": ("Drag along the wall to let laminae go.", "Drag along the wall."),
    "brush_back": ("Drag along the wall to give laminae back.", "Drag along the wall."),
}


def draw_hint(painter: Painter, rect: Rect, tool: str, named: bool) -> None:
    """What the chosen tool does, in as many words as there is room for."""
    for words in NAMED_HINTS if named and tool == "hand" else HINTS[tool]:
        if painter.text_width(words, "small") <= rect.w:
            painter.text(words, rect, "small", "quiet")
            return


def draw_no_rest(painter: Painter, sheet: Rect, status: str) -> None:
    """A veil over the sheet and the sentence in its upper part."""
    theme = painter.theme
    with painter.clipped(sheet):
        painter.shade(sheet, 60)
        words = NO_REST[status]
        width = min(sheet.w - theme.px(2), theme.px(30))
        lines = wrap_lines(words, theme.text_width, width - theme.px(2))
        height = theme.line_height() * len(lines) + theme.px(1.4)
        card = Rect(sheet.centerx - width // 2, sheet.y + theme.px(3.4), width, height)
        card.bottom = min(card.bottom, sheet.bottom)
        painter.layer += 1
        painter.box(card, "warn_soft", "warn", 0.4)
        painter.text(words, inset(card, theme.px(1), theme.px(0.7)), wrap=True)
        painter.layer -= 1
