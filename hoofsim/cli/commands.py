"""The table of commands. A new command is one file in this folder and one line here."""

from collections.abc import Mapping
from dataclasses import dataclass
from importlib import import_module
from types import ModuleType


@dataclass(frozen=True)
class Command:
    """One command: its word, the module that holds `add_arguments`, `run` and `EXAMPLES`, and one sentence."""

    name: str
    module: str
    sentence: str

    def load(self) -> ModuleType:
        """The command's module, loaded only now so that the others cost nothing."""
        return import_module(self.module)


_TABLE = (
    Command("open", "hoofsim.cli.open", "open the program's window, on a saved file if given"),
    Command("solve", "hoofsim.cli.solve", "load one foot and print its measures"),
    Command("run", "hoofsim.cli.run", "run scenario files, write their results, check what they expect"),
    Command(
        "evidence", "hoofsim.cli.evidence", "weigh a table of radiograph landmarks against the rival accounts"
    ),
    Command(
        "check", "hoofsim.cli.check", "say whether files are well written, and whether lessons teach well"
    ),
    Command("lesson", "hoofsim.cli.lesson", "play a guided lesson in the terminal, or list the course"),
    Command(
        "progress",
        "hoofsim.cli.learner_progress",
        "show a learner's progress, or merge a class's into a table",
    ),
    Command("new", "hoofsim.cli.new", "begin a new file from a starter that plays"),
    Command(
        "trials", "hoofsim.cli.trials", "keep runs in a log, list them, write them as a table and a report"
    ),
    Command("match", "hoofsim.cli.match", "find a foot of the model that reads as a case does"),
    Command("draw", "hoofsim.cli.draw", "draw one loaded foot to a picture file"),
    Command("list", "hoofsim.cli.listing", "list feet, controls, measures, loads, sources or scenarios"),
    Command("schema", "hoofsim.cli.schema", "print the JSON Schema of a kind of file, for an editor"),
    Command(
        "verify", "hoofsim.cli.verify", "compare the model with published values and independent engines"
    ),
    Command("bench", "hoofsim.cli.bench", "time the program beside fair referees, as ratios in one run"),
    Command("weeks", "hoofsim.cli.weeks", "follow a foot through weeks of growth, wear and trims"),
    Command("about", "hoofsim.cli.about", "what the model is, its cautions and its sources"),
)

COMMANDS: Mapping[str, Command] = {command.name: command for command in _TABLE}
