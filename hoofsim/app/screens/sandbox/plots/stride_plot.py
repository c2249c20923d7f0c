"""Tendon tension and the ground force's lever over the stance of walk and trot, with the present moment marked."""

from collections.abc import Sequence

from hoofsim.app.screens.sandbox.curve_panel import factor_to_shown, words_with_unit
from hoofsim.app.screens.sandbox.plots.stance_curve import StanceCurve
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.label import Label
from hoofsim.app.widgets.plot import XY, Plot, PlotLine, PlotMark, PlotPicture
from hoofsim.app.widgets.tagged_plot import Tag, TaggedPlot
from hoofsim.measures.table import MEASURES
from hoofsim.session.commands import MOVING_CASES
from hoofsim.session.session import Session
from hoofsim.session.state import FootChoice

# What is drawn, under names short enough for half a strip.
DRAWN = {"tendon_tension": "Tendon tension", "ground_force_lever": "Ground-force lever"}
LEAST = {"tendon_tension": 200.0, "ground_force_lever": 5.0}
COLOUR = {"walk": "tendon", "trot": "trim"}
TOLD = "Line: walk. Dashes: trot. Dot: now."


class StridePlot:
    """Two plots side by side, computed for one foot, a few moments of a gait at a time."""

    key, words, beside_curve = "stride", "Over the stride", False

    def __init__(self) -> None:
        self.charts = {
            name: TaggedPlot(f"{MEASURES[name].label} over the stance", MEASURES[name].definition)
            for name in DRAWN
        }
        self.note = Label(TOLD, "small", "quiet")
        self._foot: FootChoice | None = None
        self._curves: dict[str, StanceCurve] = {}

    @property
    def plots(self) -> Sequence[Plot]:
        """Tension, and lever."""
        return tuple(self.charts.values())

    @property
    def told(self) -> Sequence[Widget]:
        """How to read them."""
        return (self.note,)

    def _follow(self, session: Session) -> None:
        state = session.state.foot
        if state != self._foot:
            self._foot = state
            self._curves = {case: StanceCurve(session.foot, case) for case in MOVING_CASES}

    def work(self, session: Session) -> bool:
        """The next moments of a gait that are missing for this foot."""
        self._follow(session)
        for curve in self._curves.values():
            if not curve.complete:
                curve.work()
                return True
        return False

    def refresh(self, session: Session, shown: Shown, length_unit: str) -> None:
        """What is computed so far, and the dot."""
        self._follow(session)
        case, stance = session.state.load.case, shown.stance_percent()
        for name, plot in self.charts.items():
            measure = MEASURES[name]
            factor = factor_to_shown(measure.unit, length_unit)
            lines, tags, marks = [], [], []
            for gait, curve in self._curves.items():
                points = curve.points(name, factor)
                lines.append(PlotLine(points, COLOUR[gait], dashed=gait == "trot"))
                if curve.complete and (peak := highest(points)) is not None:
                    tags.append(Tag(peak, gait, COLOUR[gait]))
            value = shown.values().get(name)
            if case in MOVING_CASES and stance is not None and value is not None:
                marks.append(PlotMark((stance, value * factor), COLOUR[case]))
            plot.tags = tuple(tags)
            plot.picture = PlotPicture(
                "% of the stance",
                words_with_unit(DRAWN[name], measure.unit, length_unit),
                tuple(lines),
                tuple(marks),
                x_range=(0.0, 100.0),
                least_height=LEAST[name] * factor,
            )


def highest(points: Sequence[XY | None]) -> XY | None:
    """The point with the largest y."""
    return max((p for p in points if p is not None), key=lambda p: p[1], default=None)
