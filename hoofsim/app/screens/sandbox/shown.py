"""What the sheet shows: the sitting's equilibrium, the way there from the one before, or a stride in motion."""

from typing import Any

from hoofsim.app.blend import BLEND_SECONDS, Blend, smooth
from hoofsim.app.stride import Stride
from hoofsim.drawing.foot_shown import Unloaded
from hoofsim.model import LoadedFoot
from hoofsim.session.commands import MOVING_CASES
from hoofsim.session.session import Session


class Shown:
    """Follows a sitting; `foot` is what to draw now, `changed` is set whenever that became another."""

    def __init__(self, session: Session, reduced_motion: bool) -> None:
        self.session = session
        self.reduced_motion = reduced_motion
        self.target: LoadedFoot = session.loaded
        self.foot: Any = self.target
        self.baseline: LoadedFoot = session.baseline
        self.at_rest = True
        self.stride: Stride | None = None
        self.frozen = False
        self.slow = 1.0
        self.changed = True
        self._from: Any = None
        self._share = 1.0
        self.follow(at_once=True)

    def follow(self, at_once: bool) -> None:
        """The sitting changed: go to its equilibrium, at once (while dragging) or as a short movement.

        A foot that finds no rest is shown as it was before the load, and `at_rest` says so.
        """
        found = self.session.loaded
        self.at_rest = found.at_rest
        self.baseline = self.session.baseline
        self.changed = True
        if self.stride is not None:
            self._restart_stride()
        if not found.at_rest:
            self.foot, self._share = Unloaded(found.foot, found.status, found.rest_points), 1.0
            return
        at_once = at_once or isinstance(self.foot, Unloaded)
        self._from, self.target = self.foot, found
        self._share = 1.0 if at_once or self.reduced_motion or self.frozen else 0.0
        if self._share >= 1.0:
            self.foot = found

    def play(self, on: bool) -> None:
        """Start or stop the stride; only walk and trot have one."""
        if not on:
            self.stride = None
            self.follow(at_once=False)
        elif self.session.state.load.case in MOVING_CASES:
            self._restart_stride()

    def _restart_stride(self) -> None:
        case = self.session.state.load.case
        if case not in MOVING_CASES:
            self.stride = None
            return
        clock = self.stride.clock if self.stride is not None else 0.0
        self.stride = Stride(self.session.state.foot, case)
        self.stride.clock = clock

    @property
    def moving(self) -> bool:
        """True while the picture changes by itself."""
        return not self.frozen and (self.stride is not None or self._share < 1.0)

    def advance(self, seconds: float) -> None:
        """Let time pass."""
        if self.frozen:
            return
        if self.stride is not None:
            self.stride.slow = self.slow
            if not self.stride.ready:
                self.stride.compute()
            else:
                self.stride.advance(seconds)
            foot = self.stride.shown()
            if foot is not None:
                self.foot, self.changed = foot, True
        elif self._share < 1.0:
            self._share = min(1.0, self._share + seconds / (BLEND_SECONDS * self.slow))
            done = self._share >= 1.0
            self.foot = self.target if done else Blend(self._from, self.target, smooth(self._share))
            self.changed = True
