"""Say whether files are well written: line, column, what was expected and the nearest valid name.

A lesson is also played by its scripted learners, and what it teaches badly is told in the same way.
"""

import argparse
from pathlib import Path
from typing import Any

from hoofsim.cli.kinds import KINDS
from hoofsim.cli.output import print_json
from hoofsim.errors import BadInput
from hoofsim.files.kinds import kind_word
from hoofsim.files.reader import read_file

EXAMPLES = """\
  hoofsim check my_scenario.yaml
  hoofsim check scenarios/*.yaml
  hoofsim check scenarios/lessons/*.yaml"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which files."""
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE", help="file to check (.yaml)")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(arguments: argparse.Namespace) -> int:
    """Check every file, also after a bad one; BadInput at the end when any was bad."""
    complaints: list[str] = []
    results: list[dict[str, Any]] = []
    for file in arguments.files:
        try:
            word = check(file)
            results.append({"file": str(file), "kind": word, "complaints": []})
        except BadInput as error:
            complaints.append(str(error))
            results.append({"file": str(file), "kind": None, "complaints": str(error).splitlines()})
    if arguments.json:
        print_json(results)
    else:
        for result in results:
            if result["kind"]:
                print(f"{result['file']}: a well-written {result['kind']}")
    if complaints:
        raise BadInput("\n".join(complaints))
    return 0


def check(file: Path) -> str:
    """Read one file in full and return its kind; BadInput for the first things wrong with it."""
    document = read_file(file)
    word = kind_word(document, KINDS)
    kind = KINDS[word]
    loaded = kind.load(document)
    amiss = [] if kind.examine is None else kind.examine(loaded, document)
    if amiss:
        raise BadInput("\n".join(amiss))
    return word
