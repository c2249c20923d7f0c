"""The foot as a display list: tissues, bonds, forces, measures, what changed, and labels that never overlap."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.drawing.bounds import bounds_of
from hoofsim.drawing.display_list import (
    Arrow,
    Bounds,
    Circle,
    DisplayList,
    Group,
    Item,
    Polygon,
    Polyline,
    Primitive,
    Text,
    as_point,
    flatten,
)
from hoofsim.drawing.foot_bonds import bonds
from hoofsim.drawing.foot_changes import change_items
from hoofsim.drawing.foot_forces import force_items, scale_words
from hoofsim.drawing.foot_ground import ground_items
from hoofsim.drawing.foot_measures import measure_items
from hoofsim.drawing.foot_shown import Options, ShownFoot, Unloaded
from hoofsim.drawing.foot_tissues import edges, is_cut, rim, tissues
from hoofsim.drawing.labels import Edge, PictureLabel, place
from hoofsim.drawing.parts import part
from hoofsim.drawing.text_size import LINE_HEIGHT, wrapped
from hoofsim.foot.curves import between, lengths, resampled
from hoofsim.foot.outline_bones import size_of
from hoofsim.foot.outline_soft import tendon_path
from hoofsim.foot.outlines import Outline, outlines
from hoofsim.foot.presets import PRESETS
from hoofsim.frames import Array

SCALE_BAR_MM = 20.0
TEXT_MM = 4.0  # type size for a foot of the sound foot's size
OUTERMOST = frozenset(
    {"capsule", "skin", "horn", "frog", "ground", "bed", "wedge", "cushion", "tendon", "bone"}
)
KEY_LANDMARKS = frozenset({"tip", "frog_point"})


@dataclass(frozen=True)
class _Drawn:
    """Everything about a foot that is no word on its picture, and the words that belong to it."""

    shown: ShownFoot
    ground: Group
    body: tuple[Item, ...]
    labels: tuple[PictureLabel, ...]
    notes: tuple[str, ...]
    warning: str


def foot_picture(
    loaded: ShownFoot, *, baseline: ShownFoot | None = None, show: Options | None = None
) -> DisplayList:
    """The picture of a loaded foot in mm, toe to the right.

    `baseline`: the unchanged foot, drawn as a ghost. `show`: what to show (default: everything but dimensions).
    BadInput for an unknown part or a measure that cannot be drawn.
    """
    options = show if show is not None else Options()
    drawn = _drawn(loaded, baseline, options)
    shown, body = drawn.shown, list(drawn.body)
    text_mm = options.text_mm if options.text_mm is not None else TEXT_MM * size_of(shown.points)
    if drawn.labels:
        left, right = _silhouette(flatten([*body, drawn.ground]))
        body += place(drawn.labels, left, right, height=text_mm, width=13.0 * text_mm, gap=1.3 * text_mm)
    items: tuple[Item, ...] = (drawn.ground, *body)
    title = _title(shown, options)
    notes = [*drawn.notes, *_note(options)]
    captions, bounds = _captions(title, drawn.warning, options, text_mm, notes, bounds_of(flatten(items)))
    return DisplayList((*items, *captions), bounds, title, _description(shown))


def bare_foot(
    loaded: ShownFoot, *, baseline: ShownFoot | None = None, show: Options | None = None
) -> tuple[DisplayList, list[str]]:
    """The picture without any words, so that the foot is as large as it can be, and the notes that belong to it.

    Forces and dimensions keep their arrows. BadInput as for `foot_picture`.
    """
    drawn = _drawn(loaded, baseline, show if show is not None else Options())
    items: tuple[Item, ...] = (drawn.ground, *drawn.body)
    picture = DisplayList(items, bounds_of(flatten(items)), "", _description(drawn.shown))
    return picture, list(drawn.notes)


def _drawn(loaded: ShownFoot, baseline: ShownFoot | None, options: Options) -> _Drawn:
    warning = ""
    if not loaded.at_rest:
        warning = f"Drawn without its load, because the loaded foot found no rest ({loaded.status})."
        loaded = Unloaded(loaded.foot, loaded.status, loaded.rest_points)
    made = outlines(loaded.points, loaded.rest_points)
    ground = ground_items(loaded, options)
    body: list[Item] = [
        *tissues(loaded, made, options),
        *bonds(loaded, made, options),
        *edges(loaded, options),
        *rim(made, options),
    ]
    comparable = baseline if baseline is not None and baseline.at_rest and loaded.at_rest else None
    changes, change_words = change_items(loaded, comparable, options)
    arrows, force_labels = force_items(loaded, options)
    dimensions, measure_labels = measure_items(loaded, options)
    dots, dot_labels = _landmarks(loaded, options)
    body += [*changes, *dimensions, *arrows, *dots]
    labels = [*_part_labels(loaded, made, options), *dot_labels, *force_labels, *measure_labels]
    notes = tuple(one for one in (scale_words(loaded, options) if arrows else "", change_words) if one)
    still = Group(tuple(ground), still=True)
    return _Drawn(loaded, still, tuple(body), tuple(labels), notes, warning)


def _title(shown: ShownFoot, options: Options) -> str:
    if options.title is not None:
        return options.title
    preset = PRESETS.get(shown.foot.preset)
    return preset.label if preset is not None else shown.foot.preset


def _description(shown: ShownFoot) -> str:
    cut = " The deep digital flexor tendon is cut." if is_cut(shown) else ""
    return (f"Section along the middle of a horse's foot, seen from the side with the toe to the right. "
            f"State: {shown.status}.{cut}")  # fmt: skip


def _note(options: Options) -> list[str]:
    return [f"Section along the middle. {SHORT_CAUTION}"] if options.note else []


def _landmarks(shown: ShownFoot, options: Options) -> tuple[list[Item], list[PictureLabel]]:
    """Dots on the chosen landmarks, and labels for those whose name is among the labels."""
    items: list[Item] = []
    labels: list[PictureLabel] = []
    for name in options.landmarks:
        told = part(name)
        if name in options.hide:
            continue
        centre = as_point(shown.points[name])
        role = "joint_centre" if name == "cor" else "landmark_key" if name in KEY_LANDMARKS else "landmark"
        items.append(Circle(centre, 1.1 if role == "landmark" else 1.4, role, name))
        if name in options.labels:
            labels.append(PictureLabel(centre, told.short, name))
    return items, labels


def _part_labels(shown: ShownFoot, made: dict[str, Outline], options: Options) -> list[PictureLabel]:
    labels = []
    for name in options.labels:
        told = part(name)
        if name in made and name not in options.hide:
            target, side = _target(name, shown, made[name].points)
            words = f"{told.short}, cut" if name == "flexor_tendon" and is_cut(shown) else told.short
            labels.append(PictureLabel(as_point(target), words, name, side))
    return labels


def _target(name: str, shown: ShownFoot, outline: Array) -> tuple[Array, str]:
    """Where a part's leader ends, well inside the part, and the side its label stands on."""
    points = shown.points
    centre: Array = resampled(np.vstack([outline, outline[:1]]), 200).mean(axis=0)
    if name == "flexor_tendon":
        line = tendon_path(points)
        place_on = int(np.argmin(np.abs(lengths(line) - 0.42 * lengths(line)[-1])))
        return line[place_on], "left"
    special: dict[str, tuple[Array, str]] = {
        "dorsal_wall": (between(points["wall_outer_middle"], points["wall_inner_middle"], 0.4), "right"),
        "lamellar_zone": (between(between(points["p3_dorsal_proximal"], points["wall_inner_proximal"], 0.55),
                                  points["wall_inner_middle"], 0.25), "right"),
        "solar_dermis": (between(points["tip"], points["frog_point"], 0.5) + np.array([-9.0, 4.0]), "right"),
        "sole": (between(points["sole_under_tip"], points["sole_toe"], 0.35) + np.array([0.0, 3.0]), "right"),
        "frog": (between(points["frog_point"], points["frog_heel"], 0.75) + np.array([0.0, 4.0]), "left"),
        "extensor_tendon": (outline[int(0.22 * len(outline))], "right"),
        "digital_cushion": (centre + np.array([-14.0, 4.0]), "left"),
        "navicular": (centre, "left"),
        "p1": (centre, "right"),
        "p2": (centre, "right"),
    }  # fmt: skip
    return special.get(name, (centre, "right" if centre[0] > -20 else "left"))


