"""What a sitting can be saved as besides the sitting itself: a picture, a handout, a clip of the stride."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

import pygame

from hoofsim.app.foot_picture import bare_picture_of
from hoofsim.app.screens.sandbox.measures_panel import MAIN
from hoofsim.app.theme import theme_for
from hoofsim.app.widgets.layout import inset, split_bottom
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines
from hoofsim.cautions import SHORT_CAUTION
from hoofsim.drawing.backend_pygame import PicturePainter
from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import DisplayList
from hoofsim.drawing.palette import NORMAL
from hoofsim.errors import BadInput
from hoofsim.mechanics.loads import load_case
from hoofsim.reports.clip import HOW_TO_INSTALL, clip_bytes, missing_clips
from hoofsim.reports.foot_files import heading, png_bytes, svg_text
from hoofsim.reports.handout import handout_page
from hoofsim.reports.html_page import html
from hoofsim.scene.scene import Scene
from hoofsim.scene.stride import Stride
from hoofsim.session.commands import MOVING_CASES
from hoofsim.session.session import Session, foot_of
from hoofsim.session.state import FootChoice

Rect = pygame.Rect
CLIP_SIZE = (960, 720)
FRAMES_A_SECOND = 20
PACE = 0.5  # of life's, so that the eye can follow; the words under a clip say so
SITTING = ".yaml"
CLIPS = (".gif", ".mp4")
PLAYED, PAINTED = 0.5, 0.8  # shares of a clip's making that are done by then; the rest is its writing

GoesOn = Callable[[float], bool]


@dataclass(frozen=True)
class Export:
    """One kind of file: its ending, what it is called, and how it is made of a sitting and a length unit."""

    ending: str
    words: str
    make: Callable[[Session, str, GoesOn], bytes | str]


class Stopped(Exception):
    """Whoever asked for a file wants it no longer."""


def export_bytes(
    session: Session, ending: str, length_unit: str = "mm", goes_on: GoesOn = lambda share: True
) -> bytes | str:
    """The content of the file; BadInput as `refuse`.

    `goes_on(share)` is told now and then how far it is, 0 to 1; Stopped is raised when it answers no.
    """
    refuse(session, ending)
    return EXPORTS[ending].make(session, length_unit, goes_on)


def refuse(session: Session, ending: str) -> None:
    """BadInput for an unknown ending, a foot that has nothing to show, a clip of no stride or without its extra."""
    if ending not in EXPORTS:
        raise BadInput(f"cannot save as '{ending}': the name must end in {', '.join((SITTING, *EXPORTS))}")
    if not session.loaded.at_rest:
        raise BadInput(
            "this foot finds no state of rest, so there is nothing to show of it; save the sitting instead"
        )
    if ending in CLIPS and session.state.load.case not in MOVING_CASES:
        raise BadInput("a clip shows a stride: choose walk or trot under Load first")
    if ending in missing_clips():
        raise BadInput(missing_words())


def missing_words() -> str:
    """What cannot be saved for want of an extra, and how to get it; empty when all can."""
    missing = missing_clips()
    return f"For {' and '.join(missing)} clips: {HOW_TO_INSTALL}." if missing else ""


def _title(session: Session, foot: FootChoice) -> str:
    load = session.state.load
    return heading(foot.preset, dict(foot.changes), load.case, load.stance_percent)


def _png(session: Session, length_unit: str, goes_on: GoesOn) -> bytes:
    return png_bytes(session.loaded, session.baseline, _title(session, session.state.foot))


def _svg(session: Session, length_unit: str, goes_on: GoesOn) -> str:
    return svg_text(session.loaded, session.baseline, _title(session, session.state.foot))


def _handout(session: Session, length_unit: str, goes_on: GoesOn) -> str:
    state = session.state
    return html(
        handout_page(
            _title(session, state.foot),
            _title(session, state.compared_with),
            _png(session, length_unit, goes_on),
            session.loaded.measures(),
            session.baseline.measures(),
            MAIN,
            length_unit,
        )
    )


def _clip(ending: str) -> Callable[[Session, str, GoesOn], bytes]:
    def make(session: Session, length_unit: str, goes_on: GoesOn) -> bytes:
        frames = stride_frames(session, length_unit, goes_on)
        return clip_bytes(frames, CLIP_SIZE, FRAMES_A_SECOND, ending)

    return make


def stride_frames(session: Session, length_unit: str, goes_on: GoesOn) -> list[bytes]:
    """One stride from landing to landing, as rows of RGB bytes of `CLIP_SIZE` pixels, with words under it."""
    told = partial(_told, goes_on)
    state = session.state
    scene = Scene(foot_of(state.foot), state.load.case, stance_percent=state.load.stance_percent)
    seconds = Stride(load_case(state.load.case)).duration_s / PACE
    scene.play(PACE)
    count = round(seconds * FRAMES_A_SECOND)
    for number in range(
        count
    ):  # a stride before, so that the first frame is of a foot in motion, as the last is
        told(PLAYED * 0.5 * number / count)
        _let_pass(scene, 1.0 / FRAMES_A_SECOND)
    pictures: list[DisplayList] = []
    notes: list[str] = []
    for number in range(count):
        told(PLAYED * 0.5 * (1.0 + number / count))
        picture, notes = bare_picture_of(
            scene.loaded, None, newtons_per_mm=100.0, note=False, length_unit=length_unit
        )
        pictures.append(picture)
        _let_pass(scene, 1.0 / FRAMES_A_SECOND)
    surface, sheet = _captioned(f"{_foot_words(session)}, at half of life's pace. {' '.join(notes)}")
    left, bottom, right, top = zip(*(picture.bounds for picture in pictures), strict=True)
    camera = Camera.fit((min(left), min(bottom), max(right), max(top)), sheet.size)
    painter, frames = PicturePainter(NORMAL), []
    for number, picture in enumerate(pictures):
        told(PLAYED + (PAINTED - PLAYED) * number / count)
        surface.blit(painter.paint(picture, camera), sheet)
        frames.append(pygame.image.tobytes(surface, "RGB"))
    return frames


def _told(goes_on: GoesOn, share: float) -> None:
    if not goes_on(share):
        raise Stopped


def _foot_words(session: Session) -> str:
    """Foot and gait, without the moment at which the sitting stands."""
    return _title(session, session.state.foot).split(" at ")[0]


def _captioned(words: str) -> tuple[pygame.Surface, Rect]:
    """A surface with words and the caution at its foot, and the room over them."""
    theme = theme_for(CLIP_SIZE)
    painter = Painter(pygame.Surface(CLIP_SIZE), theme)
    painter.surface.fill(theme.colour("card"))
    lines = f"{words} {SHORT_CAUTION}"
    room = CLIP_SIZE[0] - theme.px(2)
    tall = theme.line_height() * len(wrap_lines(lines, theme.text_width, room)) + theme.px(1)
    sheet, strip = split_bottom(painter.surface.get_rect(), tall)
    painter.text(lines, inset(strip, theme.px(1), theme.px(0.5)), valign="top", wrap=True)
    return painter.surface, sheet


def _let_pass(scene: Scene, seconds: float) -> None:
    for _ in range(round(60 * seconds)):
        scene.advance(1 / 60)


EXPORTS: Mapping[str, Export] = {
    one.ending: one
    for one in (
        Export(".png", "A picture (PNG)", _png),
        Export(".svg", "A picture to be enlarged (SVG)", _svg),
        Export(".html", "A handout: picture, measures, cautions (HTML)", _handout),
        Export(".gif", "A clip of the stride (GIF)", _clip(".gif")),
        Export(".mp4", "A clip of the stride (MP4)", _clip(".mp4")),
    )
}
