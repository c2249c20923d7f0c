"""Marks laid over the foot: handles, the line of the hand with its pull, and a tag with words beside a place."""

import numpy as np
import pygame

from hoofsim.app.screens.sandbox.handles import Handle
from hoofsim.app.widgets.base import Rect
from hoofsim.app.widgets.painter import Painter
from hoofsim.foot.parameters import BY_NAME
from hoofsim.model import Force

Place = tuple[float, float]


def draw_handle(painter: Painter, handle: Handle, place: Place, live: bool) -> None:
    """A disc with an arrow head on either side, along the direction in which it can be dragged."""
    theme = painter.theme
    group = group_colour(handle)
    direction = np.array([handle.along[0], -handle.along[1]]) / np.hypot(*handle.along)
    across = np.array([-direction[1], direction[0]])
    radius = theme.px(0.55 if live else 0.45)
    centre = np.array(place)
    for sense in (1, -1):
        tip = centre + sense * direction * (radius + theme.px(0.62))
        base = centre + sense * direction * (radius + theme.px(0.12))
        side = across * theme.px(0.36)
        corners = [(float(x), float(y)) for x, y in (tip, base + side, base - side)]
        painter.smooth(corners, group)
    pygame.draw.aacircle(painter.surface, theme.colour("field"), place, radius + 1)
    pygame.draw.aacircle(
        painter.surface, theme.colour(group), place, radius, 0 if live else max(2, theme.px(0.16))
    )


def group_colour(handle: Handle) -> str:
    """The colour of the group that the handle's control belongs to."""
    return BY_NAME[handle.control].group


def draw_hand(painter: Painter, hand: Force, start: Place, end: Place, sheet: Rect) -> None:
    """A line from the part held to the place of the hand (both of the window), with the pull in newtons."""
    theme = painter.theme
    pygame.draw.aaline(painter.surface, theme.colour("focus"), start, end, theme.px(0.2))
    pygame.draw.aacircle(painter.surface, theme.colour("focus"), start, theme.px(0.35))
    draw_tag(painter, f"{np.hypot(*hand.force):.0f} N", end, sheet)


def draw_tag(painter: Painter, words: str, place: Place, sheet: Rect) -> None:
    """Words on a small card beside a place, kept on the sheet."""
    theme = painter.theme
    box = Rect(0, 0, theme.text_width(words, "bold") + theme.px(1), theme.px(1.9))
    box.midleft = (round(place[0]) + theme.px(1.5), round(place[1]))
    box.clamp_ip(sheet)
    painter.layer += 1
    painter.box(box, "field", "quiet", 0.35)
    painter.text(words, box, "bold", "ink", "centre")
    painter.layer -= 1
