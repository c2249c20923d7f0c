"""Run an experiment: every combination of its levels, solved in one batch for each load case, kept as tidy columns."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hoofsim.files.experiment import Experiment
from hoofsim.frames import Array
from hoofsim.measures import MEASURES
from hoofsim.mechanics.equilibrium import CONVERGED
from hoofsim.model import Foot, LoadedFoot, sweep

Progress = Callable[[int, int], bool | None]

NOT_RUN = "not run"


@dataclass(frozen=True)
class Results:
    """What came out of an experiment, one entry a run, in the experiment's own order.

    `levels` (N, factors): index of each factor's level. `measures`: name -> (N,), NaN where the solver confirmed no
    state of rest or the run was not reached. `status` (N,). `loads` (N,): load case. `baselines`: load case -> the
    experiment's foot with nothing varied, which changes are counted from.
    """

    experiment: Experiment
    levels: NDArray[np.int_]
    loads: NDArray[np.str_]
    status: NDArray[np.str_]
    measures: dict[str, Array]
    baselines: dict[str, LoadedFoot]

    @property
    def count(self) -> int:
        """How many runs the experiment has."""
        return len(self.status)

    @property
    def done(self) -> int:
        """How many of them were computed."""
        return int(np.sum(self.status != NOT_RUN))

    @property
    def at_rest(self) -> NDArray[np.bool_]:
        """(N,) True where the solver confirmed a state of rest."""
        return np.asarray(self.status == CONVERGED)

    @property
    def stopped(self) -> bool:
        """True when the run was stopped before its end."""
        return self.done < self.count

    def change(self, measure: str) -> Array:
        """(N,) change of a measure from the untouched foot under the same load; NaN where either is not defined."""
        out = np.full(self.count, np.nan)
        for load, baseline in self.baselines.items():
            before = baseline.measures()[measure]
            if before is not None:
                mine = self.loads == load
                out[mine] = self.measures[measure][mine] - before
        return out


def run_experiment(experiment: Experiment, progress: Progress | None = None) -> Results:
    """Every run of the experiment. `progress(done, of)` is called now and then; when it answers False
    the run stops and what is done is kept."""
    levels = np.array(experiment.runs(), dtype=int)
    options = [factor.options() for factor in experiment.factors]
    loads = np.full(len(levels), experiment.load.case, dtype=object)
    foot = Foot(experiment.foot.preset, **experiment.foot.set).as_own()
    settings: dict[str, Array] = {}
    for at, choices in enumerate(options):
        for index, level in enumerate(choices):
            mine = levels[:, at] == index
            for control, value in level.set.items():
                column = settings.setdefault(control, np.full(len(levels), foot.values[control]))
                column[mine] = value
            if level.load is not None:
                loads[mine] = level.load
    return _solve(experiment, levels, loads.astype(str), foot, settings, progress)


def _solve(
    experiment: Experiment,
    levels: NDArray[np.int_],
    loads: NDArray[np.str_],
    foot: Foot,
    settings: dict[str, Array],
    progress: Progress | None,
) -> Results:
    count = len(levels)
    status = np.full(count, NOT_RUN, dtype=object)
    measures = {name: np.full(count, np.nan) for name in MEASURES}
    cases = list(dict.fromkeys(loads))
    moments = {case: _moment(experiment, case) for case in cases}
    baselines = {case: foot.load(case, moments[case]) for case in cases}
    done = 0
    stopped = False
    for case in cases:
        mine = np.flatnonzero(loads == case)

        def report(part: int, of: int, before: int = done) -> bool:
            nonlocal stopped
            stopped = progress is not None and progress(before + part, count) is False
            return not stopped

        chosen = {name: column[mine] for name, column in settings.items()} or {
            "wedge_deg": np.full(len(mine), foot.values["wedge_deg"])
        }
        table = sweep(foot, chosen, case, moments[case], report)
        reached = mine[: table.count]
        status[reached] = table.status
        for name, column in measures.items():
            column[reached] = table[name]
        done += table.count
        if stopped:
            break
    return Results(experiment, levels, loads, status.astype(str), measures, baselines)


def _moment(experiment: Experiment, case: str) -> float | None:
    """The moment of the stance that the file gives, for the load case that it gives it for."""
    return experiment.load.stance_percent if case == experiment.load.case else None
