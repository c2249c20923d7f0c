"""Five hundred damaged and hostile files from one seed: lessons and progress files that must all be refused."""

import random
from collections.abc import Callable

from hoofsim.files.reader import LARGEST_BYTES
from hoofsim.lessons.events import Answer, Next, SetControl
from hoofsim.lessons.runner import advance, begin
from hoofsim.session.store import plain_yaml
from tests.lessons.hostile_swaps import LESSON_SWAPS, PROGRESS_SWAPS
from tests.lessons.small_lesson import SMALL, small_lesson

SEED = 20_311
EACH = 250
Damage = Callable[[str, random.Random], bytes]


def good_progress() -> str:
    """A whole progress file of the small lesson."""
    lesson = small_lesson()
    progress = begin(lesson, "Ada", "small")
    for event in (
        Next(),
        Answer("falls"),
        Next(),
        Answer("-300"),
        Next(),
        Answer("57 14"),
        Next(),
        SetControl("heel_change_mm", 4),
    ):
        progress = advance(lesson, progress, event, 2.0)
    return plain_yaml(progress.model_dump())


def _lines(text: str) -> list[str]:
    return text.splitlines(keepends=True)


def _at(chance: random.Random, text: str, piece: bytes) -> bytes:
    """A piece put at the start of some line."""
    lines = _lines(text)
    where = chance.randrange(1, len(lines))
    return "".join(lines[:where]).encode() + piece + "".join(lines[where:]).encode()


def _keyed(text: str, chance: random.Random) -> tuple[list[str], int]:
    """The lines, and the number of one that holds a plain key."""
    lines = _lines(text)
    pairs = [line.strip(" -\n").partition(": ") for line in lines]
    keyed = [at for at, (key, _, value) in enumerate(pairs) if key.isidentifier() and value]
    return lines, chance.choice(keyed)


def misspelt_key(text: str, chance: random.Random) -> bytes:
    lines, at = _keyed(text, chance)
    key = lines[at].strip(" -\n").partition(":")[0]
    lines[at] = lines[at].replace(f"{key}:", f"{key[:-1]}q{key[-1]}:", 1)
    return "".join(lines).encode()


def doubled_key(text: str, chance: random.Random) -> bytes:
    return (text + chance.choice(["title: again\n", "kind: lesson\n", "hoofsim: 1\n"])).encode()


def without_header(text: str, chance: random.Random) -> bytes:
    return "".join(_lines(text)[1:]).encode()


def other_version(text: str, chance: random.Random) -> bytes:
    return text.replace(
        "hoofsim: 1", f"hoofsim: {chance.choice(['2', '0', '-1', 'one', 'true', '1.5', '[]'])}", 1
    ).encode()


def other_kind(text: str, chance: random.Random) -> bytes:
    kind = "lesson" if "kind: lesson" in text else "progress"
    return text.replace(
        f"kind: {kind}", f"kind: {chance.choice(['lessen', 'progres', '3', 'null', '{}', '[1]'])}", 1
    ).encode()


def cut_short(text: str, chance: random.Random) -> bytes:
    """Cut inside the first third, before anything is complete."""
    return text.encode()[: chance.randrange(0, len(text) // 3)]


def not_text(text: str, chance: random.Random) -> bytes:
    return _at(chance, text, chance.choice([b"\xff\xfe", b"\x00", b"\xc3\x28", b"\x07", b"\xed\xa0\x80"]))


def noise(text: str, chance: random.Random) -> bytes:
    return chance.randbytes(chance.randrange(1, 3000))


def tabs(text: str, chance: random.Random) -> bytes:
    return _at(chance, text, b"\tx: 1\n")


def alias(text: str, chance: random.Random) -> bytes:
    return (text + chance.choice(["a: &x [1, 2]\nb: *x\n", "<<: {a: 1}\n", "a: &a [*a, *a]\n"])).encode()


def tag(text: str, chance: random.Random) -> bytes:
    evil = chance.choice(
        [
            "!!python/object/apply:os.system ['touch hacked']",
            "!!python/name:os.system",
            "!!binary aGk=",
            "!x 1",
        ]
    )
    return f"evil: {evil}\n{text}".encode()


def too_deep(text: str, chance: random.Random) -> bytes:
    depth = chance.choice([60, 500, 5000])
    return f"{text}deep: {'[' * depth}{']' * depth}\n".encode()


def too_large(text: str, chance: random.Random) -> bytes:
    return text.encode() + b"# " + b"x" * LARGEST_BYTES


def second_document(text: str, chance: random.Random) -> bytes:
    return f"{text}---\n{text}".encode()


def whole_is_something_else(text: str, chance: random.Random) -> bytes:
    return chance.choice(
        [b"", b"[]", b"- 1\n", b"42\n", b"null\n", b"'text'\n", b"{}\n", b"# nothing\n", b"true\n"]
    )


COMMON: tuple[Damage, ...] = (
    misspelt_key, doubled_key, without_header, other_version, other_kind, cut_short, not_text, noise, tabs, alias, tag,
    too_deep, too_large, second_document, whole_is_something_else,
)  # fmt: skip


def _swap(text: str, chance: random.Random, swaps: tuple[tuple[str, list[str]], ...]) -> bytes:
    old, news = chance.choice(swaps)
    assert old in text, old
    return text.replace(old, chance.choice(news), 1).encode()


def swapped_lesson(text: str, chance: random.Random) -> bytes:
    return _swap(text, chance, LESSON_SWAPS)


def swapped_progress(text: str, chance: random.Random) -> bytes:
    return _swap(text, chance, PROGRESS_SWAPS)


def _made(text: str, own: Damage, chance: random.Random) -> list[tuple[str, bytes]]:
    found = []
    for number in range(EACH):
        damage = own if number % 2 else COMMON[(number // 2) % len(COMMON)]
        found.append((damage.__name__, damage(text, chance)))
    return found


def hostile_lessons() -> list[tuple[str, bytes]]:
    """(kind of damage, content) of 250 lesson files, the same every time."""
    return _made(SMALL, swapped_lesson, random.Random(SEED))


def hostile_progress() -> list[tuple[str, bytes]]:
    """(kind of damage, content) of 250 progress files, the same every time."""
    return _made(good_progress(), swapped_progress, random.Random(SEED + 1))
