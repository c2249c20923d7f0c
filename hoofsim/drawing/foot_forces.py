"""Forces as arrows whose length is the force, with the scale that is needed to read them."""

import numpy as np

from hoofsim.drawing.display_list import Arrow, Item, as_point
from hoofsim.drawing.foot_shown import Options, ShownFoot
from hoofsim.drawing.labels import PictureLabel
from hoofsim.drawing.parts import PARTS
from hoofsim.drawing.text_size import unbroken
from hoofsim.units import show

PARTS_OF_FORCES = {
    "load": "load", "ground": "ground_force", "tendon": "tendon_force", "navicular": "navicular_force",
    "extensor": "extensor_force",
}  # fmt: skip
PUSHES = frozenset({"load", "ground", "navicular"})  # drawn with the arrow's tip at the place it acts
LONGEST_MM, SHORTEST_MM = 30.0, 2.5
STEPS = (
    5.0,
    10.0,
    15.0,
    20.0,
    30.0,
    40.0,
    50.0,
    60.0,
    80.0,
    100.0,
    150.0,
    200.0,
    300.0,
    400.0,
    500.0,
    1000.0,
)


def newtons_per_mm(shown: ShownFoot, options: Options) -> float:
    """The scale of the arrows: the reader's, or the finest round one at which the longest arrow still fits."""
    if options.newtons_per_mm is not None:
        return options.newtons_per_mm
    greatest = max((float(np.hypot(*one.force)) for one in shown.forces.values()), default=0.0)
    return next((step for step in STEPS if greatest / step <= LONGEST_MM), STEPS[-1])


def force_items(shown: ShownFoot, options: Options) -> tuple[list[Item], list[PictureLabel]]:
    """Arrows of all forces long enough to see, and a label with the size of each."""
    if not options.forces:
        return [], []
    scale = newtons_per_mm(shown, options)
    items: list[Item] = []
    labels: list[PictureLabel] = []
    for name, one in shown.forces.items():
        part = PARTS_OF_FORCES.get(name)
        reach = np.asarray(one.force) / scale
        if part is None or part in options.hide or float(np.hypot(*reach)) < SHORTEST_MM:
            continue
        start, end = (one.at - reach, one.at) if name in PUSHES else (one.at, one.at + reach)
        items.append(Arrow(as_point(start), as_point(end), "force", part))
        if not options.force_words:
            continue
        words = f"{PARTS[part].short} {unbroken(show(float(np.hypot(*one.force)), 'N'))}"
        labels.append(PictureLabel(as_point(0.75 * start + 0.25 * end), words, part, role="force_text"))
    return items, labels


def scale_words(shown: ShownFoot, options: Options) -> str:
    """What the length of an arrow means."""
    return f"Force arrows: 10 mm on the scale is {show(10.0 * newtons_per_mm(shown, options), 'N')}."
