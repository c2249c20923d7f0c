"""Load one foot and print every measure: its value, the sound range, and its change from the foot's baseline."""

import argparse

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.cli.options import ChosenFoot, add_foot_arguments, chosen
from hoofsim.cli.output import print_json, print_text
from hoofsim.cli.rows import measure_json, print_measures
from hoofsim.errors import NoEquilibrium
from hoofsim.units import LENGTH_UNITS

EXAMPLES = """\
  hoofsim solve
  hoofsim solve --set heel_change_mm=10 --set laminae_percent=50
  hoofsim solve --foot failed_laminae --load trot --stance-percent 50
  hoofsim solve --foot scenarios/long_toe.yaml --json"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Foot, load and the form of the answer."""
    add_foot_arguments(parser)
    parser.add_argument("--units", choices=LENGTH_UNITS, default="mm", help="unit of lengths in the table")
    parser.add_argument("--json", action="store_true", help="print JSON (always in mm)")


def run(arguments: argparse.Namespace) -> int:
    """Print the measures; NoEquilibrium when the foot has no state of rest."""
    choice = chosen(arguments)
    loaded = choice.loaded
    refuse_without_rest(choice)
    values, before = loaded.measures(), choice.baseline.measures()
    if arguments.json:
        print_json(
            {
                "foot": choice.preset,
                "changes": choice.changes,
                "load": choice.load,
                "stance_percent": choice.stance_percent,
                "status": loaded.status,
                "measures": measure_json(values, before),
            }
        )
        return 0
    print_measures(f"{choice.heading} ({loaded.status})", values, before, arguments.units)
    print_text(SHORT_CAUTION)
    return 0


def refuse_without_rest(choice: ChosenFoot) -> None:
    """NoEquilibrium unless the solver confirmed a state of rest: another foot is neither tabulated nor drawn."""
    if not choice.loaded.at_rest:
        raise NoEquilibrium(f"{choice.heading}: no state of rest that can be shown ({choice.loaded.status})")
