"""Print the JSON Schema of a kind of file, so that an editor completes names and marks mistakes while typing."""

import argparse

from hoofsim.cli.kinds import KINDS
from hoofsim.cli.output import print_json
from hoofsim.files.kinds import json_schema, kind_named

EXAMPLES = """\
  hoofsim schema scenario > scenario.schema.json"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which kind of file."""
    parser.add_argument("kind", help="kind of file: " + ", ".join(KINDS))


def run(arguments: argparse.Namespace) -> int:
    """Print the schema."""
    print_json(json_schema(kind_named(arguments.kind, KINDS)))
    return 0
