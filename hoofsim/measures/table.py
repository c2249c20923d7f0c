"""The one table of measures. Whatever prints, draws, records or checks a measure takes its words from here."""

from typing import Final

from hoofsim.measures.angles import ANGLES
from hoofsim.measures.distances import BONE_TO_CAPSULE
from hoofsim.measures.frog import FROG
from hoofsim.measures.leverage import LEVERAGE
from hoofsim.measures.measure import Measure
from hoofsim.measures.mechanics import MECHANICS

NOT_IN_A_SAGITTAL_VIEW: Final = (
    "Medial-lateral displacement is outside a sagittal view: no measure here can show it, or rule it out."
)

MEASURES: Final[dict[str, Measure]] = {
    measure.name: measure for measure in (*ANGLES, *BONE_TO_CAPSULE, *FROG, *LEVERAGE, *MECHANICS)
}
"""Every measure by name, in the order in which tables show them."""
