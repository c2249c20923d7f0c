"""Every measure of the foot, from points and mechanical outputs, in one table."""

from hoofsim.measures.compute import change_is_readable, find, measure_all
from hoofsim.measures.measure import Measure, Mechanics, Points, Reference
from hoofsim.measures.table import MEASURES, NOT_IN_A_SAGITTAL_VIEW

__all__ = [
    "MEASURES",
    "NOT_IN_A_SAGITTAL_VIEW",
    "Measure",
    "Mechanics",
    "Points",
    "Reference",
    "change_is_readable",
    "find",
    "measure_all",
]
