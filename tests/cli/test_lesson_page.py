"""A lesson's page in the terminal: wrapped, with its marks turned into what a terminal can show."""

from hoofsim.cli.lesson_page import BOLD, PLAIN_AGAIN, WIDTH, page, wrapped
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.runner import begin, type_line
from hoofsim.lessons.view import view
from tests.lessons.small_lesson import small_lesson

LESSON = small_lesson()


def after(*lines: str) -> Progress:
    """Progress after typed lines."""
    progress = begin(LESSON, "Ada", "small")
    for line in lines:
        progress = type_line(LESSON, progress, line)
    return progress


def test_lines_are_no_wider_than_the_page_and_lists_hang() -> None:
    lines = wrapped("A " * 100 + "\n\n- item " + "word " * 40)
    assert max(len(line) for line in lines) <= WIDTH
    assert lines[-1].startswith("  word")
    assert "" in lines


def test_bold_is_shown_where_the_terminal_can_and_left_out_where_not() -> None:
    assert wrapped("a **b** c", styled=True) == [f"a {BOLD}b{PLAIN_AGAIN} c"]
    assert wrapped("a **b** c") == ["a b c"]


def test_a_term_is_explained_once() -> None:
    shown, met = view(LESSON, after()), set[str]()
    first, again = page(shown, met), page(shown, met)
    assert any("deep digital flexor tendon (DDFT" in line for line in first)
    assert not any("deep digital flexor tendon (DDFT" in line for line in again)
    assert met == {"deep_flexor_tendon"}


def test_a_place_to_guess_says_where_it_is_now() -> None:
    shown = view(LESSON, after("", "falls", "", "-300", ""))
    assert shown.wants_position == "tip"
    assert any(line.startswith("The tip is now at x ") for line in page(shown, set()))


def test_a_change_too_small_to_read_is_marked() -> None:
    lines = after("", "falls", "", "-300", "", "57 14", "", "heel_change_mm 8", "check", "")
    text = "\n".join(page(view(LESSON, lines), set()))
    assert "palmar angle (deg)" in text
    assert "heel_change_mm" in text
    small = small_lesson("measures: [tendon_tension, palmar_angle]", "measures: [tip_to_frog]")
    progress = begin(small, "Ada", "small").model_copy(update={"at": "see"})
    assert "smaller than a radiograph can show" in "\n".join(page(view(small, progress), set()))
