"""The window: loop, screens and widgets. The only room, beside one drawing backend, that loads pygame."""

import os

# Read by pygame when it is imported, so it cannot wait: the program's output is the program's own.
os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
