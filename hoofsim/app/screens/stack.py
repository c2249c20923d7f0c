"""Screens on top of each other: only the top one is drawn and gets events."""

from hoofsim.app.screens.screen import Screen


class ScreenStack:
    """A stack that is never empty once something was pushed: the last screen cannot be popped."""

    def __init__(self) -> None:
        self._screens: list[Screen] = []

    @property
    def top(self) -> Screen:
        """The screen in view."""
        return self._screens[-1]

    @property
    def names(self) -> tuple[str, ...]:
        """Names from bottom to top."""
        return tuple(screen.name for screen in self._screens)

    @property
    def can_pop(self) -> bool:
        """True when something lies underneath."""
        return len(self._screens) > 1

    def push(self, screen: Screen) -> None:
        """Put a screen on top."""
        if self._screens:
            self.top.left()
        self._screens.append(screen)
        screen.place()
        screen.entered()

    def pop(self) -> bool:
        """Take the top screen away; False when it is the last."""
        if not self.can_pop:
            return False
        self._screens.pop().left()
        self.top.place()
        self.top.entered()
        return True

    def pop_to(self, name: str) -> bool:
        """Uncover the topmost screen of that name; False when there is none below."""
        if name not in self.names:
            return False
        while self.top.name != name:
            self.pop()
        return True

    def place(self) -> None:
        """Lay out anew, after a change of size or theme; covered screens follow when uncovered."""
        self.top.place()
