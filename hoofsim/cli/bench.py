"""Time the program beside fair referees in one run."""

import argparse
from importlib import import_module

from hoofsim.cli.output import print_json, print_text
from hoofsim.errors import BadInput, nearest

BENCHES = ("solver", "moving", "window", "study")
EXAMPLES = """\
  hoofsim bench
  hoofsim bench solver --quick
  hoofsim bench --json"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which benches, and how."""
    parser.add_argument(
        "names", nargs="*", metavar="NAME", help=f"benches to run, of: {', '.join(BENCHES)} (default: all)"
    )
    parser.add_argument("--quick", action="store_true", help="short form: right, but rough")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(arguments: argparse.Namespace) -> int:
    """Run the benches and print one line a figure."""
    for name in arguments.names:
        if name not in BENCHES:
            raise BadInput(f"There is no bench '{name}': {nearest(name, BENCHES)}")
    rows = []
    for name in arguments.names or BENCHES:
        for row in import_module(f"hoofsim.bench.{name}").run(arguments.quick):
            rows.append(row)
            if not arguments.json:
                print_text(f"{row.what:<46} {row.value:>9.4g} {row.unit}")
                if row.beside:
                    print_text(f"    {row.beside}")
    if arguments.json:
        print_json([vars(row) for row in rows])
    return 0
