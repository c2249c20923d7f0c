"""What every plot beside the curve is: widgets, a share of work at a time, and a fresh picture."""

from collections.abc import Sequence
from typing import Protocol

from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.plot import Plot
from hoofsim.session.session import Session


class LivePlot(Protocol):
    """One choice of the drop-down. Long work is done in pieces of some tens of milliseconds, one a call of `work`."""

    key: str
    words: str
    beside_curve: bool
    """Whether one plot of it stands beside the curve; otherwise its plots take the curve's place as well."""

    @property
    def plots(self) -> Sequence[Plot]:
        """The plots, from the left."""
        ...

    @property
    def told(self) -> Sequence[Widget]:
        """Words that stand after the plots; of several the first, a key, stands under them."""
        ...

    def work(self, session: Session) -> bool:
        """Do the next piece of what is missing for the sitting as it is; False when nothing was missing."""
        ...

    def refresh(self, session: Session, shown: Shown, length_unit: str) -> None:
        """New pictures from what is known."""
        ...
