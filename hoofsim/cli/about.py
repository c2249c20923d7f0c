"""Say what the model computes and leaves out, what every reader must be told, and where the numbers come from."""

import argparse

from hoofsim.cautions import CAUTIONS, DEMONSTRATION, LIMITS
from hoofsim.cli.output import print_json, print_markdown, print_table, print_text
from hoofsim.resources import model_page
from hoofsim.sources import SOURCES, STATUSES

EXAMPLES = """\
  hoofsim about            in short: model, cautions, sources
  hoofsim about model      the model's page: assumptions, equations, what agrees, what it cannot say
  hoofsim about cautions   only the cautions
  hoofsim about sources --json"""

MODEL = (
    "The model is a section through one front foot, seen from the outside with the toe to the right. The pastern bone, "
    "the distal phalanx (P3, coffin bone), the navicular bone, the bearing border with the heels, the sole with the "
    "frog, and the dorsal wall are rigid bodies. Tendon, laminae, solar dermis, digital cushion, the joint of sole and "
    "wall, and the ground are springs between them that stiffen, let go or tear.",
    "For each foot and load the program looks for the position in which all forces balance. It reports a result only "
    "when the balance is confirmed, and says so when there is none.",
    "Five accounts of how the bone comes to stand differently are all possible in it: the bone slides through the "
    "capsule, the sole is carried along, the wall flares, the bone sinks, or the whole foot is tipped. The program "
    "takes no side between them.",
)

MORE = "Assumptions, equations, what agrees with the outside world and what does not: hoofsim about model."


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which part to print."""
    parser.add_argument("part", nargs="?", choices=("model", "cautions", "sources"), help="only this part")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print the chosen part, or all three in short."""
    parts = (arguments.part,) if arguments.part else ("model", "cautions", "sources")
    if arguments.json:
        content = {
            "model": model_page() if arguments.part else [*MODEL, LIMITS],
            "cautions": list(CAUTIONS),
            "sources": [vars(source) for source in SOURCES.values()],
        }
        print_json({part: content[part] for part in parts})
        return 0
    for number, part in enumerate(parts):
        if number:
            print_text()
        if part == "model" and arguments.part:
            print_markdown(model_page())
        elif part == "model":
            for paragraph in (*MODEL, LIMITS, DEMONSTRATION, MORE):
                print_text(paragraph)
        elif part == "cautions":
            for caution in CAUTIONS:
                print_text(f"- {caution}")
        else:
            print_sources()
    return 0


def print_sources() -> None:
    """The table of sources, and what each status means."""
    print_table(
        "Sources of the numbers",
        [("id", "left"), ("what", "left"), ("value", "left"), ("source", "left"), ("status", "left")],
        [((one.id, one.what, one.value, one.citation, one.status), None) for one in SOURCES.values()],
    )
    for status, meaning in STATUSES.items():
        print_text(f"{status}: {meaning}")
