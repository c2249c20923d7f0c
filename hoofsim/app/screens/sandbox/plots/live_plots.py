"""The drop-down of plots beside the curve: which one is shown, and the pieces of work that it still needs."""

from collections.abc import Callable, Sequence

from hoofsim.app.pace import WORK_EVERY
from hoofsim.app.screens.sandbox.curve_panel import CurvePanel
from hoofsim.app.screens.sandbox.plots.claim_plot import ClaimPlot
from hoofsim.app.screens.sandbox.plots.live_plot import LivePlot
from hoofsim.app.screens.sandbox.plots.stride_plot import StridePlot
from hoofsim.app.screens.sandbox.plots.wall_plot import WallPlot
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.session.session import Session

TRACE = "trace"


class LivePlots:
    """Holds the choice, which stays while the sandbox is open; `changed` is called when another is chosen."""

    def __init__(self, curves: CurvePanel, changed: Callable[[], None]) -> None:
        self.curves = curves
        self.live: dict[str, LivePlot] = {one.key: one for one in (ClaimPlot(), StridePlot(), WallPlot())}
        self.which = TRACE
        choices = [Choice(TRACE, "The last half minute"), *(Choice(k, p.words) for k, p in self.live.items())]
        self.choice = DropDown("Plot", choices, TRACE, self.choose, titled=False)
        self.panel = ScrollPanel("plots", [], gap=0.5)  # everything, where there is one dock only
        self.words = ScrollPanel("words of the plot", [], gap=0.5)
        self.changed = changed
        self.working = True
        self._since = 0.0
        self._fill()

    def choose(self, which: str) -> None:
        """Show another plot."""
        self.which = self.choice.value = which
        self.panel.offset = self.words.offset = 0
        self._fill()
        self.follow()
        self.changed()

    def _fill(self) -> None:
        curve: list[Widget] = [self.curves.curve, self.curves.choice]
        if self.chosen is None:
            self.panel.items = [*curve, self.curves.trace]
            return
        self.panel.items = [*self.chosen.plots, *self.chosen.told]
        self.words.items = list(self.chosen.told[1:])

    @property
    def chosen(self) -> LivePlot | None:
        """The plot shown; None for the trace, which the curve's panel keeps."""
        return self.live.get(self.which)

    @property
    def beside_curve(self) -> Sequence[Widget]:
        """The one plot that stands beside the curve; none when the chosen one takes the whole strip."""
        if self.chosen is None:
            return (self.curves.trace,)
        return self.chosen.plots if self.chosen.beside_curve else ()

    @property
    def tall(self) -> bool:
        """Whether the strip needs more height: where words stand beside the plots."""
        return self.chosen is not None and len(self.chosen.told) > 1

    def follow(self) -> None:
        """The sitting or the choice changed: there may be work again."""
        self.working = self.chosen is not None

    def work(self, session: Session, seconds: float) -> bool:
        """Do a piece of the work when it is time; True when a new picture came of it."""
        self._since += seconds
        if self.chosen is None or not self.working or self._since < WORK_EVERY:
            return False
        self._since = 0.0
        self.working = self.chosen.work(session)
        return self.working

    def refresh(self, session: Session, shown: Shown, length_unit: str) -> None:
        """A new picture of the chosen plot."""
        if self.chosen is not None:
            self.chosen.refresh(session, shown, length_unit)
