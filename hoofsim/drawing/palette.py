"""How each role looks: the only place where colours, widths and patterns are chosen.

Two palettes: `normal`, and `high_contrast` for projectors and weak sight. A tissue differs from its neighbours by
colour and by pattern, so that it can be told without colour. Only areas may be translucent; lines and text are opaque.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from hoofsim.errors import BadInput, nearest

PATTERNS = ("none", "rising", "falling", "crossed", "level", "dots")


@dataclass(frozen=True)
class Style:
    """Look of one role: colours as "#rrggbb" (areas may add "aa" for opacity), widths and spacings in mm."""

    fill: str | None = None
    edge: str | None = None
    width: float = 0.3
    pattern: str = "none"
    pattern_colour: str | None = None
    spacing: float = 2.6
    dash: tuple[float, float] | None = None
    bold: bool = False
    halo: str | None = None


def _area(fill: str, edge: str | None, pattern: str = "none", ink: str | None = None, **more: float) -> Style:
    return Style(fill=fill, edge=edge, pattern=pattern, pattern_colour=ink, **more)  # type: ignore[arg-type]


def _line(colour: str, width: float, dash: tuple[float, float] | None = None) -> Style:
    return Style(edge=colour, width=width, dash=dash)


def _text(colour: str, bold: bool = False, halo: str | None = "#fbf9f4") -> Style:
    return Style(fill=colour, bold=bold, halo=halo)


PAPER, INK = "#fbf9f4", "#211c17"

_NORMAL: dict[str, Style] = {
    # grounds
    "paper": _area(PAPER, None),
    "ground": _area("#cfc6b4", "#5a5040", "rising", "#a99d86", spacing=3.6, width=0.5),
    "ground_line": _line("#5a5040", 0.6),
    "bed": _area("#e3d8b8", "#8a7c54", "dots", "#a8986a", spacing=3.0),
    "wedge": _area("#9aa7ad", "#37454c", "level", "#74858d", spacing=2.4, width=0.5),
    # outer tissues
    "skin": _area("#e2c3a9", "#7c5c45", width=0.5),
    "capsule": _area("#cdbda4", "#7d6b52", width=0.4),
    "coronet": _area("#d9a79a", "#85473b", "dots", "#b97668", spacing=2.2),
    "horn": _area("#a48f74", "#43362a", width=0.5),
    "horn_grain": _line("#83705a", 0.22),
    "sole": _area("#c3b59a", "#4f4433", "falling", "#a19274", spacing=2.2, width=0.4),
    "white_line": _area("#efe0a8", "#8b7a3a", width=0.25),
    "frog": _area("#8c9a92", "#33413a", "crossed", "#71807a", spacing=2.6, width=0.45),
    # inner tissues
    "lamellar_zone": _area("#efc3bb", "#a5625a", width=0.2),
    "lamina": _line("#8f1f33", 0.42),
    "lamina_broken": _line("#4d4d4d", 0.3),
    "dermis_tie": _line("#a2445a", 0.34),
    "solar_dermis": _area("#e9b2a6", "#9c5a4e", width=0.25),
    "cushion": _area("#eadf9f", "#8d7c34", "dots", "#c0ad5c", spacing=2.8, width=0.35),
    "tendon": _area("#b9cfe2", "#274f72", width=0.5),
    "tendon_grain": _line("#86a8c6", 0.22),
    "extensor": _area("#c9d3ea", "#3f4f80", width=0.4),
    "ligament": _area("#d5dfd2", "#4f6a4d", "level", "#93ab91", spacing=1.3, width=0.3),
    "joint": _area("#cfe8ea", "#4d8288", width=0.25),
    "bone": _area("#f6ebcd", "#54452a", width=0.55),
    "bone_beyond": Style("#e6d5abb0", "#7a6743", 0.4, "rising", "#cdb985", 2.4, (1.8, 1.2)),
    "lost_bone": Style(edge="#8f1f33", width=0.4, dash=(1.6, 1.2)),
    # what is told about the picture
    "landmark": _area("#ffffff", "#1c1c1c", width=0.35),
    "landmark_key": _area("#d2421a", "#3d1105", width=0.35),
    "joint_centre": _area("#ffffff", "#0b5a63", width=0.5),
    "leader": _line("#8c8376", 0.22),
    "construction": _line("#0b5a63", 0.3, (2.2, 1.4)),
    "dimension": _line("#0b5a63", 0.35),
    "dimension_text": _text("#084c54", bold=True),
    "ghost": _line("#5b3f95", 0.5, (2.6, 1.6)),
    "moved": _line("#5b3f95", 0.7),
    "rival": _line("#94501a", 0.5, (1.2, 1.2)),
    "force": _line("#b3261e", 1.1),
    "force_text": _text("#96190f", bold=True),
    "coronet_line": _line("#5f4a33", 0.35, (2.4, 1.6)),
    "highlight": Style(edge="#d2421a", width=0.9),
    "title": _text(INK, bold=True),
    "label": _text(INK),
    "note": _text("#5b5348"),
    "warning": _text("#96190f", bold=True),
    "scale_bar": _line(INK, 0.7),
    # charts
    "axis": _line("#3b352d", 0.4),
    "grid": _line("#ddd6c8", 0.22),
    "tick_text": _text("#3b352d"),
    "band": _area("#0b5a6326", None),
    "chart_frame": _area("#ffffff", "#3b352d", width=0.3),
    "series_1": Style(fill="#1f5fa6", edge="#1f5fa6", width=0.7),
    "series_2": Style(fill="#b5471b", edge="#b5471b", width=0.7, dash=(3.2, 1.4)),
    "series_3": Style(fill="#2b7a3f", edge="#2b7a3f", width=0.7, dash=(1.2, 1.2)),
    "series_4": Style(fill="#7a3f96", edge="#7a3f96", width=0.7, dash=(5.0, 1.2)),
    "series_5": Style(fill="#8a6a00", edge="#8a6a00", width=0.7, dash=(0.7, 1.6)),
    "series_6": Style(fill="#444444", edge="#444444", width=0.7, dash=(4.0, 2.6)),
    "own_point": _area("#ffd23f", "#211c17", width=0.4),
    "error_bar": _line("#211c17", 0.35),
}

_NORMAL |= {
    f"{role}_point": replace(style, edge=INK, width=0.3, dash=None)
    for role, style in _NORMAL.items()
    if role.startswith("series_")
}

_HIGH_CONTRAST: dict[str, Style] = {
    role: replace(
        style,
        width=style.width * 1.5,
        halo="#ffffff" if style.halo else None,
    )
    for role, style in _NORMAL.items()
} | {
    "paper": _area("#ffffff", None),
    "ground": _area("#bdbdbd", "#000000", "rising", "#6e6e6e", spacing=3.6, width=0.9),
    "skin": _area("#e6c5aa", "#000000", width=0.8),
    "capsule": _area("#d8ccb8", "#000000", width=0.7),
    "horn": _area("#7f6647", "#000000", width=0.9),
    "horn_grain": _line("#4f3d28", 0.3),
    "sole": _area("#b7a47c", "#000000", "falling", "#6b5a36", spacing=2.2, width=0.8),
    "frog": _area("#5f746a", "#000000", "crossed", "#2f4239", spacing=2.6, width=0.8),
    "lamellar_zone": _area("#f7b7ac", "#000000", width=0.5),
    "lamina": _line("#7a0019", 0.6),
    "cushion": _area("#f5e37a", "#000000", "dots", "#8a7000", spacing=2.8, width=0.7),
    "tendon": _area("#8fc1f0", "#00254d", width=0.9),
    "bone": _area("#fffbea", "#000000", width=1.0),
    "leader": _line("#4a4a4a", 0.35),
    "dimension_text": _text("#00363c", bold=True, halo="#ffffff"),
    "force": _line("#a00000", 1.6),
    "force_text": _text("#7d0000", bold=True, halo="#ffffff"),
    "title": _text("#000000", bold=True, halo="#ffffff"),
    "label": _text("#000000", bold=True, halo="#ffffff"),
    "note": _text("#2b2b2b", halo="#ffffff"),
    "warning": _text("#7d0000", bold=True, halo="#ffffff"),
}


@dataclass(frozen=True)
class Palette:
    """A named table of styles."""

    name: str
    styles: Mapping[str, Style]

    def style(self, role: str) -> Style:
        """The look of a role; BadInput, naming the nearest role, when there is none of that name."""
        try:
            return self.styles[role]
        except KeyError:
            raise BadInput(f"drawing role '{role}' is not known; {nearest(role, self.styles)}") from None


NORMAL = Palette("normal", MappingProxyType(_NORMAL))
HIGH_CONTRAST = Palette("high_contrast", MappingProxyType(_HIGH_CONTRAST))
PALETTES = MappingProxyType({one.name: one for one in (NORMAL, HIGH_CONTRAST)})


def red_green_blue_alpha(colour: str) -> tuple[int, int, int, int]:
    """A colour "#rrggbb" or "#rrggbbaa" as four numbers 0 to 255."""
    digits = colour.lstrip("#")
    red, green, blue = (int(digits[start : start + 2], 16) for start in (0, 2, 4))
    return red, green, blue, int(digits[6:8], 16) if len(digits) == 8 else 255
