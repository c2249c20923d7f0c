"""The computing rooms need no screen: importing all of them loads neither the window's nor the plotter's library."""

import subprocess
import sys
from pathlib import Path

import hoofsim

PACKAGE = Path(hoofsim.__file__).parent
HEAVY = ("pygame", "matplotlib", "rich", "scipy")
# The window itself, the files that are a library's own backend, and the rooms that make figures load them on purpose.
LOADING_ON_PURPOSE = ("hoofsim.app", "hoofsim.cli")


def modules_above_the_window() -> list[str]:
    """Dotted names of every module except the window's and the backends' own."""
    names = []
    for file in sorted(PACKAGE.rglob("*.py")):
        parts = ("hoofsim", *file.relative_to(PACKAGE).with_suffix("").parts)
        name = ".".join(parts).removesuffix(".__init__")
        backend = "drawing" in parts and any(library in parts[-1] for library in HEAVY)
        if not backend and not name.startswith(LOADING_ON_PURPOSE) and not name.endswith("__main__"):
            names.append(name)
    return names


def loaded_after(statement: str) -> set[str]:
    """Which heavy libraries a fresh interpreter holds after a statement."""
    code = f"import sys\n{statement}\nprint([n for n in {HEAVY!r} if n in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(eval(done.stdout.splitlines()[-1], {"__builtins__": {}}))


def test_the_check_sees_a_heavy_import() -> None:
    assert loaded_after("import matplotlib") == {"matplotlib"}


def test_importing_the_package_is_light() -> None:
    assert loaded_after("import hoofsim") == set()


def test_every_room_above_the_window_is_light() -> None:
    modules = modules_above_the_window()
    assert "hoofsim.model" in modules
    assert loaded_after("import " + ", ".join(modules)) == set()


def test_using_the_facade_is_light() -> None:
    assert loaded_after("import hoofsim; hoofsim.Foot('sound').load('standing').measures()") == set()
