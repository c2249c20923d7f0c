"""When the X server goes away the X library ends the program at once; this says so in a sentence, and keeps the sitting."""

import ctypes
import os
import sys
from collections.abc import Callable

import pygame

SENTENCE = "hoofsim: the display was lost; the sitting was kept, start again to continue it"

_kept_callbacks: list[object] = []  # the X library holds only an address: these must outlive the call


def watch(keep: Callable[[], None]) -> bool:
    """Have `keep` called, a sentence said and the program left when the display is lost; False where there is no X."""
    if not sys.platform.startswith("linux") or pygame.display.get_driver() != "x11":
        return False
    try:
        library = ctypes.CDLL("libX11.so.6")
    except OSError:
        return False

    def lost(display: int) -> int:
        try:
            keep()
        finally:
            print(SENTENCE, file=sys.stderr, flush=True)
            os._exit(1)  # the X library would end the program anyway, with words of its own

    callback = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p)(lost)
    _kept_callbacks.append(callback)
    library.XSetIOErrorHandler(callback)
    return True
