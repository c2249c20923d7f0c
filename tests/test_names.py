"""One name has one meaning: no two classes of the package share a name, so that a name met anywhere is looked up once."""

import ast
from collections import defaultdict
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent / "hoofsim"


def twice(sources: dict[str, str]) -> dict[str, list[str]]:
    """Class names that stand in more than one place, with the places."""
    places: defaultdict[str, list[str]] = defaultdict(list)
    for place, text in sources.items():
        for node in ast.parse(text).body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                places[node.name].append(place)
    return {name: found for name, found in places.items() if len(found) > 1}


def test_no_two_classes_share_a_name() -> None:
    sources = {
        str(file.relative_to(PACKAGE)): file.read_text(encoding="utf-8") for file in PACKAGE.rglob("*.py")
    }
    assert len(sources) > 300
    assert twice(sources) == {}


def test_a_name_given_twice_is_seen() -> None:
    assert twice({"a.py": "class Step: ...", "b.py": "class Step: ...\nclass Other: ..."}) == {
        "Step": ["a.py", "b.py"]
    }
