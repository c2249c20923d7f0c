"""Nothing is kept that nothing uses: every function, class and constant of the package is named a second time somewhere."""

import ast
import re
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
# Called or read by a library under this name: fields of a model, hooks of a dumper and of a console.
BY_A_LIBRARY = {"model_config", "ignore_aliases", "on_broken_pipe", "audience"}


def defined(tree: ast.Module) -> list[tuple[int, str]]:
    """(line, name) of everything that a module or a class defines, without what a decorator takes over."""
    found: list[tuple[int, str]] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            taken = [ast.unparse(one) for one in node.decorator_list if "validator" in ast.unparse(one)]
            found += [] if taken else [(node.lineno, node.name)]
        elif isinstance(node, ast.Assign):
            found += [(node.lineno, target.id) for target in node.targets if isinstance(target, ast.Name)]
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            found.append((node.lineno, node.target.id))
    return [(line, name) for line, name in found if not name.startswith("__")]


def unused(sources: dict[str, str], readers: list[str]) -> list[str]:
    """place: name, for everything defined in `sources` (place -> text) and named nowhere else in them or in `readers`."""
    words: Counter[str] = Counter()
    for text in (*sources.values(), *readers):
        words.update(re.findall(r"[A-Za-z_]\w*", text))
    return [
        f"{place}:{line}: {name}"
        for place, text in sources.items()
        for line, name in defined(ast.parse(text))
        if words[name] == 1 and name not in BY_A_LIBRARY
    ]


def test_everything_is_used() -> None:
    sources = {
        str(file.relative_to(ROOT)): file.read_text(encoding="utf-8")
        for file in sorted((ROOT / "hoofsim").rglob("*.py"))
    }
    readers = [file.read_text(encoding="utf-8") for file in (ROOT / "tests").rglob("*.py")]
    assert unused(sources, readers) == []


def test_the_check_sees_what_is_left_over() -> None:
    source = "LEFT = 1\nUSED = 2\n\ndef left_over():\n    return USED\n\ndef used():\n    return 3\n"
    assert unused({"a.py": source}, ["used()"]) == ["a.py:1: LEFT", "a.py:4: left_over"]
