"""The look that all report figures share: typeface, ink, account colours with dashes and marks, file bytes.

matplotlib is loaded only when a figure is asked for.
"""

import io
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from textwrap import fill
from typing import TYPE_CHECKING, Any

from hoofsim import __version__
from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.drawing.palette import INK, NORMAL, PAPER
from hoofsim.drawing.typeface import FAMILY, typeface_file

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

DOTS_PER_INCH = 150
MARKERS = ("o", "s", "^", "D", "v", "P", "X", "*")
UNREADABLE = "#ece6d8"
QUIET = "#6d665b"
_DOCTYPE = re.compile(rb"<!DOCTYPE[^>]*>\s*")
_CHARACTERS_PER_INCH, _NOTE_CHARACTERS_PER_INCH = 8.3, 15.5


@dataclass(frozen=True)
class Look:
    """How one series is told from another: colour, dash pattern (points on, off; None solid) and marker."""

    colour: str
    dash: tuple[float, float] | None
    marker: str

    @property
    def line_style(self) -> Any:
        """The dash as matplotlib takes it."""
        return "-" if self.dash is None else (0, self.dash)


def series_look(index: int) -> Look:
    """Look of the series with that number."""
    style = NORMAL.style(f"series_{index % 6 + 1}")
    return Look(style.edge or INK, style.dash, MARKERS[index % len(MARKERS)])


def account_look(name: str) -> Look:
    """Look of a rival account, the same in every figure."""
    return series_look(list(ACCOUNTS).index(name))


@contextmanager
def shared_style() -> Iterator[None]:
    """Everything drawn inside has the program's typeface, ink and quiet axes."""
    import matplotlib
    from matplotlib import font_manager

    for bold in (False, True):
        font_manager.fontManager.addfont(str(typeface_file(bold)))
    settings: Any = {
        "font.family": FAMILY, "font.size": 11.0, "text.color": INK, "axes.labelcolor": INK, "axes.edgecolor": QUIET,
        "xtick.color": QUIET, "ytick.color": QUIET, "xtick.labelcolor": INK, "ytick.labelcolor": INK,
        "axes.spines.top": False, "axes.spines.right": False, "axes.facecolor": "#ffffff", "figure.facecolor": PAPER,
        "axes.grid": True, "grid.color": "#e4ded1", "grid.linewidth": 0.6, "axes.axisbelow": True,
        "legend.frameon": False, "pdf.fonttype": 42,
        "axes.unicode_minus": True,
    }  # fmt: skip
    with matplotlib.rc_context(settings):
        yield


def new_figure(
    width: float, height: float, rows: int, columns: int, **options: Any
) -> "tuple[Figure, list[Axes]]":
    """A figure in inches with a grid of panels, and the panels as a flat list."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=(width, height), layout="constrained")
    panels = figure.subplots(rows, columns, squeeze=False, **options)
    return figure, [axes for row in panels for axes in row]


def headed(figure: "Figure", title: str, note: str = "") -> None:
    """A heading above all panels and a quiet note below them and below any legend, both at the left edge."""
    width, height = figure.get_size_inches()
    wrapped = fill(title, int(width * _CHARACTERS_PER_INCH))
    figure.suptitle(wrapped, x=0.01, ha="left", fontsize=15, fontweight=600)
    lines = fill(note, int(width * _NOTE_CHARACTERS_PER_INCH)) if note else ""
    room = (0.08 + 0.16 * (lines.count("\n") + 1)) / height if note else 0.0
    figure.set_layout_engine("constrained", rect=(0.005, room, 0.99, 1.0 - room))
    figure.text(
        0.01, 0.06 / height, lines, fontsize=8.5, color=QUIET, ha="left", va="bottom", linespacing=1.3
    )


def axis_label(label: str, unit: str) -> str:
    """ "tip to frog (mm)"; a bare number has no unit."""
    return label if unit == "1" else f"{label} ({unit})"


def image_bytes(figure: "Figure", kind: str = "png") -> bytes:
    """The figure as a file: "png", "svg" or "pdf".

    Equal figures are equal files, in whatever process: no date, and names inside an SVG from a fixed salt. An SVG names
    no address that a program could fetch.
    """
    import matplotlib

    stream = io.BytesIO()
    made = f"hoofsim {__version__}"
    svg = {"Creator": None, "Date": None, "Format": None, "Type": None}
    kept = {"pdf": {"CreationDate": None, "Creator": made}, "svg": svg, "png": {"Software": made}}
    with matplotlib.rc_context({"svg.hashsalt": "hoofsim"}):
        figure.savefig(stream, format=kind, dpi=DOTS_PER_INCH, metadata=kept.get(kind))
    content = stream.getvalue()
    return _DOCTYPE.sub(b"", content, count=1) if kind == "svg" else content


def spread_labels(positions: Sequence[float], gap: float) -> list[float]:
    """Heights for labels that want to stand at `positions`, moved apart to at least `gap`, in the given order."""
    order = sorted(range(len(positions)), key=lambda index: positions[index])
    placed: dict[int, float] = {}
    for turn, index in enumerate(order):
        wanted = positions[index]
        placed[index] = wanted if turn == 0 else max(wanted, placed[order[turn - 1]] + gap)
    shift = sum(placed[i] - positions[i] for i in order) / max(len(order), 1)
    return [placed[index] - shift for index in range(len(positions))]
