"""Output where the encoding lacks signs that we print (cp1252, ASCII): plain ones take their place."""

import codecs
import io
import sys
import unicodedata

_PLAIN = {
    "\N{MINUS SIGN}": "-",
    "\N{EN DASH}": "-",
    "\N{EM DASH}": "-",
    "\N{MIDDLE DOT}": ".",
    "\N{PLUS-MINUS SIGN}": "+/-",
    "\N{MULTIPLICATION SIGN}": "x",
    "\N{DEGREE SIGN}": " deg",
    "\N{HORIZONTAL ELLIPSIS}": "...",
    "\N{SUPERSCRIPT TWO}": "2",
    "\N{MICRO SIGN}": "u",
    "\N{RIGHT SINGLE QUOTATION MARK}": "'",
    "\N{LEFT SINGLE QUOTATION MARK}": "'",
    "\N{GREATER-THAN OR EQUAL TO}": ">=",
    "\N{LESS-THAN OR EQUAL TO}": "<=",
    "\N{BULLET}": "-",
    "\N{RIGHTWARDS ARROW}": "->",
}
_NAME = "hoofsim-plain"


def _plainly(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(_instead(sign) for sign in error.object[error.start : error.end]), error.end


def _instead(sign: str) -> str:
    """The plain sign of the table, a letter without its accent, or a question mark."""
    bare = unicodedata.normalize("NFKD", sign)[0]
    return _PLAIN.get(sign) or (bare if bare.isascii() else "?")


def speak_plainly() -> None:
    """Let the output replace what its encoding cannot write, instead of failing half-way through a table."""
    codecs.register_error(_NAME, _plainly)
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors=_NAME)


def takes_every_letter() -> bool:
    """Whether the standard output can write any text at all."""
    return (getattr(sys.stdout, "encoding", None) or "utf-8").lower().replace("-", "").startswith("utf")
