"""Stress along the laminae of the dorsal wall, with that of the baseline dashed."""

from collections.abc import Sequence

import numpy as np

from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.plot import XY, Plot, PlotLine, PlotMark, PlotPicture
from hoofsim.app.widgets.tagged_plot import Tag, TaggedPlot
from hoofsim.measures.table import MEASURES
from hoofsim.model import LoadedFoot
from hoofsim.session.session import Session

LEAST_MPA = 0.05
PERCENT = 100.0


def stress_along_wall(foot: LoadedFoot) -> tuple[XY, ...]:
    """Points (percent of the way down the attached wall, stress in MPa); none for a foot without rest."""
    if not foot.at_rest:
        return ()
    mechanics = foot.outputs.mechanics
    places = PERCENT * np.asarray(mechanics["laminar_stress_at"], dtype=float)
    stress = np.ravel(mechanics["laminar_stress"])
    return tuple((float(x), float(y)) for x, y in zip(places, stress, strict=True))


class WallPlot:
    """One plot; nothing to compute that the foot does not bring."""

    key, words, beside_curve = "wall", "Along the wall", True

    def __init__(self) -> None:
        self.plot = TaggedPlot(
            "stress along the wall",
            "stress in the laminae from the top of the attached wall to the level of the tip; dashed: the baseline",
        )

    @property
    def plots(self) -> Sequence[Plot]:
        """The one plot."""
        return (self.plot,)

    @property
    def told(self) -> Sequence[Widget]:
        """Nothing more."""
        return ()

    def work(self, session: Session) -> bool:
        """Nothing is missing."""
        return False

    def refresh(self, session: Session, shown: Shown, length_unit: str) -> None:
        """Both lines, and a mark at the peak."""
        now = stress_along_wall(shown.scene.loaded if shown.scene is not None else session.loaded)
        before = () if shown.playing else stress_along_wall(session.baseline)
        lines = [PlotLine(before, "quiet", dashed=True)] if before and before != now else []
        marks: tuple[PlotMark, ...] = ()
        self.plot.tags = ()
        if now:
            lines.append(PlotLine(now, "bonds"))
            peak = max(now, key=lambda point: point[1])
            marks = (PlotMark(peak, "bonds"),)
            self.plot.tags = (Tag(peak, "peak", "bonds"),)
        measure = MEASURES["laminar_stress_peak"]
        self.plot.picture = PlotPicture(
            "% of the way down the wall",
            f"{headed(measure.label.split(',')[0])}, {measure.unit}",
            tuple(lines),
            marks,
            x_range=(0.0, PERCENT),
            note="" if now else "This foot finds no state of rest.",
            least_height=LEAST_MPA,
        )