def _silhouette(primitives: Iterable[Primitive]) -> tuple[Edge, Edge]:
    """How far the drawing reaches to the left and to the right between two heights."""
    lines = []
    for one in primitives:
        if isinstance(one, Polygon) and one.role in OUTERMOST:
            lines.append(np.array((*one.points, one.points[0])))
        elif isinstance(one, Polyline) and one.role == "ghost":
            lines.append(np.array(one.points))
        elif isinstance(one, Arrow):
            lines.append(np.array((one.start, one.end)))
    dense = np.vstack([resampled(line, max(2, int(lengths(line)[-1]))) for line in lines])

    def reach(extreme: Callable[[Array], float]) -> Edge:
        def edge(low: float, high: float) -> float:
            near = dense[(dense[:, 1] > low - 2.0) & (dense[:, 1] < high + 2.0), 0]
            return extreme(near) if near.size else float(np.median(dense[:, 0]))

        return edge

    return reach(lambda x: float(x.min())), reach(lambda x: float(x.max()))


def _captions(
    title: str, warning: str, options: Options, size: float, words: list[str], bounds: Bounds
) -> tuple[list[Item], Bounds]:
    """Title and warning above, scale bar and notes below, in type of `size` mm; and the bounds with a margin."""
    left, bottom, right, top = bounds
    margin = size
    items: list[Item] = []
    for line in reversed(wrapped(warning, size, right - left) if warning else []):
        items.append(Text((left, top + 0.4 * size), line, "warning", size, ("left", "bottom")))
        top += size * LINE_HEIGHT
    if title:
        items.append(Text((left, top + 0.6 * size), title, "title", 1.35 * size, ("left", "bottom")))
        top += 0.6 * size + 1.35 * size * LINE_HEIGHT
    y = bottom - 0.8 * size
    if options.scale_bar:
        bar = y - 0.5 * size
        ticks = [
            (right - SCALE_BAR_MM, bar + 1.2),
            (right - SCALE_BAR_MM, bar),
            (right, bar),
            (right, bar + 1.2),
        ]
        items.append(Polyline(tuple(ticks), "scale_bar"))
        items.append(Text((right - SCALE_BAR_MM - 0.5 * size, bar), f"{SCALE_BAR_MM:g} mm", "note", 0.85 * size,
                          ("right", "middle")))  # fmt: skip
    room = right - left - (SCALE_BAR_MM + 5.0 * size if options.scale_bar else 0.0)
    for sentence in words:
        for line in wrapped(sentence, 0.85 * size, room):
            items.append(Text((left, y), line, "note", 0.85 * size, ("left", "top")))
            y -= 0.85 * size * LINE_HEIGHT
    lowest = min(y, bottom - (1.8 * size if options.scale_bar else 0.0))
    return items, (left - margin, lowest - 0.5 * margin, right + margin, top + margin)
