"""The log of trials: predict, keep, look back, go back."""

from collections.abc import Callable

from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.label import Heading, Label, Rule
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.text_field import TextField
from hoofsim.foot.parameters import BY_NAME
from hoofsim.foot.presets import PRESETS
from hoofsim.measures.table import MEASURES
from hoofsim.session.commands import LOAD_CASES
from hoofsim.session.session import Session
from hoofsim.session.state import Trial
from hoofsim.units import show

INTRODUCTION = (
    "Say first what you expect, then change the foot, then keep the trial. The log keeps the numbers as read."
)


def trial_words(trial: Trial, length_unit: str) -> str:
    """Foot, load and changes of a trial in one sentence."""
    changes = [
        f"{BY_NAME[name].label.lower()} {show(value, BY_NAME[name].unit, length_unit)}"
        for name, value in trial.foot.changes
    ]
    stance = (
        f" at {trial.load.stance_percent:.0f} % of stance" if trial.load.stance_percent is not None else ""
    )
    what = ", ".join(changes) if changes else "unchanged"
    return f"{PRESETS[trial.foot.preset].label}, {LOAD_CASES[trial.load.case].lower()}{stance}: {what}."


class TrialsPanel:
    """Two lines to type in, a button, and the kept trials, newest first."""

    def __init__(self, keep: Callable[[str, str], None], restore: Callable[[int], None]) -> None:
        self.prediction = TextField("What do you expect?", "", lambda text: None)
        self.note = TextField("Note", "", lambda text: self._keep())
        self.button = Button("Keep this trial", self._keep, icon="keep", kind="main", keys="T")
        self._given = keep
        self._restore = restore
        self._fixed: list[Widget] = [
            Heading("Trials"),
            Label(INTRODUCTION, "small", "quiet"),
            self.prediction,
            self.note,
            self.button,
        ]
        self.panel = ScrollPanel("trials", list(self._fixed), gap=0.6)
        self._shown: object = None

    def _keep(self) -> None:
        self._given(self.note.text, self.prediction.text)
        self.note.text = self.prediction.text = ""
        self.note.caret = self.prediction.caret = 0

    def refresh(self, session: Session, measure: str, length_unit: str) -> None:
        """The kept trials with the chosen measure's value as it was read."""
        key = (session.state.trials, measure, length_unit)
        if key == self._shown:
            return
        self._shown = key
        items = list(self._fixed)
        for trial in reversed(session.state.trials):
            items += self._trial(trial, measure, length_unit)
        self.panel.items = items

    def _trial(self, trial: Trial, measure: str, length_unit: str) -> list[Widget]:
        described = MEASURES[measure]
        value = dict(trial.results).get(measure)
        words: list[Widget] = [
            Rule(),
            Label(f"Trial {trial.number}" + (f": {trial.note}" if trial.note else ""), "bold"),
            Label(trial_words(trial, length_unit), "small"),
        ]
        if trial.prediction:
            words.append(Label(f"Expected: {trial.prediction}", "small_italic"))
        words.append(
            Label(f"{headed(described.label)}: {show(value, described.unit, length_unit)}", "small_bold")
        )
        words.append(
            Button(f"Go back to trial {trial.number}", lambda: self._restore(trial.number), icon="undo")
        )
        return words
