"""The one family of errors that a user can meet, and the exit code of each."""

from collections.abc import Iterable
from difflib import get_close_matches

# Exit code of a program that was stopped with Ctrl-C, as shells have it.
STOPPED = 130


class HoofsimError(Exception):
    """Any failure that is told to the user in one sentence, never as a traceback."""

    exit_code = 2


class BadInput(HoofsimError):
    """What was given cannot be used: the message says what, where, what is allowed and the nearest valid name."""

    exit_code = 2


class ExpectationMissed(HoofsimError):
    """A scenario or lesson computed well but its own `expect:` did not hold."""

    exit_code = 1


class NoEquilibrium(HoofsimError):
    """The loaded foot has no state of rest that the solver could confirm."""

    exit_code = 3


def nearest(name: str, valid: Iterable[str]) -> str:
    """A clause naming the valid name closest to `name`, or listing the first few when none is close."""
    options = list(valid)
    close = get_close_matches(name, options, n=1, cutoff=0.5)
    if close:
        return f"did you mean '{close[0]}'?"
    shown = ", ".join(options[:12]) + (", ..." if len(options) > 12 else "")
    return f"valid names: {shown}"
