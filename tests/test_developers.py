"""The contributors' page leads somewhere: every path and link exists, every room and every usual change is on it."""

import re
from pathlib import Path

import pytest

from tests.test_doors import BASE, ROWS

ROOT = Path(__file__).resolve().parent.parent
PAGES = ("DEVELOPERS.md", "README.md", "CHANGELOG.md")
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
# Stands for a name of the reader's own.
PLACEHOLDER = re.compile(r"NAME|NN-|<room>|FILE")
PATH = re.compile(r"(?:hoofsim|tests|scenarios|assets)/[\w./<>-]*|[\w.-]+\.(?:py|md|toml|csv)")


def named_paths(text: str) -> list[tuple[str, str]]:
    """(line, path) for every path in backticks; a bare file name belongs to a folder named before it on its line."""
    found = []
    for line in text.splitlines():
        for quoted in re.findall(r"`([^`]+)`", line):
            if PATH.fullmatch(quoted) and not PLACEHOLDER.search(quoted):
                found.append((line, quoted))
    return found


def exists(line: str, path: str) -> bool:
    """Whether the path is there, from the root or from a folder that the same line names."""
    folders = [ROOT, ROOT / "hoofsim"]
    folders += [
        (ROOT / other).parent if (ROOT / other).is_file() else ROOT / other for _, other in named_paths(line)
    ]
    return any((folder / path).exists() for folder in folders)


def test_every_path_on_the_page_exists() -> None:
    paths = named_paths(PAGE)
    assert len(paths) > 50
    assert [path for line, path in paths if not exists(line, path)] == []


def test_the_check_sees_a_path_that_is_gone() -> None:
    line = "| x | `hoofsim/foot/gone.py` | `units.py` and `nowhere.py` |"
    assert [path for _, path in named_paths(line) if not exists(line, path)] == [
        "hoofsim/foot/gone.py",
        "nowhere.py",
    ]


@pytest.mark.parametrize("name", PAGES)
def test_every_link_leads_to_a_file(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    targets = re.findall(r"\]\(([^)#]+)\)", text)
    assert [target for target in targets if not (ROOT / target).exists()] == []


def test_dotted_names_on_the_page_are_there() -> None:
    for name in re.findall(r"`(hoofsim(?:\.\w+)+)`", PAGE):
        module, _, attribute = name.rpartition(".")
        file = ROOT / Path(*module.split("."))
        text = file.with_suffix(".py") if file.with_suffix(".py").is_file() else file / "__init__.py"
        assert attribute in text.read_text(encoding="utf-8"), name


def test_the_page_answers_the_everyday_questions() -> None:
    rows = [line for line in PAGE.splitlines() if line.startswith("| ") and line.count("|") == 4]
    questions = [row for row in rows if "`hoofsim/" in row or "`scenarios/" in row or "`assets/" in row]
    assert len(questions) >= 20


def test_every_room_is_on_the_page() -> None:
    layers = PAGE.split("```")[1]
    assert [room for rooms in (BASE, *ROWS) for room in rooms if room not in layers] == []
