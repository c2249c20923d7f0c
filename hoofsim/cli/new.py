"""Begin a new file: a starter that is well written, plays, and shows every kind of step in its smallest form."""

import argparse
from pathlib import Path

from hoofsim.errors import BadInput, nearest
from hoofsim.lessons.loader import lesson_id
from hoofsim.resources import assets_folder
from hoofsim.writing import write_whole

EXAMPLES = """\
  hoofsim new lesson my_lesson
  hoofsim lesson my_lesson.yaml --watch"""

STARTERS = {"lesson": "starter_lesson.yaml"}
TITLE = "title: A starter lesson"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which kind of file, and its name."""
    parser.add_argument("kind", help="kind of file: " + ", ".join(STARTERS))
    parser.add_argument("name", type=Path, metavar="NAME", help="file to write; .yaml is added when missing")


def run(arguments: argparse.Namespace) -> int:
    """Write the starter, never over a file that is there."""
    if arguments.kind not in STARTERS:
        raise BadInput(f"no starter for '{arguments.kind}': {nearest(arguments.kind, STARTERS)}")
    name: Path = arguments.name
    path = name if name.suffix in (".yaml", ".yml") else name.with_name(f"{name.name}.yaml")
    if path.exists():
        raise BadInput(f"{path}: is there already; choose another name")
    if not path.parent.is_dir():
        raise BadInput(f"{path}: there is no folder {path.parent}")
    text = (assets_folder() / STARTERS[arguments.kind]).read_text(encoding="utf-8")
    title = lesson_id(path).replace("-", " ").strip().capitalize()
    write_whole(path, text.replace(TITLE, f"title: '{title}'"))
    print(f"wrote {path}\nnext:  hoofsim lesson {path} --watch\n       hoofsim check {path}")
    return 0
