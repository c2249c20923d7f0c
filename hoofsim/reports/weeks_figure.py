"""Weeks of growth as a figure: what grew, what the foot's angles did, and what the tendon felt."""

from typing import TYPE_CHECKING

from hoofsim.measures import MEASURES
from hoofsim.model import Table
from hoofsim.reports.plot_style import axis_label, headed, new_figure, series_look, shared_style
from hoofsim.timeline.calendar import Calendar

if TYPE_CHECKING:
    from matplotlib.figure import Figure

GREW = {"toe_change_mm": "toe, along the wall", "heel_change_mm": "heel height", "sole_change_mm": "sole"}
ANGLES = ("hoof_angle", "palmar_angle")


def weeks_figure(calendar: Calendar, table: Table) -> "Figure":
    """Three panels over the days: horn in mm, angles in degrees as changes from day 0, tendon tension in N."""
    with shared_style():
        figure, (grown, turned, pulled) = new_figure(11.0, 4.6, 1, 3)
        for index, (name, label) in enumerate(GREW.items()):
            look = series_look(index)
            grown.plot(calendar.days, calendar.controls[name], color=look.colour, linestyle=look.line_style,
                       marker=look.marker, markersize=4, label=label)  # fmt: skip
        grown.set_ylabel("horn, change (mm)")
        for index, name in enumerate(ANGLES):
            look = series_look(index)
            turned.plot(calendar.days, table[name] - table[name][0], color=look.colour, linestyle=look.line_style,
                        marker=look.marker, markersize=4, label=MEASURES[name].label)  # fmt: skip
        turned.set_ylabel("angle, change (deg)")
        look = series_look(0)
        pulled.plot(
            calendar.days, table["tendon_tension"], color=look.colour, marker=look.marker, markersize=4
        )
        pulled.set_ylabel(axis_label("tendon tension, standing", "N"))
        pulled.set_ylim(bottom=0.0)
        for panel in (grown, turned, pulled):
            panel.set_xlabel("day")
            for trim in calendar.trims:
                panel.axvline(trim.day, linestyle=":", linewidth=1.0, color="#6d665b")
        grown.legend()
        turned.legend()
        note = "Dotted: a trim. " if calendar.trims else ""
        headed(figure, f"{calendar.keeping.label}: {calendar.days[-1]:g} days",
               note + "Generic foot; wear is a choice, growth second-hand (R8). Not for deciding on a trim.")  # fmt: skip
    return figure
