"""Names that a file may use: of measures and of controls; a wrong one is met with the nearest."""

from hoofsim.errors import nearest
from hoofsim.files.reader import Path_
from hoofsim.files.typed import Misplaced
from hoofsim.foot.parameters import BY_NAME
from hoofsim.measures import MEASURES


def check_measure(name: str, path: Path_) -> None:
    """Misplaced, under `path`, when there is no such measure."""
    if name not in MEASURES:
        raise Misplaced(path, f"unknown measure '{name}'; {nearest(name, MEASURES)}")


def check_control(name: str, path: Path_) -> None:
    """Misplaced, under `path`, when there is no such control."""
    if name not in BY_NAME:
        raise Misplaced(path, f"unknown control '{name}'; {nearest(name, BY_NAME)}")
