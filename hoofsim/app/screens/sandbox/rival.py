"""A rival account as a ghost on the sheet: what should be seen, had the account moved the unchanged foot."""

from collections.abc import Mapping

from hoofsim.app.widgets.dropdown import Choice
from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.likened import Likened, likened
from hoofsim.drawing.bounds import bounds_of
from hoofsim.drawing.display_list import DisplayList, Group, flatten
from hoofsim.drawing.foot_changes import LAID_UPON, ghost, laid_upon
from hoofsim.frames import Array
from hoofsim.measures import MEASURES
from hoofsim.model import LoadedFoot
from hoofsim.session.session import Session
from hoofsim.units import show

NONE = "none"
CHOICES = (Choice(NONE, "No account"), *(Choice(name, one.label) for name, one in ACCOUNTS.items()))


class Rival:
    """Which account is laid over the foot, and by how much it moves the baseline."""

    def __init__(self) -> None:
        self.name = NONE
        self._of: tuple[object, ...] = ()
        self._amount = Likened(0.0, None)

    @property
    def shown(self) -> bool:
        """Whether an account is chosen."""
        return self.name != NONE

    def next(self) -> None:
        """The next account, and after the last none."""
        names = [choice.value for choice in CHOICES]
        self.name = names[(names.index(self.name) + 1) % len(names)]

    def likened(self, session: Session) -> Likened:
        """The amount matched to the sitting's present change, found once a foot."""
        key = (self.name, session.state.foot, session.state.compared_with, session.state.load)
        if key != self._of:
            self._of = key
            changes = {name: one.difference for name, one in session.changes().items()}
            self._amount = likened(ACCOUNTS[self.name], session.baseline.points, changes)
        return self._amount

    def words(self, session: Session, length_unit: str) -> str:
        """What the dotted outline is, in one sentence; empty without one."""
        if not self.shown or not session.baseline.at_rest:
            return ""
        found, account = self.likened(session), ACCOUNTS[self.name]
        if found.measure is None:
            why = "an amount to look at"
        else:
            why = f"matched to {MEASURES[found.measure].label.split(',')[0]}"
        return f"Dotted: {account.label} by {show(found.amount, account.unit, length_unit)}, {why}."

    def over(
        self, picture: DisplayList, points: Mapping[str, Array], session: Session, ghost_on: str
    ) -> DisplayList:
        """The picture with the account's outline over it, laid upon what the baseline's ghost is laid upon.

        `points`: the landmarks of the foot shown.
        """
        if not self.shown or not session.baseline.at_rest:
            return picture
        made = outline(self.name, session.baseline, self.likened(session).amount, points, ghost_on)
        bounds = bounds_of(flatten((made,)))
        return DisplayList((made,), bounds, picture.title, picture.description).over(picture)


def outline(
    name: str, baseline: LoadedFoot, amount: float, points: Mapping[str, Array], ghost_on: str
) -> Group:
    """Capsule, frog and coffin bone of the baseline as the account moves them."""
    body = ghost_on if ghost_on in LAID_UPON else "ground"
    moved, rest = (ACCOUNTS[name].displaced(of, amount) for of in (baseline.points, baseline.rest_points))
    return Group(ghost(laid_upon(moved, points, body), laid_upon(rest, points, body), role="rival"))
