"""The panel of a lesson's step: text, question, ways to answer, what was told, and measures beside the drawing."""

from collections.abc import Callable

from hoofsim.app.screens.cautions import cautions_text
from hoofsim.app.screens.lesson.learner import Learner
from hoofsim.app.screens.sandbox.controls import shown, step_for
from hoofsim.app.screens.sandbox.measures_panel import headed
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Widget
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.label import Heading, Label
from hoofsim.app.widgets.layout import inset
from hoofsim.app.widgets.measure_list import MeasureList, MeasureRow
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.rich_text import RichText
from hoofsim.app.widgets.slider import Slider
from hoofsim.app.widgets.text_field import TextField
from hoofsim.foot.parameters import BY_NAME
from hoofsim.lessons.answers import ChoiceAnswer, DirectionAnswer, PickAnswer
from hoofsim.lessons.events import AskCheck, AskHint, Event, GiveAnswer, GiveUp, Reset, SaySure
from hoofsim.lessons.reading import LONGEST_ANSWER
from hoofsim.lessons.runner import may_answer
from hoofsim.lessons.schema import Asking, Compare, Do, Predict
from hoofsim.lessons.view import KIND_WORDS, ChangeRow, View
from hoofsim.units import show

DIRECTIONS = (("rises", "It rises"), ("falls", "It falls"), ("stays", "It stays"))
SURE = ("1, a guess", "2", "3", "4, certain")

Send = Callable[[Event], None]


