"""Open the program's window, on a saved sitting, a scenario's foot or a lesson if one is given."""

import argparse
from pathlib import Path

from hoofsim.cli.start import has_display, open_window
from hoofsim.errors import BadInput

EXAMPLES = """\
  hoofsim open
  hoofsim open my_sitting.hoofsim.yaml"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which file to open."""
    parser.add_argument(
        "file", nargs="?", type=Path, metavar="FILE", help="saved sitting, scenario or lesson (.yaml)"
    )


def run(arguments: argparse.Namespace) -> int:
    """Open the window; BadInput without a display or without the file."""
    file: Path | None = arguments.file
    if file is not None and not file.is_file():
        raise BadInput(f"{file}: no such file")
    if not has_display():
        raise BadInput("no display was found, so no window can open; the other commands work without one")
    return open_window() if file is None else open_window(str(file))
