"""The window: loop, screens and widgets. The only room, beside one drawing backend, that loads pygame."""

import os

# Read by pygame when it is imported, so they cannot wait: the program's output is its own, and so is the class by
# which a window manager knows its window.
os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
os.environ.setdefault("SDL_VIDEO_X11_WMCLASS", "hoofsim")
