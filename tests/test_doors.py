"""The layers hold: a room imports only from those above it, third parties stay in their rooms, files stay small.

The imports are read from the source with `ast`, also those inside functions, so that a late import is seen too; the
lazy doors that are wanted (the command line to the window, the package to its facade) are named here.
"""

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "hoofsim"
LONGEST_FILE = 400
RELATIVE = "a relative import"

BASE = ("errors", "units", "frames", "resources", "sources", "cautions", "writing", "plain_text")
# From top to bottom; the rooms of one tuple share a row and may use each other only in the base row.
ROWS = (
    BASE,
    ("foot",),
    ("mechanics",),
    ("measures",),
    ("model",),
    ("files",),
    ("claims",),
    ("timeline",),
    ("scene",),
    ("session",),
    ("lessons",),
    ("drawing",),
    ("reports",),
    ("verify",),
    ("app",),
    ("bench",),
    ("cli",),
)
ROW_OF = {room: row for row, rooms in enumerate(ROWS) for room in rooms}

THIRD_PARTY = {
    "foot": {"numpy", "pydantic"},
    "mechanics": {"numpy"},
    "measures": {"numpy"},
    "model": {"numpy"},
    "files": {"yaml", "pydantic", "pydantic_core", "numpy"},
    "claims": {"numpy"},
    "timeline": {"numpy"},
    "scene": {"numpy", "pymunk"},
    "session": {"numpy", "yaml", "pydantic"},
    "lessons": {"numpy", "yaml", "pydantic"},
    "drawing": {"numpy"},
    "reports": {"numpy", "matplotlib", "PIL", "imageio_ffmpeg"},
    "verify": {"numpy", "matplotlib", "mujoco", "scipy", "skfem"},
    "app": {"numpy", "pygame"},
    "bench": {"numpy", "scipy", "yaml", "matplotlib"},
    "cli": {"numpy", "rich"},
    **{room: {"numpy"} for room in BASE},
}
# A backend is one file, and the only one that may load its own library.
BACKENDS = {"matplotlib": "matplotlib", "pygame": "pygame"}


def room_of(file: Path, package: Path) -> str:
    """The room a source file belongs to: the folder or the module directly under the package."""
    first = file.relative_to(package).parts[0]
    return "cli" if first == "__main__.py" else first.removesuffix(".py")


def imported_names(tree: ast.Module) -> list[tuple[int, str]]:
    """(line, dotted name) of everything a module imports, at any depth and for whatever purpose."""
    names: list[tuple[int, str]] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.level:
            names.append((node.lineno, RELATIVE))
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            names += [
                (node.lineno, f"{base}.{alias.name}" if base == "hoofsim" else base) for alias in node.names
            ]
        elif isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if called == "import_module":
                names.append((node.lineno, str(node.args[0].value)))
    return names


def complaints(file: Path, package: Path) -> list[str]:
    """What is wrong with the imports of one source file, one sentence each."""
    room = room_of(file, package)
    where = file.relative_to(package.parent)
    found = []
    if room == "__init__":
        return found
    if room not in ROW_OF:
        return [f"{where}: room '{room}' is not in the list of rooms"]
    for line, name in imported_names(ast.parse(file.read_text(encoding="utf-8"))):
        top = name.split(".")[0]
        if name == RELATIVE:
            found.append(f"{where}:{line}: relative import: write the room's name")
        elif top == "hoofsim":
            target = name.split(".")[1] if "." in name else ""
            if target in ("", "Foot", "LoadedFoot", "sweep"):
                found.append(f"{where}:{line}: imports the package itself: import the room")
            elif target == "__version__":
                continue
            elif target not in ROW_OF:
                found.append(f"{where}:{line}: unknown room '{target}'")
            elif target != room and ROW_OF[target] > ROW_OF[room]:
                found.append(f"{where}:{line}: {room} must not import {target}, which is below it")
        elif top not in sys.stdlib_module_names:
            allowed = set(THIRD_PARTY[room])
            if room == "drawing" and BACKENDS.get(top) and BACKENDS[top] in file.stem:
                allowed.add(top)
            if top not in allowed:
                found.append(f"{where}:{line}: {room} must not import {top}")
    return found


def source_files() -> list[Path]:
    """Every source file of the program."""
    return sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("file", source_files(), ids=lambda file: str(file.relative_to(PACKAGE)))
def test_doors_open_upward_only(file: Path) -> None:
    assert complaints(file, PACKAGE) == []


@pytest.mark.parametrize(
    "file",
    [*source_files(), *sorted((ROOT / "tests").rglob("*.py"))],
    ids=lambda file: str(file.relative_to(ROOT)),
)
def test_file_is_short_enough_to_read(file: Path) -> None:
    assert len(file.read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE


@pytest.mark.parametrize(
    ("place", "text", "complaint"),
    [
        ("foot/a.py", "from hoofsim.mechanics.loads import load\n", "must not import mechanics"),
        ("foot/a.py", "def late():\n    from hoofsim import model\n", "must not import model"),
        ("measures/a.py", "import hoofsim\n", "the package itself"),
        ("mechanics/a.py", "import scipy.optimize\n", "must not import scipy"),
        ("drawing/svg.py", "import pygame\n", "must not import pygame"),
        ("claims/a.py", "from . import b\n", "relative import"),
        (
            "reports/a.py",
            "from importlib import import_module\nimport_module('hoofsim.app.main')\n",
            "import app",
        ),
        ("attic/a.py", "x = 1\n", "not in the list of rooms"),
    ],
)
def test_a_wrong_door_is_seen(tmp_path: Path, place: str, text: str, complaint: str) -> None:
    file = tmp_path / "hoofsim" / place
    file.parent.mkdir(parents=True)
    file.write_text(text, encoding="utf-8")
    assert any(complaint in line for line in complaints(file, tmp_path / "hoofsim"))


@pytest.mark.parametrize(
    ("place", "text"),
    [
        ("mechanics/a.py", "import numpy as np\nfrom hoofsim.foot.parameters import PARAMETERS\n"),
        ("drawing/backend_pygame.py", "import pygame\n"),
        ("cli/a.py", "def late():\n    from hoofsim.app.main import main\n"),
    ],
)
def test_a_right_door_is_left_alone(tmp_path: Path, place: str, text: str) -> None:
    file = tmp_path / "hoofsim" / place
    file.parent.mkdir(parents=True)
    file.write_text(text, encoding="utf-8")
    assert complaints(file, tmp_path / "hoofsim") == []
