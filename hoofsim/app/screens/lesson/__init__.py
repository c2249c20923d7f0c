"""A guided lesson in the window: the panel to read and answer in, the foot beside it."""
