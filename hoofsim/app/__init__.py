"""The window: loop, screens and widgets. The only room, beside one drawing backend, that loads pygame."""
