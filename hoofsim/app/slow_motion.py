"""How fast things may be shown to move, as shares of life's pace, and what each is called."""

from collections.abc import Mapping

PACES: Mapping[float, str] = {
    1.0: "Life's pace",
    0.5: "Half as fast",
    0.25: "A quarter as fast",
    0.1: "A tenth as fast",
    0.05: "A twentieth as fast",
}
LIFE = 1.0


def next_pace(pace: float) -> float:
    """The next slower pace, and from the slowest back to life's."""
    known = list(PACES)
    return known[(known.index(pace) + 1) % len(known)]
