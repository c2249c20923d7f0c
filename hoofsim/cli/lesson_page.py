"""A lesson's step as lines of text for a terminal: wrapped words, a table of numbers, and what can be typed."""

import textwrap
from collections.abc import Iterable

from hoofsim.lessons.glossary import glossary
from hoofsim.lessons.markup import links, plain, spans
from hoofsim.lessons.state import setting_in_words
from hoofsim.lessons.view import KIND_WORDS, ChangeRow, View, curves
from hoofsim.units import show, show_number, shown_unit

WIDTH = 88
BOLD, PLAIN_AGAIN = "\033[1m", "\033[0m"
HELP = (
    "Enter goes on. back, hint, check, reset, give up; step NAME goes back to a step; term WORD explains a word; ? shows "
    "the page again; quit leaves, and the same command resumes here."
)


def wrapped(text: str, styled: bool = False, width: int = WIDTH) -> list[str]:
    """Marked text as lines: paragraphs apart, items of a list hanging, bold shown where the terminal can."""
    lines: list[str] = []
    for paragraph in text.strip().split("\n\n"):
        pieces = _pieces(paragraph)
        for piece in pieces:
            item = piece.startswith("- ")
            body = _styled(piece, styled) if styled else plain(piece)
            lines += textwrap.wrap(body, width, subsequent_indent="  " if item else "") or [""]
        lines.append("")
    return lines[:-1]


def page(shown: View, met: set[str], styled: bool = False) -> list[str]:
    """The whole step. `met` are the terms explained already; those met here are explained once and added."""
    head = f"Step {shown.number} of {shown.of} | {KIND_WORDS[shown.kind].lower()} | {shown.title}"
    lines = ["", "-" * WIDTH, f"{BOLD}{head}{PLAIN_AGAIN}" if styled else head, ""]
    lines += wrapped(shown.text, styled)
    lines += _terms(shown, met)
    if shown.question:
        asked = wrapped(plain(shown.question))
        lines += ["", *(f"{BOLD}{line}{PLAIN_AGAIN}" if styled else line for line in asked)]
    for number, (_, words) in enumerate(shown.choices, start=1):
        lines += textwrap.wrap(
            f"{number}) {plain(words)}", WIDTH, initial_indent="  ", subsequent_indent="     "
        )
    if shown.given:
        lines.append(f"Your answer: {shown.given}")
    lines += place_line(shown) + numbers(shown)
    if shown.told:
        lines += ["", *wrapped(shown.told, styled)]
    return [*lines, "", f"({shown.asks})"]


def after_event(shown: View, styled: bool = False) -> list[str]:
    """What to print when an event left the learner at the same step."""
    lines = wrapped(shown.told, styled) if shown.told else []
    if shown.kind == "do":
        lines += numbers(shown)
    return [*lines, f"({shown.asks})"]


def numbers(shown: View) -> list[str]:
    """Controls and measures beside the step, and the curve of a watch step as a short table."""
    length_unit = shown.length_unit
    lines = []
    for one in shown.controls:
        now = setting_in_words(one.control, one.now)
        lines.append(f"  {one.label}: {now} (from {one.low:g} to {one.high:g}; {one.control})")
    if shown.rows:
        if shown.before == shown.state:
            lines += [f"  {row.label}: {show(row.now, row.unit, length_unit)}" for row in shown.rows]
        else:
            lines += _table(shown.rows, length_unit)
    lines += _curve(shown)
    return ["", *lines] if lines else []


def place_line(shown: View) -> list[str]:
    """Where a landmark that is to be placed stands now, for want of a drawing."""
    if shown.wants_position is None:
        return []
    x, y = (
        show(float(part), "mm", shown.length_unit) for part in shown.state.loaded.points[shown.wants_position]
    )
    return ["", f"The {shown.wants_position.replace('_', ' ')} is now at x {x}, y {y}."]


def _table(rows: Iterable[ChangeRow], length_unit: str) -> list[str]:
    lines = [f"  {'':<44}{'before':>11}{'now':>11}{'change':>12}"]
    small = False
    for row in rows:
        cells = [
            "none" if value is None else show_number(value, row.unit, length_unit)
            for value in (row.before, row.now)
        ]
        change = "none" if row.change is None else show_number(row.change, row.unit, length_unit, signed=True)
        unit = shown_unit(row.unit, length_unit)
        label = f"{row.label} ({unit})" if unit else row.label
        mark = "" if row.readable or row.unit not in ("mm", "deg") else "*"
        small = small or bool(mark)
        lines.append(f"  {label[:43]:<44}{cells[0]:>11}{cells[1]:>11}{change:>11}{mark}")
    return [*lines, "  * smaller than a radiograph can show"] if small else lines


def _curve(shown: View) -> list[str]:
    found = curves(shown)
    if found is None or shown.plot is None:
        return []
    along, values = found
    every = max(1, (len(along) - 1) // 5)
    picked = list(range(0, len(along), every))
    lines = ["", f"  {shown.plot.control:<44}" + "".join(f"{along[at]:>9.1f}" for at in picked)]
    for row in shown.rows:
        cells = [
            "none" if value is None else show_number(value, row.unit, shown.length_unit)
            for value in (values[row.measure][at] for at in picked)
        ]
        lines.append(f"  {row.label[:43]:<44}" + "".join(f"{cell:>9}" for cell in cells))
    return lines


def _terms(shown: View, met: set[str]) -> list[str]:
    """Terms linked on this page and not explained before."""
    lines: list[str] = []
    for _, target in links(f"{shown.text}\n{shown.question}"):
        word = target.removeprefix("term:")
        if word in glossary() and word not in met:
            met.add(word)
            one = glossary()[word]
            text = f"{one.heading}: {one.meaning}"
            lines += textwrap.wrap(text, WIDTH, initial_indent="  . ", subsequent_indent="    ")
    return ["", *lines] if lines else []


def _pieces(paragraph: str) -> list[str]:
    """Items of a list one by one, other lines joined."""
    pieces: list[str] = []
    for line in paragraph.splitlines():
        line = line.strip()
        if line.startswith("- ") or not pieces:
            pieces.append(line)
        else:
            pieces[-1] += f" {line}"
    return pieces


def _styled(text: str, styled: bool) -> str:
    """Bold with the terminal's own codes."""
    return "".join(
        f"{BOLD}{span.text}{PLAIN_AGAIN}" if span.bold and styled else span.text for span in spans(text)
    )
