"""The claim: this sitting's runs as points among the rival accounts' curves, and what they cannot tell apart."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from hoofsim.app.screens.sandbox.curve_panel import factor_to_shown
from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.app.screens.sandbox.plots.account_curves import (
    Curve,
    Window,
    account_curves,
    entries,
    seen,
    tags_at_ends,
    window_round,
)
from hoofsim.app.screens.sandbox.plots.claim_runs import ACROSS, UP, Runs, changes
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.label import Label
from hoofsim.app.widgets.line_key import LineKey
from hoofsim.app.widgets.plot import XY, Plot, PlotBand, PlotLine, PlotMark, PlotPicture
from hoofsim.app.widgets.tagged_plot import Tag, TaggedPlot
from hoofsim.claims.information import (
    ERROR_DEG_OR_MM,
    Advice,
    each_once,
    next_observations,
    ranked,
    unread,
)
from hoofsim.claims.runs import pooled, runs_sentence
from hoofsim.claims.separability import Separation
from hoofsim.claims.wording import MOVEMENT_NOT_CAUSE
from hoofsim.measures.table import MEASURES
from hoofsim.session.session import Session
from hoofsim.units import show, shown_unit

BAND_MM = 2.0 * ERROR_DEG_OR_MM
AT_ONCE = 2  # further measures weighed in one piece of work
UNWEIGHED = "Weighing the runs against the accounts."


class ClaimPlot:
    """Two plots and a column of words; curves once a baseline, weighing once a run, advice a few measures at a time."""

    key, words, beside_curve = "claim", "Runs and accounts", False

    def __init__(self) -> None:
        self.charts = {
            name: TaggedPlot(f"{MEASURES[name].label} among the accounts", MEASURES[name].definition)
            for name in UP
        }
        self.sentence = Label("", "small")
        self.accounts = LineKey("Accounts", entries())
        self.signs = Label("", "small", "quiet")
        self.caution = Label(MOVEMENT_NOT_CAUSE, "small_italic", "quiet")
        self._runs = Runs()
        self._of: object = None
        self._curves: Mapping[str, Mapping[str, Curve]] = {}
        self._weighed: tuple[Separation, ...] = ()
        self._together: Separation | None = None
        self._left: list[str] = []
        self._advice: list[Advice] = []

    @property
    def plots(self) -> Sequence[Plot]:
        """Tip to frog, and frog to toe."""
        return tuple(self.charts.values())

    @property
    def told(self) -> Sequence[Widget]:
        """The key, the sentence, and what neither can say."""
        return (self.accounts, self.sentence, self.signs, self.caution)

    # -- a piece of work at a time -------------------------------------------------------------------------------

    def work(self, session: Session) -> bool:
        """Curves, then each run, then the worth of further measures."""
        state = session.state
        key = (state.compared_with, state.load)
        if key != self._of:
            self._of = key
            self._curves = account_curves(session.baseline.points) if session.baseline.at_rest else {}
            return True
        runs = self._runs.of(session)
        for run in runs:
            if self._runs.known(state, run) is None:
                self._runs.weigh(state, run)
                return True
        weighed = tuple(one for run in runs if (one := self._runs.known(state, run)) is not None)
        if not same(weighed, self._weighed):
            self._weighed, self._advice = weighed, []
            self._together = pooled(weighed) if weighed else None
            self._left = list(unread(self._together)) if self._together is not None else []
            return True
        if self._together is None or not self._left:
            return False
        now, self._left = self._left[:AT_ONCE], self._left[AT_ONCE:]
        self._advice += next_observations(self._together, {name: (name,) for name in now})
        return True

    # -- what is shown -------------------------------------------------------------------------------------------

    def refresh(self, session: Session, shown: Shown, length_unit: str) -> None:
        """Points where the foot and the trials are now; the sentence as far as it is known."""
        runs = self._runs.of(session)
        now = changes(shown.values(), shown.values_before())
        current = [self._runs.known(session.state, run) for run in runs]
        if any(one is None for one in current) or not same(current, self._weighed):
            self.sentence.text = UNWEIGHED
        else:
            advice = None if self._left else each_once(ranked(self._advice))
            self.sentence.text = runs_sentence(self._weighed, advice)
        band = show(BAND_MM, "mm", length_unit)
        self.signs.text = (
            f"Filled: the foot now. Rings: kept trials. Shaded: within {band}, the reading error."
        )
        factor = factor_to_shown("mm", length_unit)
        trials = [run for run in runs if run.number]
        for name, plot in self.charts.items():
            places = [(run.change[ACROSS], run.change[name]) for run in trials]
            here = (now[ACROSS], now[name]) if now else None
            window = window_round([*places, *([here] if here else [])])
            cut = {key: seen(curve, window) for key, curve in self._curves.get(name, {}).items()}
            tags = list(tags_at_ends(cut, window))
            marks = [PlotMark(place, "ink", hollow=True) for place in places]
            tags += [
                Tag(place, f"trial {run.number}", needed=False)
                for place, run in zip(places, trials, strict=True)
            ]
            if here:
                marks.append(PlotMark(here, "accent"))
                tags.append(Tag(here, "now", "accent"))
            plot.tags = tuple(replace(tag, at=scaled(tag.at, factor)) for tag in tags)
            plot.picture = self._picture(name, cut, marks, window, factor, length_unit)

    def _picture(
        self,
        name: str,
        curves: Mapping[str, Curve],
        marks: Sequence[PlotMark],
        window: Window,
        factor: float,
        length_unit: str,
    ) -> PlotPicture:
        lines = tuple(
            PlotLine(tuple(scaled(at, factor) for at in curve), entry.colour, entry.dashed)
            for entry, curve in zip(entries(), curves.values(), strict=False)
        )
        return PlotPicture(
            "capsular rotation, change, deg",
            f"{headed(MEASURES[name].label.split(',')[0])}, change, {shown_unit('mm', length_unit)}",
            lines,
            tuple(PlotMark(scaled(mark.at, factor), mark.colour, mark.hollow) for mark in marks),
            (PlotBand(-BAND_MM * factor, BAND_MM * factor),),
            window.x,
            least_height=window.y[1] * factor,
        )


def same(some: Sequence[object], others: Sequence[object]) -> bool:
    """Whether two rows hold the very same things."""
    return len(some) == len(others) and all(a is b for a, b in zip(some, others, strict=True))


def scaled(at: XY, factor: float) -> XY:
    """A point with its y in the shown unit."""
    return at[0], at[1] * factor
