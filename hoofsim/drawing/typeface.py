"""The typeface of every picture: carried with the program, so that labels have the same size everywhere."""

from pathlib import Path

from hoofsim.resources import assets_folder

FAMILY = "Open Sans"
_FILES = {False: "OpenSans-Regular.ttf", True: "OpenSans-Semibold.ttf"}


def typeface_file(bold: bool) -> Path:
    """The font file of the ordinary or the bold weight."""
    return assets_folder() / "fonts" / _FILES[bold]
