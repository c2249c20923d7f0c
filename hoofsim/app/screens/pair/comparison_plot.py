"""One measure of both feet in one plot: over the compared control while they stand, over the stance of a gait."""

import numpy as np

from hoofsim.app.screens.pair.pairing import SIDES, Pairing, Side, on_or_off, subject, value_words
from hoofsim.app.screens.pair.twins import Twins
from hoofsim.app.screens.sandbox.curve_panel import (
    CURVE_POINTS,
    LEAST_HEIGHT,
    factor_to_shown,
    words_with_unit,
)
from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.app.screens.sandbox.plots.stance_curve import StanceCurve
from hoofsim.app.widgets.plot import XY, PlotBand, PlotLine, PlotMark, PlotPicture
from hoofsim.app.widgets.tagged_plot import Tag, TaggedPlot
from hoofsim.foot.parameters import BY_NAME
from hoofsim.frames import Array
from hoofsim.measures.table import MEASURES
from hoofsim.model import Table, sweep
from hoofsim.session.possible import why_impossible

AIR = 0.02  # beside the control's ends, as a share of its range, so that a foot at an end covers no number
COLOUR: dict[Side, str] = {"left": "quiet", "right": "accent"}


class ComparisonPlot:
    """Holds which measure is plotted, and what has been computed for the feet as they are."""

    def __init__(self) -> None:
        self.measure = "tip_to_frog"
        self.plot = TaggedPlot("comparison", "the chosen measure of both feet; choose another in the list")
        self._key: object = None
        self._range_due = False
        self._range: tuple[Array, Table] | None = None
        self._stances: dict[Side, StanceCurve] = {}

    @property
    def working(self) -> bool:
        """Whether there is something left to compute."""
        return self._range_due or any(not curve.complete for curve in self._stances.values())

    def follow(self, twins: Twins) -> None:
        """The feet may have become others: what was computed for those before is dropped."""
        pairing = twins.pairing
        feet = {side: twins.session(side).foot for side in SIDES}
        values = [tuple(foot.values.items()) for foot in feet.values()]
        key = (pairing.case, values if pairing.moves else (pairing.preset, pairing.control))
        if key == self._key:
            return
        self._key, self._range, self._range_due = key, None, not pairing.moves
        self._stances = (
            {s: StanceCurve(foot, pairing.case) for s, foot in feet.items()} if pairing.moves else {}
        )

    def work(self, twins: Twins) -> None:
        """The next piece of what is missing; some tens of milliseconds."""
        if self._range_due:
            self._range, self._range_due = _over_control(twins), False
            return
        for curve in self._stances.values():
            if not curve.complete:
                curve.work()
                return

    def refresh(self, twins: Twins, length_unit: str) -> None:
        """A new picture from what is known."""
        pairing, measure = twins.pairing, MEASURES[self.measure]
        parameter = BY_NAME[pairing.control]
        up = factor_to_shown(measure.unit, length_unit)
        across = 1.0 if pairing.moves else factor_to_shown(parameter.unit, length_unit)
        low, high = parameter.low * across, parameter.high * across
        air = (0.5 if on_or_off(pairing.control) else AIR) * (high - low)
        lines, marks, tags = [], [], []
        if self._range is not None and not on_or_off(pairing.control):  # nothing lies between yes and no
            at, table = self._range
            points = zip(at * across, table[self.measure] * up, strict=True)
            lines.append(
                PlotLine(
                    tuple(None if np.isnan(y) else (float(x), float(y)) for x, y in points), parameter.group
                )
            )
        for side, curve in self._stances.items():
            lines.append(PlotLine(curve.points(self.measure, up), COLOUR[side], dashed=side == "left"))
        for side in SIDES:
            place = self._place(twins, side, across, up)
            if place is not None:
                marks.append(PlotMark(place, COLOUR[side], hollow=side == "left"))
                tags.append(Tag(place, side, COLOUR[side]))
        bands: tuple[PlotBand, ...] = ()
        if measure.reference is not None:
            bands = (PlotBand(measure.reference.low * up, measure.reference.high * up),)
        self.plot.tags = tuple(tags)
        self.plot.picture = PlotPicture(
            _words_across(pairing, length_unit),
            words_with_unit(headed(measure.label), measure.unit, length_unit),
            tuple(lines),
            tuple(marks),
            bands,
            (0.0, 100.0) if pairing.moves else (low - air, high + air),
            least_height=LEAST_HEIGHT[measure.unit] * up,
        )

    def _place(self, twins: Twins, side: Side, across: float, up: float) -> XY | None:
        """Where one foot stands in the plot; None in the air, and for a foot without numbers."""
        shown = twins.shown[side]
        at = shown.stance_percent() if twins.pairing.moves else twins.pairing.value(side)
        value = shown.values().get(self.measure)
        return None if at is None or value is None else (at * across, value * up)


def _words_across(pairing: Pairing, length_unit: str) -> str:
    """What the plot runs over, with its unit."""
    if pairing.moves:
        return "% of the stance"
    if on_or_off(pairing.control):
        ends = (f"{end:g} {value_words(pairing.control, end, length_unit)}" for end in (0.0, 1.0))
        return f"{subject(pairing.control)}: {', '.join(ends)}"
    parameter = BY_NAME[pairing.control]
    return words_with_unit(parameter.label, parameter.unit, length_unit)


def _over_control(twins: Twins) -> tuple[Array, Table]:
    """The control's whole range, as far as it makes a foot, and the measures there."""
    pairing = twins.pairing
    parameter, foot = BY_NAME[pairing.control], twins.session("left").state.foot
    count = 2 if on_or_off(pairing.control) else CURVE_POINTS
    values = np.linspace(parameter.low, parameter.high, count)
    possible = [not why_impossible([foot.changed(pairing.control, float(value))]) for value in values]
    values = values[possible]
    return values, sweep(twins.session("left").foot, {pairing.control: values}, pairing.case)
