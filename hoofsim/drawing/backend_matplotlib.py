"""Display lists as PNG or PDF through matplotlib, which is loaded only when a picture is asked for."""

import io
from typing import TYPE_CHECKING

from hoofsim import __version__
from hoofsim.drawing.display_list import DisplayList
from hoofsim.drawing.lowering import AreaMark, DiscMark, LineMark, Mark, lower
from hoofsim.drawing.palette import NORMAL, Palette, red_green_blue_alpha
from hoofsim.drawing.typeface import typeface_file

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

POINTS_PER_INCH = 72.0
ALIGN = {
    "bottom": "bottom",
    "middle": "center",
    "top": "top",
    "left": "left",
    "centre": "center",
    "right": "right",
}


def figure(picture: DisplayList, *, width_inches: float = 8.0, palette: Palette = NORMAL) -> "Figure":
    """The picture as a matplotlib figure, `width_inches` wide, with the picture's own shape."""
    from matplotlib.figure import Figure

    left, bottom, right, top = picture.bounds
    drawn = Figure(figsize=(width_inches, width_inches * (top - bottom) / (right - left)))
    drawn.set_facecolor(palette.style("paper").fill or "#ffffff")
    axes = drawn.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_xlim(left, right)
    axes.set_ylim(bottom, top)
    axes.set_axis_off()
    points_per_mm = width_inches * POINTS_PER_INCH / (right - left)
    for order, (_, made) in enumerate(lower(picture.primitives(), palette)):
        for mark in made:
            _draw(axes, mark, order, points_per_mm)
    return drawn


def image_bytes(
    picture: DisplayList,
    kind: str = "png",
    *,
    width_inches: float = 8.0,
    dots_per_inch: int = 150,
    palette: Palette = NORMAL,
) -> bytes:
    """The picture as a file: "png" or "pdf", without a date, so that equal pictures are equal files."""
    drawn = figure(picture, width_inches=width_inches, palette=palette)
    made = f"hoofsim {__version__}"
    more: dict[str, str | None] = (
        {"Software": made} if kind == "png" else {"Creator": made, "CreationDate": None}
    )
    stream = io.BytesIO()
    drawn.savefig(
        stream,
        format=kind,
        dpi=dots_per_inch,
        facecolor=drawn.get_facecolor(),
        metadata={"Title": picture.title, **more},
    )
    return stream.getvalue()


def _draw(axes: "Axes", mark: Mark, order: int, points_per_mm: float) -> None:
    from matplotlib import font_manager, patches, patheffects

    if isinstance(mark, AreaMark):
        colour = tuple(value / 255 for value in red_green_blue_alpha(mark.colour))
        axes.add_patch(
            patches.Polygon(mark.points, closed=True, facecolor=colour, edgecolor="none", zorder=order)
        )
    elif isinstance(mark, LineMark):
        points = (*mark.points, mark.points[0], mark.points[1]) if mark.closed else mark.points
        x, y = zip(*points, strict=True)
        axes.plot(
            x,
            y,
            color=mark.colour,
            linewidth=mark.width * points_per_mm,
            zorder=order,
            solid_joinstyle="round",
            solid_capstyle="round",
        )
    elif isinstance(mark, DiscMark):
        axes.add_patch(
            patches.Circle(
                mark.centre,
                mark.radius,
                facecolor=mark.colour,
                edgecolor=mark.rim or "none",
                linewidth=mark.width * points_per_mm,
                zorder=order,
            )
        )
    else:
        text = mark.text
        face = font_manager.FontProperties(fname=typeface_file(mark.bold), size=text.height * points_per_mm)
        written = axes.text(
            *text.at,
            _plain(text.text),
            color=mark.colour,
            font=face,
            rotation=text.turn,
            zorder=order + 10000,
            ha=ALIGN[text.anchor[0]],
            va=ALIGN[text.anchor[1]],
        )
        if mark.halo is not None:
            width = 0.22 * text.height * points_per_mm
            written.set_path_effects([patheffects.withStroke(linewidth=width, foreground=mark.halo)])


def _plain(text: str) -> str:
    return text.replace("$", r"\$")  # a dollar sign would start a formula
