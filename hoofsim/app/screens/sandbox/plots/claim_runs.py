"""A sitting's runs as changes from the baseline: the present foot and the kept trials of the same ready foot."""

from collections.abc import Mapping
from dataclasses import dataclass

from hoofsim.claims.information import ERROR_DEG_OR_MM
from hoofsim.claims.readings import readings_of
from hoofsim.claims.separability import Separation, separate
from hoofsim.model import LoadedFoot
from hoofsim.session.session import Session, foot_of, load_of
from hoofsim.session.state import FootChoice, LoadChoice, State

ACROSS = "capsular_rotation"
UP = ("tip_to_frog", "frog_to_toe")
READ = (ACROSS, *UP)


@dataclass(frozen=True)
class Run:
    """One run: 0 for the present foot, else the trial's number; and its changes from the baseline by measure."""

    number: int
    foot: FootChoice
    load: LoadChoice
    change: Mapping[str, float]


class Runs:
    """Finds a sitting's runs and weighs each once."""

    def __init__(self) -> None:
        self._baselines: dict[tuple[FootChoice, LoadChoice], LoadedFoot] = {}
        self._weighed: dict[tuple[FootChoice, FootChoice, LoadChoice], Separation] = {}

    def of(self, session: Session) -> list[Run]:
        """The present foot first, unless it is the baseline itself or finds no rest, then the trials that changed."""
        state = session.state
        runs = []
        if state.foot != state.compared_with and session.loaded.at_rest:
            now = changes(session.loaded.measures(), session.baseline.measures())
            runs += [Run(0, state.foot, state.load, now)] if now else []
        for trial in state.trials:
            of_this_foot = trial.foot.preset == state.compared_with.preset
            if of_this_foot and trial.foot != state.compared_with:
                change = changes(dict(trial.results), self.baseline(state, trial.load).measures())
                runs += [Run(trial.number, trial.foot, trial.load, change)] if change else []
        return runs

    def baseline(self, state: State, load: LoadChoice) -> LoadedFoot:
        """What the sitting compares with, under a load."""
        key = (state.compared_with, load)
        if key not in self._baselines:
            self._baselines[key] = load_of(foot_of(state.compared_with), load)
        return self._baselines[key]

    def known(self, state: State, run: Run) -> Separation | None:
        """A run's weighing, if it was done."""
        return self._weighed.get((state.compared_with, run.foot, run.load))

    def weigh(self, state: State, run: Run) -> None:
        """Weigh the accounts on one run, every reading with the error of a careful one; some twenty milliseconds."""
        points = self.baseline(state, run.load).points
        key = (state.compared_with, run.foot, run.load)
        self._weighed[key] = separate(readings_of(run.change, ERROR_DEG_OR_MM, points))


def changes(now: Mapping[str, float | None], before: Mapping[str, float | None]) -> dict[str, float]:
    """Change of each measure of the claim; empty unless all are known."""
    found = {}
    for name in READ:
        after, start = now.get(name), before.get(name)
        if after is None or start is None:
            return {}
        found[name] = float(after) - float(start)
    return found
