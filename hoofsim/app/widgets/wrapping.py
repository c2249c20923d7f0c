"""Breaking text into lines of a width, as a pure function."""

from collections.abc import Callable


def wrap_lines(text: str, width_of: Callable[[str], int], room: int) -> list[str]:
    """Lines no wider than `room`, broken at spaces; a word wider than the room is broken where it must be."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in paragraph.split(" "):
            trial = f"{line} {word}" if line else word
            if width_of(trial) <= room:
                line = trial
                continue
            if line:
                lines.append(line)
            line = word
            while width_of(line) > room and len(line) > 1:
                head = broken_word(line, width_of, room)
                lines.append(head)
                line = line[len(head) :]
        lines.append(line)
    return lines


def broken_word(word: str, width_of: Callable[[str], int], room: int) -> str:
    """The longest beginning of a word that fits, at least one sign."""
    count = 1
    while count < len(word) and width_of(word[: count + 1]) <= room:
        count += 1
    return word[:count]
