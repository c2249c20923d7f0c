"""Laminae and the bonds under P3 as short ties that stretch, thin and break."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from hoofsim.drawing.display_list import Group, Item, Tie, as_points
from hoofsim.drawing.foot_shown import Options, ShownFoot, ShownStations
from hoofsim.foot.curves import left_of, reaches, unit
from hoofsim.foot.outline_bones import size_of
from hoofsim.foot.outline_capsule import horn_top
from hoofsim.foot.outlines import Outline
from hoofsim.frames import Array

CUSHION_AHEAD_MM = 14.0  # how far the cushion's tongue reaches in front of the tendon's insertion


def bonds(shown: ShownFoot, made: Mapping[str, Outline], options: Options) -> list[Item]:
    """The ties of the laminae and of the solar dermis, each kind a group of its own."""
    if not options.bonds:
        return []
    items: list[Item] = []
    if "laminae" not in options.hide and "laminae" in shown.stations:
        items.append(Group(tuple(_laminae(shown))))
    if "solar_bonds" not in options.hide and "solar_dermis" in shown.stations:
        items.append(Group(tuple(_solar(shown, made["p3"].points))))
    return items


def _stretch(stations: ShownStations, rest_lengths: Array) -> Array:
    lengths = np.hypot(*(stations.horn_end - stations.bone_end).T)
    change: Array = lengths / np.maximum(rest_lengths, 1e-6) - 1.0
    return change


def _laminae(shown: ShownFoot) -> list[Item]:
    stations = shown.stations["laminae"]
    rest = shown.rest_points
    lengths = np.array([float(np.hypot(*(rest[f"wall_inner_{end}"] - rest[bone])))
                        for end, bone in (("proximal", "extensor_process"), ("distal", "tip"))])  # fmt: skip
    along = np.linspace(0.0, 1.0, len(stations.attached))
    return _ties(stations, _stretch(stations, lengths[0] + along * (lengths[1] - lengths[0])), ("lamina", "laminae"),
                 stations.bone_end, stations.horn_end)  # fmt: skip


def _solar(shown: ShownFoot, bone: Array) -> list[Item]:
    """Ties between P3's arched underside and the horn, where the cut shows both (in front of the digital cushion)."""
    stations = shown.stations["solar_dermis"]
    points, rest = shown.points, shown.rest_points
    away = left_of(unit(points["tip"] - points["palmar_process"]))
    floor = horn_top(points, rest)
    outline = np.vstack([bone, bone[:1]])
    ahead = (stations.bone_end - points["tendon_insertion"]) @ unit(points["tip"] - points["palmar_process"])
    in_front = ahead > CUSHION_AHEAD_MM * size_of(points)
    places, span = stations.bone_end, stations.horn_end - stations.bone_end
    down = span / np.maximum(np.hypot(*span.T), 1e-12)[:, None]
    starts = _met(places, np.broadcast_to(away, places.shape), outline, places)
    ends = _met(places, down, floor, stations.horn_end)
    thickness = np.full(len(places), shown.foot.values.get("solar_dermis_thickness_mm", 10.0))
    stretch = _stretch(stations, thickness)
    return _ties(stations, stretch, ("dermis_tie", "solar_bonds"), starts, ends, in_front)


def _met(places: Array, directions: Array, line: Array, otherwise: Array) -> Array:
    """Where rays (S, 2) first meet a line, or `otherwise` (S, 2) where they never do."""
    reach = reaches(places, directions, line)[:, None]
    found = np.isfinite(reach)
    met: Array = np.where(found, places + np.where(found, reach, 0.0) * directions, otherwise)
    return met


def _ties(stations: ShownStations, stretch: Array, role_and_part: tuple[str, str], starts: Array, ends: Array,
          chosen: NDArray[np.bool_] | slice = slice(None)) -> list[Item]:  # fmt: skip
    role, part = role_and_part
    ends_of = zip(as_points(starts[chosen]), as_points(ends[chosen]), strict=True)
    states = zip(
        *(one[chosen].tolist() for one in (stretch, stations.attached, stations.damage)), strict=True
    )
    return [
        Tie(start, end, role, changed, attached, damage, part)
        for (start, end), (changed, attached, damage) in zip(ends_of, states, strict=True)
    ]
