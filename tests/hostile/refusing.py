"""What must be true of an answer to a hostile file: exit code, sentences, and a folder as it was."""

import re
from collections.abc import Mapping
from pathlib import Path

from tests.hostile.grammar import Case

LONGEST_LINE = 600
MOST_LINES = 30
INSIDES = re.compile(
    r"Traceback|object at 0x|pydantic|ValidationError|<class '|\bNoneType\b|\bNone\b|unhashable|codec can't"
)


def command(case: Case) -> list[str]:
    """The words after `hoofsim` that read a file of that kind, writing when it is good; one of the ways there are."""
    file, way = f"bad{case.ending}", len(case.content)
    if case.kind == "evidence":
        return ["evidence", file, "--out", "out"]
    if case.kind in ("scenario", "experiment", "sandbox", "replay"):
        return ["run", file, "--out", "out"]
    if case.kind == "lesson":
        return [*(("check",), ("lesson",), ("lesson", "--rehearse"))[way % 3], file]
    return ["progress", "--merge", file, "--out", "class.csv"] if way % 2 else ["check", file]


def everything_under(folder: Path) -> Mapping[str, bytes]:
    """Every file with its content."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def amiss(case: Case, code: int, error: str, written: set[str]) -> str:
    """What is wrong with the answer, or ""."""
    if code not in (0, 1, 2, 3):
        return f"exit code {code}: {error[-400:]}"
    if INSIDES.search(error):
        return f"shows its insides: {error[:600]}"
    if code == 0 or (
        code in (1, 3) and case.kind in ("scenario", "experiment", "sandbox", "replay", "lesson")
    ):
        return f"was taken: {case.content[:300]!r}" if case.must else ""
    if code != 2:
        return f"exit code {code}: {error[-400:]}"
    lines = error.splitlines()
    if not lines or not lines[0].startswith("hoofsim: "):
        return f"no sentence: {error[:300]!r}"
    if len(lines) > MOST_LINES or max(map(len, lines)) > LONGEST_LINE:
        return f"{len(lines)} lines, the longest of {max(map(len, lines))}: {error[:300]!r}"
    if "bad" not in lines[0]:
        return f"does not say where: {error[:300]!r}"
    if any(ord(sign) < 32 for line in lines for sign in line):
        return f"control signs in the answer: {error[:300]!r}"
    return f"wrote {sorted(written)}" if written else ""
