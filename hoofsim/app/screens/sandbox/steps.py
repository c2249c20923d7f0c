"""Undo and redo in the sandbox: a pull that tore bonds comes first, then the deeds of the sitting."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from hoofsim.app.screens.sandbox.screen import SandboxScreen

TORN = "the pull that tore bonds"


def undo_words(screen: "SandboxScreen") -> str | None:
    """What `undo` would take back; None when there is nothing."""
    return TORN if screen.shown.torn_by_hand else screen.session.undo_sentence()


def redo_words(screen: "SandboxScreen") -> str | None:
    """What `redo` would do again; None when there is nothing."""
    return TORN if screen.shown.mended else screen.session.redo_sentence()


def undo(screen: "SandboxScreen") -> None:
    """Take back the last thing done."""
    words = undo_words(screen)
    if screen.shown.mend() or screen.session.undo():
        screen.app.say(f"Undone: {words}.")
        screen.sitting_changed()


def redo(screen: "SandboxScreen") -> None:
    """Do again what was undone."""
    words = redo_words(screen)
    if screen.shown.tear_again() or screen.session.redo():
        screen.app.say(f"Done again: {words}.")
        screen.sitting_changed()


def refresh_steps(screen: "SandboxScreen") -> bool:
    """Let the two buttons say what they would do; tells whether they said something else before."""
    changed = False
    for name, words in (("Undo", undo_words(screen)), ("Redo", redo_words(screen))):
        button = screen.parts.buttons[name]
        explain = words or f"nothing to {name.lower()}"
        changed = changed or explain != button.explain
        button.enabled, button.explain = words is not None, explain
    return changed
