"""The door of the program: chooses the command, and turns every failure into one sentence and an exit code."""

import argparse
import os
import sys
import warnings
from collections.abc import Sequence

from hoofsim import __version__
from hoofsim.cautions import SHORT_CAUTION
from hoofsim.cli.commands import COMMANDS, ProgramCommand
from hoofsim.cli.encoding import speak_plainly
from hoofsim.errors import STOPPED, BadInput, HoofsimError, nearest
from hoofsim.plain_text import printable

BAD_INPUT = 2

EXIT_CODES = """\
exit codes:
  0  fine
  1  a scenario ran, but something it expects did not come out
  2  bad input: a file, a name or a value that cannot be used
  3  the loaded foot has no state of rest that the solver could confirm
  130  stopped with Ctrl-C"""

FIRST_STEPS = """\
first steps:
  hoofsim                                      open the program
  hoofsim solve --set heel_change_mm=10        one foot, one change, every measure
  hoofsim list controls                        everything that can be changed
  hoofsim draw foot.svg --foot failed_laminae  a picture
  hoofsim run scenarios/*.yaml                 all scenarios of a checkout"""


def overview() -> argparse.ArgumentParser:
    """The parser that only knows the commands' names and shows the general help."""
    lines = "\n".join(f"  {command.name:<10} {command.sentence}" for command in COMMANDS.values())
    parser = argparse.ArgumentParser(
        prog="hoofsim",
        usage="hoofsim [--version] [--help] [COMMAND [--help] ...]",
        description="A teaching simulator of the horse's foot in side view. Without a command it opens the program.",
        epilog=f"commands:\n{lines}\n\n{FIRST_STEPS}\n\n{EXIT_CODES}\n\n{SHORT_CAUTION}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"hoofsim {__version__}")
    return parser


def parser_of(command: ProgramCommand) -> argparse.ArgumentParser:
    """The command's own parser, with its examples and the exit codes in its help."""
    module = command.load()
    parser = argparse.ArgumentParser(
        prog=f"hoofsim {command.name}",
        description=str(module.__doc__),
        epilog=f"examples:\n{module.EXAMPLES}\n\n{EXIT_CODES}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    module.add_arguments(parser)
    parser.set_defaults(run=module.run)
    return parser


def dispatch(words: Sequence[str]) -> int:
    """Run the command that `words` name; raises HoofsimError for what cannot be used."""
    if not words:
        from hoofsim.cli.start import start

        return start()
    if words[0] in COMMANDS:
        arguments = parser_of(COMMANDS[words[0]]).parse_args(words[1:])
        return int(arguments.run(arguments))
    if words[0].startswith("-"):
        overview().parse_args(words)
        return 0
    raise BadInput(f"no command '{words[0]}': {nearest(words[0], COMMANDS)}; see hoofsim --help")


def main(words: Sequence[str] | None = None) -> int:
    """The console script: `words` are the arguments after the program's name; returns the exit code."""
    speak_plainly()
    # A letter that no carried typeface has is drawn as a box; the plotter need not say so in lines of its own.
    warnings.filterwarnings("ignore", message=r"Glyph \d+ .* missing from")
    try:
        code = dispatch(sys.argv[1:] if words is None else list(words))
        sys.stdout.flush()
    except HoofsimError as error:
        print(f"hoofsim: {printable(str(error))}", file=sys.stderr)
        return error.exit_code
    except BrokenPipeError:
        # Whoever was reading has seen enough; keep the interpreter from complaining when it closes the pipe.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        print("hoofsim: stopped; files already written are whole", file=sys.stderr)
        return STOPPED
    except ModuleNotFoundError as error:
        if error.name is None or error.name.startswith("hoofsim"):
            raise  # a fault of ours, not a library left out
        print(
            f"hoofsim: this needs {error.name}, which a plain install leaves out: pip install 'hoofsim[test]'",
            file=sys.stderr,
        )
        return BAD_INPUT
    except OSError as error:
        where = f"{error.filename}: " if error.filename else ""
        print(f"hoofsim: {where}{error.strerror or error}", file=sys.stderr)
        return BAD_INPUT
    return code
