"""Screens by name, for opening them from one another and from the command line."""

from typing import TYPE_CHECKING, Any

from hoofsim.app.screens.cautions import CautionsScreen
from hoofsim.app.screens.files import FileScreen
from hoofsim.app.screens.lesson.screen import LessonScreen
from hoofsim.app.screens.lessons import LessonsScreen
from hoofsim.app.screens.model_page import ModelPageScreen
from hoofsim.app.screens.pair.screen import PairScreen
from hoofsim.app.screens.sandbox.screen import SandboxScreen
from hoofsim.app.screens.screen import Screen
from hoofsim.app.screens.settings import SettingsScreen
from hoofsim.app.screens.start import StartScreen
from hoofsim.errors import BadInput, nearest
from hoofsim.lessons.loader import lesson_files

if TYPE_CHECKING:
    from hoofsim.app.application import Application

SCREENS: dict[str, type[Screen]] = {
    screen.name: screen
    for screen in (
        StartScreen,
        SandboxScreen,
        PairScreen,
        LessonsScreen,
        LessonScreen,
        FileScreen,
        SettingsScreen,
        CautionsScreen,
        ModelPageScreen,
    )
}


def make_screen(name: str, app: "Application", **arguments: Any) -> Screen:
    """A new screen of that name; BadInput naming the nearest when there is none.

    A lesson asked for without its file is the first of the course.
    """
    if name not in SCREENS:
        raise BadInput(f"unknown screen '{name}': {nearest(name, SCREENS)}")
    if name == LessonScreen.name and not arguments:
        arguments = {"path": lesson_files()[0]}
    return SCREENS[name](app, **arguments)
