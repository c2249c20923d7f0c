"""The sheet: which picture of the foot is shown, how large, and with which words."""

from typing import TYPE_CHECKING, Any

from hoofsim.app.foot_picture import bare_picture_of, hidden_parts, picture_of
from hoofsim.app.screens.sandbox.foot_view import FootView
from hoofsim.app.screens.sandbox.handles import HANDLES
from hoofsim.app.screens.sandbox.presenter import Presenter
from hoofsim.app.screens.sandbox.rival import Rival
from hoofsim.app.screens.sandbox.shown import Shown
from hoofsim.drawing.display_list import Bounds, DisplayList
from hoofsim.scene.stride import LIFT_MM

if TYPE_CHECKING:
    from hoofsim.app.application import Application

GHOSTS = ("ground", "capsule", "bone", "none")
NEWTONS_PER_MM = 100.0
TYPE, PRESENTED_TYPE = 0.86, 1.4  # size of the words on the picture, in text sizes


class Sheet:
    """Holds what may be chosen about the picture, and keeps the view's picture and camera in step with it."""

    def __init__(self, app: "Application", view: FootView, shown: Shown, presenter: Presenter) -> None:
        self.app, self.view, self.shown, self.presenter = app, view, shown, presenter
        self.ghost = GHOSTS[0]
        self.names = False
        self.rival = Rival()
        self.highlight: str | None = None
        self.look: object = None
        self._fitted: object = None

    @property
    def named(self) -> bool:
        """Whether names stand on the picture."""
        return self.presenter.labels if self.presenter.on else self.names

    @property
    def text_pixels(self) -> float:
        """Size of the words on the picture."""
        return self.app.theme.em * (PRESENTED_TYPE if self.presenter.on else TYPE)

    def next_ghost(self) -> None:
        """Lay the baseline's outline upon the next thing, or leave it away."""
        self.ghost = GHOSTS[(GHOSTS.index(self.ghost) + 1) % len(GHOSTS)]

    def refresh(self, dragging: bool) -> None:
        """A new picture of the foot now shown, yet to be painted."""
        self.view.points = self.shown.foot.points
        self.view.hasty = self.shown.moving or dragging
        self.view.picture = self.picture()
        self.look = self.choices()

    def choices(self) -> tuple[object, ...]:
        """Everything that decides about the picture besides the foot; `look` is what it was last made with."""
        presenter, camera = self.presenter, self.view.camera
        return (
            self.ghost, self.rival.name, self.named, self.highlight, presenter.on, presenter.hidden, self.text_pixels,
            camera.scale if camera is not None else 0.0, self.app.settings.length_unit,
        )  # fmt: skip

    def fit(self, keep_view: bool = False) -> None:
        """Fit the sheet to the foot with its words; with `keep_view` only when the room for it is another."""
        room = (self.view.sheet.size, self.app.theme.em, self.named, self.presenter.on, self._flight())
        if keep_view and (self.view.moved_view or room == self._fitted):
            return
        self._fitted = room
        # Rings would lie over the names, and a running foot cannot be taken by one.
        self.view.handles_shown = not (self.named or self.presenter.on or self.shown.playing)
        bare = None if self.named else self.picture(1.0).bounds  # without words the type does not matter
        self.view.show_all(
            self.text_pixels, lambda text_mm: self._bounds(bare or self.picture(text_mm).bounds, text_mm)
        )

    def outgrown(self) -> bool:
        """Whether the foot now reaches beyond the sheet, without the view having been chosen by hand."""
        view = self.view
        if view.moved_view or view.camera is None:
            return False
        left, bottom, right, top = view.camera.seen()
        needed = self._bounds(self.picture().bounds, view.text_mm(self.text_pixels))
        return needed[0] < left or needed[1] < bottom or needed[2] > right or needed[3] > top

    def _bounds(self, picture: Bounds, text_mm: float) -> Bounds:
        """The picture, room for a stride's flight and, outside the presenter's view, every handle whole."""
        left, bottom, right, top = picture
        top += self._flight()
        if not self.view.handles_shown:
            return left, bottom, right, top
        room = 1.3 * self.app.theme.em * text_mm / self.text_pixels
        xs, ys = zip(*(handle.place(self.shown.foot.points) for handle in HANDLES), strict=True)
        low, high = (min(left, min(xs) - room), min(bottom, min(ys) - room)), (max(xs) + room, max(ys) + room)
        return (*low, max(right, high[0]), max(top, high[1]))

    def _flight(self) -> float:
        """How high a running stride lifts the foot, mm."""
        return 1.08 * LIFT_MM[self.shown.session.state.load.case] if self.shown.playing else 0.0

    def picture(self, text_mm: float | None = None) -> Any:
        """The display list; with names it carries its own words, else its notes go to the view."""
        presenter = self.presenter
        options: dict[str, Any] = {
            "text_mm": text_mm or self.view.text_mm(self.text_pixels),
            "hide": hidden_parts(presenter.hidden) if presenter.on else frozenset(),
            "ghost": self.ghost,
            "compared": "the unchanged foot" if self.shown.session.state.baseline is None else "the baseline",
            "forces": not (presenter.on and "9" in presenter.hidden),
            "bonds": not (presenter.on and "6" in presenter.hidden),
            "newtons_per_mm": NEWTONS_PER_MM,
            "note": False,
            "highlight": self.highlight,
            "length_unit": self.app.settings.length_unit,
            "title": None if presenter.on else "",
        }
        baseline = self.shown.baseline if self.shown.baseline.at_rest and not self.shown.playing else None
        if self.named:
            self.view.notes = []
            return self._with_rival(picture_of(self.shown.foot, baseline, **options))
        picture, self.view.notes = bare_picture_of(self.shown.foot, baseline, **options)
        words = self.rival.words(self.shown.session, self.app.settings.length_unit)
        if words and not self.shown.playing:
            self.view.notes.insert(0, words)
        return self._with_rival(picture)

    def _with_rival(self, picture: DisplayList) -> DisplayList:
        """The picture with the account chosen laid over it; a running foot has nothing to compare with."""
        if self.shown.playing:
            return picture
        return self.rival.over(picture, self.shown.foot.points, self.shown.session, self.ghost)
