"""Live plots: a measure over the whole range of a control, and the same measure as it went in this sitting."""

from collections import deque

import numpy as np

from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.plot import Plot, PlotBand, PlotLine, PlotMark, PlotPicture
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.foot.parameters import BY_NAME, PARAMETERS
from hoofsim.measures.table import MEASURES
from hoofsim.model import sweep
from hoofsim.session.possible import why_impossible
from hoofsim.session.session import Session
from hoofsim.units import MILLIMETRES_PER_INCH, shown_unit

CURVE_POINTS = 25
TRACE_SECONDS = 30.0
LEAST_HEIGHT = {"deg": 2.0, "mm": 2.0, "N": 60.0, "MPa": 0.05, "1": 0.05}
NOT_SWEPT = ("tendon_cut",)


def factor_to_shown(unit: str, length_unit: str) -> float:
    """What a number is multiplied with to be shown."""
    return 1 / MILLIMETRES_PER_INCH if unit == "mm" and length_unit == "in" else 1.0


def words_with_unit(label: str, unit: str, length_unit: str) -> str:
    """A label and the unit behind it."""
    name = shown_unit(unit, length_unit)
    return f"{label}, {name}" if name else label


class CurvePanel:
    """Holds what is plotted against what, computes the curve when asked, and keeps the trace."""

    def __init__(self) -> None:
        self.control = "heel_change_mm"
        self.measure = "palmar_angle"
        self.choice = DropDown(
            "Against",
            [Choice(p.name, p.label) for p in PARAMETERS if p.name not in NOT_SWEPT],
            self.control,
            self._set_control,
            titled=False,
        )
        self.curve = Plot("curve", "the chosen measure over the whole range of the control moved last")
        self.trace = Plot("trace", "the chosen measure over the last half minute")
        self.panel = ScrollPanel("curves", [self.curve, self.choice, self.trace], gap=0.5)
        self._key: object = None
        self._points: tuple[tuple[float, float] | None, ...] = ()
        self._history: deque[tuple[float, float | None]] = deque(maxlen=600)
        self._clock = 0.0
        self.due = True

    def _set_control(self, name: str) -> None:
        self.follow(control=name)

    def follow(self, control: str | None = None, measure: str | None = None) -> None:
        """Plot another measure, or against another control."""
        if control is not None and control in BY_NAME and control not in NOT_SWEPT:
            self.control = control
            self.choice.value = control
        if measure is not None and measure != self.measure:
            self.measure = measure
            self._history.clear()
        self.due = True

    def record(self, value: float | None, seconds: float) -> None:
        """Add the present number to the trace; call once in a while."""
        self._clock += seconds
        self._history.append((self._clock, value))
        while self._history and self._history[0][0] < self._clock - TRACE_SECONDS:
            self._history.popleft()

    def compute(self, session: Session, length_unit: str) -> None:
        """The curve for the present foot; some tens of milliseconds, so call it when the hand rests."""
        self.due = False
        state = session.state
        others = tuple(pair for pair in state.foot.changes if pair[0] != self.control)
        key = (state.foot.preset, others, state.load, self.control, self.measure)
        if key == self._key:
            return
        self._key = key
        parameter = BY_NAME[self.control]
        values = np.linspace(parameter.low, parameter.high, CURVE_POINTS)
        stance = state.load.stance_percent
        if self.control == "stance_percent":
            stance = None
        feet = [state.foot.changed(self.control, float(value)) for value in values]
        if why_impossible(feet):  # some of these values and the other controls make no foot together
            values = values[[not why_impossible([foot]) for foot in feet]]
        table = sweep(session.foot, {self.control: values}, state.load.case, stance_percent=stance)
        self._points = tuple(
            None if np.isnan(y) else (float(x), float(y))
            for x, y in zip(values, table[self.measure], strict=True)
        )

    def refresh(self, session: Session, length_unit: str) -> None:
        """New pictures from what is known."""
        parameter, measure = BY_NAME[self.control], MEASURES[self.measure]
        across = factor_to_shown(parameter.unit, length_unit)
        up = factor_to_shown(measure.unit, length_unit)
        scaled = tuple(None if p is None else (p[0] * across, p[1] * up) for p in self._points)
        marks = []
        now = session.loaded.measures().get(self.measure)
        before = session.baseline.measures().get(self.measure)
        if before is not None:
            start = session.state.compared_with.value(self.control)
            marks.append(PlotMark((start * across, before * up), "quiet", hollow=True))
        if now is not None:
            marks.append(PlotMark((session.value(self.control) * across, now * up), parameter.group))
        bands: tuple[PlotBand, ...] = ()
        if measure.reference is not None:
            bands = (PlotBand(measure.reference.low * up, measure.reference.high * up),)
        y_words = words_with_unit(headed(measure.label), measure.unit, length_unit)
        least = LEAST_HEIGHT[measure.unit] * up
        self.curve.picture = PlotPicture(
            words_with_unit(parameter.label, parameter.unit, length_unit),
            y_words,
            (PlotLine(scaled, parameter.group),),
            tuple(marks),
            bands,
            (parameter.low * across, parameter.high * across),
            least_height=least,
        )
        latest = self._history[-1][1] if self._history else now
        ages = tuple(None if value is None else (at - self._clock, value * up) for at, value in self._history)
        self.trace.picture = PlotPicture(
            "seconds ago",
            y_words,
            (PlotLine(ages, "accent"),),
            (PlotMark((0.0, latest * up), "accent"),) if latest is not None else (),
            (),
            (-TRACE_SECONDS, 0.0),
            least_height=least,
        )
