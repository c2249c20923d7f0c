"""What a referee is: an independent computation, the package it needs, and how far the product may differ from it."""

from collections.abc import Callable
from dataclasses import dataclass
from importlib.util import find_spec

from hoofsim.verify.wording import figures


@dataclass(frozen=True)
class Referee:
    """`largest()` gives the largest difference found, in `unit`; `package` is imported as named, installed as `install`."""

    what: str
    by: str
    package: str
    install: str
    unit: str
    asked: float
    largest: Callable[[], float]

    @property
    def at_hand(self) -> bool:
        """True when the package is installed."""
        return find_spec(self.package) is not None


@dataclass(frozen=True)
class Verdict:
    """What a referee found; `largest` is None when its package is missing and the row was left out."""

    referee: Referee
    largest: float | None

    @property
    def agrees(self) -> bool | None:
        """Whether the difference is within what is asked; None when left out."""
        return None if self.largest is None else self.largest <= self.referee.asked

    @property
    def cells(self) -> tuple[str, ...]:
        """what, found, asked, by, verdict."""
        one = self.referee
        asked = f"under {figures_small(one.asked)} {one.unit}"
        if self.largest is None:
            return one.what, "", asked, one.by, f"left out: {one.install} is not installed"
        return (
            one.what,
            f"{figures_small(self.largest)} {one.unit}",
            asked,
            one.by,
            "agrees" if self.agrees else "DIFFERS",
        )


def figures_small(value: float) -> str:
    """Two figures however small the value."""
    return figures(value) if value >= 0.001 else f"{value:.0e}"