class StepPanel:
    """Makes the widgets of one step; `send` plays an event, `moved(control, value, gesture)` follows a slider."""

    def __init__(
        self,
        learner: Learner,
        send: Send,
        moved: Callable[[str, float, str], None],
        follow: Callable[[str], None],
    ) -> None:
        self.learner, self.send, self.moved, self.follow = learner, send, moved, follow
        self.list = MeasureList("Measures of this step", lambda name: None)
        self.picked: list[str] = []

    def widgets(self, view: View) -> list[Widget]:
        """Everything of the step, from the top."""
        items: list[Widget] = [
            Label(f"{KIND_WORDS[view.kind]}: step {view.number} of {view.of}", "small_bold", "quiet"),
            Heading(view.title),
            RichText(view.text, self.follow),
        ]
        if view.number == 1 and self.learner.lesson.cautions:
            items.append(RichText(cautions_text()))
        if view.question:
            items.append(RichText(f"**{view.question}**", self.follow))
        if view.given:
            items.append(Label(f"Your answer: {view.given}", "italic"))
        items += self._answers(view)
        items += self._sliders(view)
        if view.told:
            items.append(RichText(view.told, self.follow, "accent"))
        items += self._sure(view)
        if view.hints_left and view.kind not in ("read", "watch", "compare"):
            items.append(Button(f"Hint ({view.hints_left} left)", lambda: self.send(AskHint()), icon="eye"))
        if view.rows:
            self.list.rows = [measure_row(row, view.length_unit) for row in view.rows]
            items.append(self.list)
        return items

    def _answers(self, view: View) -> list[Widget]:
        """Buttons for choices and directions, a line to type in for the rest."""
        step = self.learner.lesson.step(view.step)
        record = self.learner.progress.record(view.step)
        if (
            not isinstance(step, Asking)
            or (isinstance(step, Predict) and record.tries)
            or not may_answer(record)
        ):
            return []
        if isinstance(step.answer, DirectionAnswer):
            return [self._answer_button(word, words) for word, words in DIRECTIONS]
        if isinstance(step.answer, ChoiceAnswer):
            return [self._answer_button(word, words) for word, words in view.choices]
        if isinstance(step.answer, PickAnswer):
            return self._picks(view)
        place = "Press on the drawing, or type x and y in mm" if view.wants_position else headed(view.asks)
        field = TextField(place, "", lambda text: self.send(GiveAnswer(text)), longest=LONGEST_ANSWER)
        return [field, Button("Answer", lambda: self.send(GiveAnswer(field.text)), icon="tick", kind="main")]

    def _answer_button(self, word: str, words: str) -> Widget:
        return ChoiceButton(headed(words), lambda: self.send(GiveAnswer(word)))

    def _picks(self, view: View) -> list[Widget]:
        """A button for every measure that can be picked, pressed in while it is, and one to hand them in."""
        made: list[Widget] = [Label(headed(view.asks), "small", "quiet")]
        for name, words in view.choices:
            button = ChoiceButton(headed(words), lambda: None)
            button.action = lambda name=name, button=button: self._toggle(name, button)  # type: ignore[misc]
            button.down = name in self.picked
            made.append(button)
        made.append(
            Button("Answer", lambda: self.send(GiveAnswer(" ".join(self.picked))), icon="tick", kind="main")
        )
        return made

    def _toggle(self, name: str, button: Button) -> None:
        if name in self.picked:
            self.picked.remove(name)
        else:
            self.picked.append(name)
        button.down = name in self.picked

    def _sliders(self, view: View) -> list[Widget]:
        """The free controls of a *do* step, and its three buttons."""
        if not view.controls:
            return []
        items: list[Widget] = []
        step = self.learner.lesson.step(view.step)
        found = self.learner.progress.record(view.step).found
        for free in view.controls:
            parameter = BY_NAME[free.control]
            items.append(
                Slider(
                    parameter.label,
                    free.now,
                    free.low,
                    free.high,
                    1.0 if parameter.name == "tendon_cut" else step_for(parameter),
                    min(max(found.get(free.control, free.now), free.low), free.high),
                    lambda value, gesture, name=free.control: self.moved(name, value, gesture),  # type: ignore[misc]
                    shown(parameter, view.length_unit),
                    parameter.meaning,
                    parameter.group,
                )
            )
        items.append(Button("Check", lambda: self.send(AskCheck()), icon="tick", kind="main"))
        items.append(Button("As it was", lambda: self.send(Reset()), icon="reset"))
        if isinstance(step, Do) and not self.learner.progress.record(view.step).done:
            items.append(Button("Give up and see one way", lambda: self.send(GiveUp())))
        return items

    def _sure(self, view: View) -> list[Widget]:
        """How sure one is, after a prediction and at its comparison."""
        step = self.learner.lesson.step(view.step)
        record = self.learner.progress.record(view.step)
        if isinstance(step, Predict):
            wanted = bool(record.tries) and record.sure_before is None
        else:
            wanted = isinstance(step, Compare) and (
                self.learner.progress.record(step.prediction).sure_after is None
            )
        if not wanted:
            return []
        asked = "How sure are you?" if isinstance(step, Predict) else "How sure are you now?"
        buttons: list[Widget] = [
            ChoiceButton(words, lambda level=level: self.send(SaySure(level)))  # type: ignore[misc]
            for level, words in enumerate(SURE, start=1)
        ]
        return [Label(asked, "bold"), *buttons]


class ChoiceButton(Button):
    """A button as wide as the panel whose words may need several lines."""

    def height_for(self, width: int, theme: Theme) -> int:
        """As many lines as the words need."""
        return theme.px(0.9) + Label(self.name).height_for(width - theme.px(1.6), theme)

    def draw(self, painter: Painter) -> None:
        """Words at the left, wrapped."""
        theme = painter.theme
        fill = "accent_soft" if self.down or (self.hovered and self.enabled) else "field"
        painter.box(
            self.rect, fill, "accent" if self.down else "line", 0.35, theme.px(0.14) if self.down else None
        )
        painter.text(self.name, inset(self.rect, theme.px(0.8), theme.px(0.45)), wrap=True)


def measure_row(row: ChangeRow, length_unit: str) -> MeasureRow:
    """A row of the step as the list widget shows it."""
    change = row.change or 0.0
    moved = row.change is not None and show(abs(change), row.unit, length_unit) != show(
        0.0, row.unit, length_unit
    )
    return MeasureRow(
        row.measure,
        headed(row.label),
        show(row.now, row.unit, length_unit),
        show(change, row.unit, length_unit, signed=True).split(" ")[0] if moved else "",
        (1 if change > 0 else -1) if moved else 0,
        row.readable or row.unit in ("N", "MPa"),
    )
