"""Sizes and colours of the user interface, decided once for a window, a text scale and a contrast setting."""

from dataclasses import dataclass, field, replace

from hoofsim.app.fonts import Fonts

Colour = tuple[int, int, int]

TEXT_SCALE_LOW, TEXT_SCALE_HIGH = 0.8, 2.0
BODY_PIXELS = 15.0
# Below these numbers of text widths and heights no screen can show its controls: the text is held smaller instead.
FEWEST_EMS_WIDE, FEWEST_EMS_HIGH = 33.0, 22.5

COLOURS: dict[str, Colour] = {
    "page": (238, 232, 220),
    "card": (251, 249, 244),
    "field": (255, 255, 253),
    "ink": (37, 33, 28),
    "quiet": (94, 85, 73),
    "faint": (139, 128, 113),  # for marks only, never for text
    "line": (214, 204, 187),
    "groove": (226, 218, 203),
    "accent": (11, 91, 100),
    "accent_soft": (212, 231, 229),
    "on_accent": (255, 255, 255),
    "focus": (194, 65, 12),
    "warn": (143, 45, 18),
    "warn_soft": (250, 226, 212),
    "good": (47, 102, 58),
    "reference": (176, 201, 178),
    "shade": (37, 33, 28),
    "trim": (133, 92, 22),
    "bonds": (155, 45, 78),
    "tendon": (38, 84, 140),
    "load": (72, 76, 97),
    "shape": (78, 98, 45),
    "tissue": (110, 72, 52),
}

CONTRAST_COLOURS: dict[str, Colour] = COLOURS | {
    "page": (255, 255, 255),
    "card": (255, 255, 255),
    "field": (255, 255, 255),
    "ink": (0, 0, 0),
    "quiet": (40, 40, 40),
    "faint": (70, 70, 70),
    "line": (60, 60, 60),
    "groove": (190, 190, 190),
    "accent": (0, 56, 74),
    "accent_soft": (208, 236, 240),
    "focus": (170, 0, 0),
    "warn": (120, 20, 0),
    "reference": (130, 175, 135),
    "trim": (92, 58, 0),
    "bonds": (120, 12, 52),
    "tendon": (10, 44, 108),
    "load": (30, 34, 60),
    "shape": (44, 64, 12),
    "tissue": (80, 40, 20),
}

# Size of each role of text, in body sizes, and the face it is set in.
TEXT_ROLES: dict[str, tuple[float, str]] = {
    "body": (1.0, "regular"),
    "bold": (1.0, "bold"),
    "italic": (1.0, "italic"),
    "code": (0.92, "fixed"),
    "small": (0.86, "regular"),
    "small_bold": (0.86, "bold"),
    "small_italic": (0.86, "italic"),
    "number": (1.0, "bold"),
    "heading": (1.22, "bold"),
    "title": (1.75, "bold"),
    "display": (2.9, "bold"),
}


@dataclass(frozen=True)
class Theme:
    """Everything a widget asks about size and colour; made by `theme_for`."""

    em: float = BODY_PIXELS
    window: tuple[int, int] = (1280, 800)
    contrast: bool = False
    reduced_motion: bool = False
    limited_to_percent: int | None = (
        None  # the text scale in force, where the window forbids the one wished for
    )
    fonts: Fonts = field(default_factory=Fonts)

    def px(self, ems: float) -> int:
        """Pixels of a length given in body text sizes, at least one."""
        return max(1, round(self.em * ems))

    def colour(self, role: str) -> Colour:
        """The colour of a role of the interface; KeyError for an unknown role."""
        return (CONTRAST_COLOURS if self.contrast else COLOURS)[role]

    @property
    def hairline(self) -> int:
        """Width of a dividing line in pixels, heavier in the contrast setting."""
        return self.px(0.13 if self.contrast else 0.07)

    def text_pixels(self, role: str) -> tuple[int, str]:
        """Pixel size and face of a role of text."""
        size, face = TEXT_ROLES[role]
        return max(7, round(self.em * size)), face

    def line_height(self, role: str = "body") -> int:
        """Distance between base lines of a role of text, in pixels."""
        pixels, face = self.text_pixels(role)
        return self.fonts.line_height(face, pixels)

    def text_width(self, text: str, role: str = "body") -> int:
        """Width of one line in pixels."""
        pixels, face = self.text_pixels(role)
        return self.fonts.width(text, face, pixels)

    def larger(self, factor: float) -> "Theme":
        """The same theme with everything scaled, for a heading block or the presenter's view."""
        return replace(self, em=self.em * factor)


def theme_for(
    size: tuple[int, int],
    text_scale: float = 1.0,
    contrast: bool = False,
    reduced_motion: bool = False,
    fonts: Fonts | None = None,
    screen_scale: float = 1.0,
) -> Theme:
    """The theme for a window of `size` pixels; the text scale (0.8 to 2.0) is held down where the window is small.

    `screen_scale`: how many times larger than usual everything is, for a dense display.
    """
    usual = BODY_PIXELS * screen_scale
    wished = usual * min(max(text_scale, TEXT_SCALE_LOW), TEXT_SCALE_HIGH)
    most = min(size[0] / FEWEST_EMS_WIDE, size[1] / FEWEST_EMS_HIGH)
    em = min(wished, most)
    limited = round(100 * em / usual) if em < wished - 0.01 else None
    return Theme(
        em=em,
        window=size,
        contrast=contrast,
        reduced_motion=reduced_motion,
        limited_to_percent=limited,
        fonts=fonts or Fonts(),
    )


def relative_luminance(colour: Colour) -> float:
    """Luminance of a colour as the web's contrast rule defines it, 0 (black) to 1 (white)."""

    def linear(channel: int) -> float:
        share = channel / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(channel) for channel in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast_ratio(first: Colour, second: Colour) -> float:
    """Contrast between two colours, 1 to 21."""
    light, dark = sorted((relative_luminance(first), relative_luminance(second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
