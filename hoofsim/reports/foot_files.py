"""One loaded foot as the content of a picture file, and the words that stand over it."""

from collections.abc import Mapping

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.drawing.display_list import DisplayList
from hoofsim.drawing.foot_picture import foot_picture
from hoofsim.drawing.foot_shown import Options
from hoofsim.foot.parameters import BY_NAME, setting_words
from hoofsim.foot.presets import PRESETS
from hoofsim.mechanics.loads import CASES
from hoofsim.model import LoadedFoot

SKETCH_COLUMNS = 96


def heading(preset: str, settings: Mapping[str, float], load: str, stance_percent: float | None) -> str:
    """Preset, settings and load in words, such as "Sound foot, heel change 10 mm, standing"."""
    parts = [PRESETS[preset].label, *(setting_words(*setting) for setting in settings.items())]
    moment = BY_NAME["stance_percent"].default if stance_percent is None else stance_percent
    stance = f" at {moment:g} % of stance" if CASES[load].moves else ""
    return ", ".join([*parts, CASES[load].label.lower() + stance])


def picture(loaded: LoadedFoot, baseline: LoadedFoot, title: str) -> DisplayList:
    """The loaded foot under its title, with the foot it is compared with as a ghost when that is another one."""
    changed = loaded.foot != baseline.foot and baseline.at_rest
    compared = "the baseline" if baseline.foot.changes else "the unchanged foot"
    return foot_picture(
        loaded, baseline=baseline if changed else None, show=Options(title=title, compared=compared)
    )


def svg_text(loaded: LoadedFoot, baseline: LoadedFoot, title: str) -> str:
    """The foot as one self-contained SVG document."""
    from hoofsim.drawing.backend_svg import svg

    return svg(picture(loaded, baseline, title))


def png_bytes(loaded: LoadedFoot, baseline: LoadedFoot, title: str) -> bytes:
    """The foot as a PNG, 1200 pixels wide."""
    from hoofsim.drawing.backend_matplotlib import image_bytes

    return image_bytes(picture(loaded, baseline, title))


def text_sketch(loaded: LoadedFoot, baseline: LoadedFoot, title: str) -> str:
    """The foot alone in characters, for a terminal: too coarse for a ghost, forces or small dots."""
    from hoofsim.drawing.backend_text import characters

    plain = Options(title=title, forces=False, landmarks=(), note=False, scale_bar=False)
    return f"{characters(foot_picture(loaded, show=plain), columns=SKETCH_COLUMNS).rstrip()}\n\n{SHORT_CAUTION}\n"
