"""What a picture of the foot needs of a loaded foot, and what the reader may choose to see in it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from hoofsim.frames import Array

LABELLED = (
    "p1", "p2", "p3", "navicular", "flexor_tendon", "extensor_tendon", "lamellar_zone", "digital_cushion",
    "coronary_corium", "dorsal_wall", "white_line", "solar_dermis", "sole", "frog", "frog_point",
)  # fmt: skip
LANDMARKS = ("tip", "frog_point", "cor", "extensor_process", "firm_horn", "breakover", "tendon_insertion")


class ShownStations(Protocol):
    """Stations of one kind: ends (S, 2) in mm, attached and damage (S,) from 0 to 1."""

    @property
    def bone_end(self) -> Array: ...
    @property
    def horn_end(self) -> Array: ...
    @property
    def attached(self) -> Array: ...
    @property
    def damage(self) -> Array: ...


class ShownForce(Protocol):
    """A force (2,) in N at a place (2,) in mm."""

    @property
    def at(self) -> Array: ...
    @property
    def force(self) -> Array: ...


class ShownSettings(Protocol):
    """The foot's preset and controls."""

    @property
    def preset(self) -> str: ...
    @property
    def values(self) -> Mapping[str, float]: ...


class ShownFoot(Protocol):
    """The part of `hoofsim.model.LoadedFoot` that is drawn; the moving scene may offer the same."""

    @property
    def foot(self) -> ShownSettings: ...
    @property
    def status(self) -> str: ...
    @property
    def at_rest(self) -> bool: ...
    @property
    def points(self) -> Mapping[str, Array]: ...
    @property
    def rest_points(self) -> Mapping[str, Array]: ...
    @property
    def stations(self) -> Mapping[str, ShownStations]: ...
    @property
    def forces(self) -> Mapping[str, ShownForce]: ...
    def measures(self) -> Mapping[str, float | None]:
        """Every measure by name; None where it is not defined."""
        ...


@dataclass(frozen=True)
class Unloaded:
    """A foot that found no rest, as it was before the load: nothing of the failed search is shown."""

    foot: ShownSettings
    status: str
    rest_points: Mapping[str, Array]
    at_rest: bool = False

    @property
    def points(self) -> Mapping[str, Array]:
        """The landmarks at rest."""
        return self.rest_points

    @property
    def stations(self) -> Mapping[str, ShownStations]:
        """None: no tissue is loaded."""
        return {}

    @property
    def forces(self) -> Mapping[str, ShownForce]:
        """None."""
        return {}

    def measures(self) -> Mapping[str, float | None]:
        """None: measures are those of the loaded foot."""
        return {}


@dataclass(frozen=True)
class Options:
    """What a picture of the foot shows.

    `hide`: parts left out. `labels`, `landmarks`: part names to label, landmarks to dot. `measures`: measures drawn
    as dimensions. `force_words`: the size of each force beside its arrow. `newtons_per_mm`: length of the force
    arrows (None: chosen to fit, and stated). `ghost`: what the foot compared with is laid upon, "ground", "capsule",
    "bone", or "none"; `compared`: what it is called. `moved_scale`: how many times longer than the movement its
    arrows are drawn (None: chosen, and stated). `title`: words above the picture (None: the preset's name). `note`:
    the caution below it. `text_mm`: type size in mm of the picture, so that a window may keep words readable at any
    zoom (None: in proportion to the foot). `highlight`: a part drawn with a bright rim. `length_unit`: "mm" or "in"
    for numbers.
    """

    hide: frozenset[str] = frozenset()
    labels: tuple[str, ...] = LABELLED
    landmarks: tuple[str, ...] = LANDMARKS
    measures: tuple[str, ...] = ()
    bonds: bool = True
    forces: bool = True
    force_words: bool = True
    newtons_per_mm: float | None = None
    ghost: str = "ground"
    compared: str = "the unchanged foot"
    moved_scale: float | None = None
    title: str | None = None
    note: bool = True
    scale_bar: bool = True
    ground: bool = True
    text_mm: float | None = None
    highlight: str | None = None
    length_unit: str = "mm"
