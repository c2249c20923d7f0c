"""The sandbox's keys, as one table from key to deed."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pygame

from hoofsim.app.png import png_bytes
from hoofsim.app.screens.sandbox.controls import GROUP_TABS
from hoofsim.app.screens.sandbox.presenter import digit_of, free_name, neighbour_preset
from hoofsim.app.screens.sandbox.steps import redo, undo
from hoofsim.app.slow_motion import next_pace
from hoofsim.drawing.backend_svg import svg
from hoofsim.errors import HoofsimError
from hoofsim.session.commands import CutTendon
from hoofsim.writing import write_whole

if TYPE_CHECKING:
    from hoofsim.app.screens.sandbox.screen import SandboxScreen

PAN = 2.7  # in text sizes
TOOL_KEYS = {pygame.K_h: "hand", pygame.K_k: "blade", pygame.K_b: "brush_away", pygame.K_n: "brush_back"}
PAN_KEYS = {
    pygame.K_LEFT: (PAN, 0.0),
    pygame.K_RIGHT: (-PAN, 0.0),
    pygame.K_UP: (0.0, PAN),
    pygame.K_DOWN: (0.0, -PAN),
}


def sandbox_key(screen: "SandboxScreen", event: pygame.event.Event) -> bool:
    """Do what a key stands for; False when it stands for nothing."""
    if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META):
        return _control_key(screen, event)
    if event.key == pygame.K_ESCAPE:
        if screen.presenter.on:
            screen.toggle_presenter()
        else:
            screen.app.back()
        return True
    if screen.presenter.on and _presenter_key(screen, event):
        return True
    return _plain_key(screen, event)


def _control_key(screen: "SandboxScreen", event: pygame.event.Event) -> bool:
    deeds: dict[int, Callable[[], object]] = {
        pygame.K_z: lambda: (redo if event.mod & pygame.KMOD_SHIFT else undo)(screen),
        pygame.K_y: lambda: redo(screen),
        pygame.K_s: lambda: screen.app.open("files", saving=True),
        pygame.K_o: lambda: screen.app.open("files"),
    }
    if event.key in PAN_KEYS:
        right, down = PAN_KEYS[event.key]
        screen.view.pan(right * screen.app.theme.em, down * screen.app.theme.em)
        screen.shown.changed = True
        return True
    if event.key not in deeds:
        return False
    deeds[event.key]()
    return True


def _plain_key(screen: "SandboxScreen", event: pygame.event.Event) -> bool:
    if event.key in TOOL_KEYS:
        screen.choose_tool(TOOL_KEYS[event.key])
        return True
    deeds: dict[int, Callable[[], object]] = {
        pygame.K_c: lambda: screen.give(CutTendon(screen.session.value("tendon_cut") != 1.0), None),
        pygame.K_g: screen.next_ghost,
        pygame.K_a: screen.next_rival,
        pygame.K_l: screen.toggle_names,
        pygame.K_m: screen.set_baseline,
        pygame.K_t: lambda: screen.keep_trial("", ""),
        pygame.K_r: screen.reset,
        pygame.K_p: screen.toggle_presenter,
        pygame.K_x: lambda: save_picture(screen),
        pygame.K_SPACE: screen.toggle_play,
        pygame.K_s: lambda: screen.set_pace(next_pace(screen.shown.pace)),
        pygame.K_PLUS: lambda: _zoom(screen, 1),
        pygame.K_EQUALS: lambda: _zoom(screen, 1),
        pygame.K_KP_PLUS: lambda: _zoom(screen, 1),
        pygame.K_MINUS: lambda: _zoom(screen, -1),
        pygame.K_KP_MINUS: lambda: _zoom(screen, -1),
        pygame.K_0: screen.refit,
    }
    for index, tab in enumerate(GROUP_TABS):
        deeds[pygame.K_1 + index] = lambda key=tab.key: screen.choose_panel(key)  # type: ignore[misc]
    if event.key not in deeds:
        return False
    deeds[event.key]()
    return True


def _presenter_key(screen: "SandboxScreen", event: pygame.event.Event) -> bool:
    digit = digit_of(event)
    if digit is not None:
        screen.presenter.toggle_layer(digit)
    elif event.key == pygame.K_l:
        screen.presenter.labels = not screen.presenter.labels
        screen.refit()
    elif event.key == pygame.K_f:
        screen.shown.frozen = not screen.shown.frozen
    elif event.key == pygame.K_d and event.mod & pygame.KMOD_SHIFT:
        screen.view.strokes.clear()
    elif event.key == pygame.K_d:
        screen.view.pen = not screen.view.pen
    elif event.key in (pygame.K_PAGEDOWN, pygame.K_PAGEUP):
        step = 1 if event.key == pygame.K_PAGEDOWN else -1
        screen.choose_preset(neighbour_preset(screen.session.state.foot.preset, step))
    else:
        return False
    screen.shown.changed = True
    return True


def _zoom(screen: "SandboxScreen", steps: int) -> None:
    screen.view.zoom(steps)
    screen.shown.changed = True


def save_picture(screen: "SandboxScreen") -> None:
    """The sheet as PNG (as it is seen) and SVG (the whole foot), in the working folder."""
    picture = screen.view.picture
    surface = screen.view.snapshot()
    if picture is None or surface is None:
        return
    try:
        base = free_name(Path.cwd(), "foot", (".png", ".svg"))
        write_whole(base.with_name(base.name + ".svg"), svg(picture))
        write_whole(base.with_name(base.name + ".png"), png_bytes(surface))
    except (HoofsimError, OSError, pygame.error) as problem:
        screen.app.say(f"The picture was not saved: {problem}")
        return
    screen.app.say(f"Saved {base.name}.png and {base.name}.svg in {base.parent}.")
