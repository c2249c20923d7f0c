"""Draw one loaded foot, or a screen of the window, to a file: .svg and .png are pictures, .txt a sketch in characters."""

import argparse
from collections.abc import Callable, Mapping
from pathlib import Path

from hoofsim.cli.options import add_foot_arguments, chosen
from hoofsim.cli.solve import refuse_without_rest
from hoofsim.errors import BadInput
from hoofsim.model import LoadedFoot
from hoofsim.reports.foot_files import png_bytes, svg_text, text_sketch
from hoofsim.writing import write_whole

EXAMPLES = """\
  hoofsim draw foot.svg
  hoofsim draw tall_heels.png --set heel_change_mm=15
  hoofsim draw foot.txt --foot failed_laminae --load other_lifted
  hoofsim draw --screen sandbox --size 1024x700 --text-scale 2 -o sandbox.png"""

WRITERS: Mapping[str, Callable[[LoadedFoot, LoadedFoot, str], bytes | str]] = {
    ".svg": svg_text,
    ".png": png_bytes,
    ".txt": text_sketch,
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which foot and which file."""
    file = parser.add_mutually_exclusive_group(required=True)
    words = "picture to write; its ending decides: .svg .png .txt"
    file.add_argument("file", type=Path, nargs="?", metavar="FILE", help=words)
    file.add_argument(
        "-o", type=Path, dest="output", metavar="FILE", help="the same, wherever it stands in the line"
    )
    add_foot_arguments(parser)
    parser.add_argument("--screen", metavar="NAME", help="draw this screen of the window instead (.png only)")
    parser.add_argument("--size", default="1280x800", metavar="WxH", help="size of the screen in pixels")
    parser.add_argument("--text-scale", type=float, default=1.0, metavar="N", help="text size, 0.8 to 2")


def run(arguments: argparse.Namespace) -> int:
    """Draw and write."""
    file: Path = arguments.file or arguments.output
    if file.suffix.lower() not in WRITERS:
        raise BadInput(f"{file}: cannot draw '{file.suffix}'; the name must end in {', '.join(WRITERS)}")
    if not file.parent.is_dir():
        raise BadInput(f"{file}: there is no folder {file.parent}")
    if arguments.screen is not None:
        return draw_screen(file, arguments.screen, arguments.size, arguments.text_scale)
    choice = chosen(arguments)
    refuse_without_rest(choice)
    write_whole(file, WRITERS[file.suffix.lower()](choice.loaded, choice.baseline, choice.heading))
    print(f"wrote {file}")
    return 0


def draw_screen(file: Path, screen: str, size: str, text_scale: float) -> int:
    """Draw a screen of the window as it looks when first opened."""
    if file.suffix.lower() != ".png":
        raise BadInput(f"{file}: a screen is drawn as .png only")
    sides = size.lower().split("x")
    if len(sides) != 2 or not all(side.isascii() and side.isdigit() for side in sides):
        raise BadInput(f"--size {size}: expected width x height in pixels, such as 1280x800")
    from hoofsim.app.main import screen_png

    write_whole(file, screen_png(screen, (int(sides[0]), int(sides[1])), text_scale))
    print(f"wrote {file}")
    return 0
