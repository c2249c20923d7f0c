"""Draw one loaded foot to a file: .svg and .png are pictures, .txt is a sketch in characters for a terminal."""

import argparse
from collections.abc import Callable, Mapping
from pathlib import Path

from hoofsim.cli.options import add_foot_arguments, chosen
from hoofsim.cli.pictures import png_bytes, svg_text, text_sketch
from hoofsim.cli.solve import refuse_without_rest
from hoofsim.errors import BadInput
from hoofsim.model import LoadedFoot
from hoofsim.writing import write_whole

EXAMPLES = """\
  hoofsim draw foot.svg
  hoofsim draw tall_heels.png --set heel_change_mm=15
  hoofsim draw foot.txt --foot failed_laminae --load other_lifted"""

WRITERS: Mapping[str, Callable[[LoadedFoot, LoadedFoot, str], bytes | str]] = {
    ".svg": svg_text,
    ".png": png_bytes,
    ".txt": text_sketch,
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which foot and which file."""
    parser.add_argument(
        "file", type=Path, metavar="FILE", help="picture to write; its ending decides: .svg .png .txt"
    )
    add_foot_arguments(parser)


def run(arguments: argparse.Namespace) -> int:
    """Draw and write."""
    file: Path = arguments.file
    if file.suffix.lower() not in WRITERS:
        raise BadInput(f"{file}: cannot draw '{file.suffix}'; the name must end in {', '.join(WRITERS)}")
    if not file.parent.is_dir():
        raise BadInput(f"{file}: there is no folder {file.parent}")
    choice = chosen(arguments)
    refuse_without_rest(choice)
    write_whole(file, WRITERS[file.suffix.lower()](choice.loaded, choice.baseline, choice.heading))
    print(f"wrote {file}")
    return 0
