"""The table of commands. A new command is one file in this folder and one line here."""

from collections.abc import Mapping
from dataclasses import dataclass
from importlib import import_module
from types import ModuleType


@dataclass(frozen=True)
class ProgramCommand:
    """One command: its word, the module that holds `add_arguments`, `run` and `EXAMPLES`, and one sentence."""

    name: str
    module: str
    sentence: str

    def load(self) -> ModuleType:
        """The command's module, loaded only now so that the others cost nothing."""
        return import_module(self.module)


_TABLE = (
    ProgramCommand("open", "hoofsim.cli.open", "open the program's window, on a saved file if given"),
    ProgramCommand("solve", "hoofsim.cli.solve", "load one foot and print its measures"),
    ProgramCommand(
        "run", "hoofsim.cli.run", "run scenario files, write their results, check what they expect"
    ),
    ProgramCommand(
        "evidence", "hoofsim.cli.evidence", "weigh a table of radiograph landmarks against the rival accounts"
    ),
    ProgramCommand(
        "check", "hoofsim.cli.check", "say whether files are well written, and whether lessons teach well"
    ),
    ProgramCommand(
        "lesson", "hoofsim.cli.lesson", "play a guided lesson in the terminal, or list the course"
    ),
    ProgramCommand(
        "progress",
        "hoofsim.cli.learner_progress",
        "show a learner's progress, or merge a class's into a table",
    ),
    ProgramCommand("new", "hoofsim.cli.new", "begin a new file from a starter that plays"),
    ProgramCommand(
        "trials", "hoofsim.cli.trials", "keep runs in a log, list them, write them as a table and a report"
    ),
    ProgramCommand("match", "hoofsim.cli.match", "find a foot of the model that reads as a case does"),
    ProgramCommand("draw", "hoofsim.cli.draw", "draw one loaded foot to a picture file"),
    ProgramCommand(
        "list", "hoofsim.cli.listing", "list feet, controls, measures, loads, sources or scenarios"
    ),
    ProgramCommand("schema", "hoofsim.cli.schema", "print the JSON Schema of a kind of file, for an editor"),
    ProgramCommand(
        "verify", "hoofsim.cli.verify", "compare the model with published values and independent engines"
    ),
    ProgramCommand(
        "bench", "hoofsim.cli.bench", "time the program beside fair referees, as ratios in one run"
    ),
    ProgramCommand("weeks", "hoofsim.cli.weeks", "follow a foot through weeks of growth, wear and trims"),
    ProgramCommand("about", "hoofsim.cli.about", "what the model is, its cautions and its sources"),
)

COMMANDS: Mapping[str, ProgramCommand] = {command.name: command for command in _TABLE}
