"""Random sittings: seeded deeds on the session, with everything that must hold looked at after each.

Long form: `python -m tests.soak.session --actions 1000000 --seed 1`. The short form is in `test_session_soak.py`.

Choices (values, history, place) are looked at after every deed. A state of rest costs milliseconds, so the foot and
its baseline are solved and their numbers looked at after every `--solve-every` deeds, and the picture is drawn (a
display list, no screen) after every `--draw-every`. Undoing to the start, saving and reopening come at random among
the deeds. A sitting ends and a fresh one begins after `--sitting` deeds, as a person's would.

A fault is shrunk by leaving deeds out for as long as it stays, and written as a replay that `hoofsim run` plays.
"""

import sys
import traceback
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random

from hoofsim.drawing.foot_picture import foot_picture
from hoofsim.errors import BadInput
from hoofsim.foot.parameters import PARAMETERS
from hoofsim.foot.presets import PRESETS
from hoofsim.session.commands import (
    LOAD_CASES,
    THIRDS,
    BrushLaminae,
    ChoosePreset,
    CutTendon,
    KeepTrial,
    RestoreTrial,
    SetBaseline,
    SetControl,
    SetLoad,
)
from hoofsim.session.replay import Deed, faults, faults_of, played, replay_text
from hoofsim.session.session import Session
from hoofsim.session.state import State
from tests.soak.memory import Marks, parser

WORDS = (
    "",
    "heel up",
    "=1+1",
    "<b>x</b>",
    "ü: 'quoted' \"twice\"\nsecond line",
    "- dash",
    "#",
    "\x07bell",
    "a" * 401,
)


@dataclass(frozen=True)
class Plan:
    """How many deeds, and how often the costly looks are taken."""

    actions: int
    seed: int
    sitting: int = 400
    solve_every: int = 97
    draw_every: int = 389


@dataclass(frozen=True)
class Tally:
    """What was done and looked at."""

    deeds: int = 0
    refused: int = 0
    solved: int = 0
    drawn: int = 0
    sittings: int = 0


class Found(Exception):
    """Something that must never be: what, and the deeds that led to it in a fresh sitting."""

    def __init__(self, what: str, deeds: Sequence[Deed]) -> None:
        super().__init__(what)
        self.what, self.deeds = what, list(deeds)


def random_deed(chance: Random) -> Deed:
    """One deed, of every kind that a person has; some are refused, as a clumsy hand's are."""
    kind = chance.randrange(100)
    gesture = chance.choice((None, None, "drag 1", "drag 2"))
    if kind < 38:
        control = chance.choice(PARAMETERS)
        span = control.high - control.low
        value = chance.choice(
            (control.low, control.high, control.default, control.low + chance.random() * span)
        )
        value = float(round(value)) if control.name == "tendon_cut" else value
        return _deed(lambda: SetControl(control.name, value), gesture)
    if kind < 48:
        return _deed(lambda: BrushLaminae(chance.choice(list(THIRDS)), chance.uniform(0, 100)), gesture)
    if kind < 55:
        stance = chance.choice((None, chance.uniform(0, 100)))
        return _deed(lambda: SetLoad(chance.choice(list(LOAD_CASES)), stance), gesture)
    if kind < 59:
        return Deed(ChoosePreset(chance.choice(list(PRESETS))))
    if kind < 62:
        return Deed(CutTendon(chance.random() < 0.5))
    if kind < 65:
        return Deed(SetBaseline(chance.random() < 0.4))
    if kind < 69:
        return _deed(lambda: KeepTrial(chance.choice(WORDS), chance.choice(WORDS)), None)
    if kind < 72:
        return Deed(RestoreTrial(chance.randint(1, 6)))
    if kind < 88:
        return Deed(move="undo")
    if kind < 97:
        return Deed(move="redo")
    return Deed(move=chance.choices(("reopen", "undo_all", "keep_as_read"), (60, 20, 1))[0])


def _deed(make: Callable[[], object], gesture: str | None) -> Deed:
    """A deed of the command that `make` gives; a command refused at once becomes an undo."""
    try:
        return Deed(make(), gesture=gesture)  # type: ignore[arg-type]
    except BadInput:
        return Deed(move="undo")


def look(before: Session, session: Session, deed: Deed, solve: bool, draw: bool) -> list[str]:
    """Everything that is wrong after a deed."""
    found = faults(session)
    if deed.move == "undo_all" and (session.state != State() or session.position):
        found.append("undoing to the start is not the start")
    if deed.move == "reopen":
        if (session.state, session.commands, session.position) != (
            before.state,
            before.commands,
            before.position,
        ):
            found.append("the sitting reopened as another")
        if session.state != Session(session.commands, session.position).state:
            found.append("the state is not what replaying the history gives")
    if solve:
        found += faults_of(session.loaded) + faults_of(session.baseline)
    if draw:
        baseline = session.baseline
        foot_picture(session.loaded, baseline=baseline if baseline.at_rest else None)
    return found


def refusal(deed: Deed, problem: BadInput) -> list[str]:
    """What is wrong with a refusal: only a command may be refused, and in a sentence."""
    if deed.command is None:
        return [f"'{deed.move}' was refused: {problem}"]
    return [] if len(str(problem)) < 300 else [f"a long refusal: {problem}"]


def soak(plan: Plan, watch: Callable[[Tally], None] | None = None) -> Tally:
    """Do and look; raises Found at the first fault, or gives the tally."""
    chance = Random(plan.seed)
    tally = Tally()
    session, deeds = Session(), list[Deed]()
    for number in range(plan.actions):
        if number % plan.sitting == 0:
            session, deeds = Session(), []
            tally = replace(tally, sittings=tally.sittings + 1)
        deed = random_deed(chance)
        solve, draw = number % plan.solve_every == 0, number % plan.draw_every == 0
        before, refused = session, False
        deeds.append(deed)
        try:
            session = played(session, deed)
            wrong = look(before, session, deed, solve, draw)
        except BadInput as problem:
            refused = True
            wrong = refusal(deed, problem) + faults(session)
            if not wrong:
                deeds.pop()
        except Exception:
            wrong = [traceback.format_exc(limit=-3)]
        if wrong:
            raise Found("; ".join(wrong), deeds)
        tally = replace(
            tally,
            deeds=tally.deeds + 1,
            refused=tally.refused + refused,
            solved=tally.solved + solve,
            drawn=tally.drawn + draw,
        )
        if watch is not None:
            watch(tally)
    return tally


def fails(deeds: Sequence[Deed]) -> bool:
    """Whether these deeds lead to a fault, with every look taken after the last of them."""
    session = Session()
    for number, deed in enumerate(deeds):
        last, before = number == len(deeds) - 1, session
        try:
            session = played(session, deed)
            if look(before, session, deed, last, last):
                return True
        except BadInput as problem:
            if refusal(deed, problem):
                return True
        except Exception:
            return True
    return False


def shrunk(deeds: Sequence[Deed], failing: Callable[[Sequence[Deed]], bool] = fails) -> list[Deed]:
    """The fewest deeds that still fail, by leaving out ever shorter stretches."""
    kept = list(deeds)
    length = max(1, len(kept) // 2)
    while length:
        at = 0
        while at < len(kept):
            fewer = kept[:at] + kept[at + length :]
            if fewer and failing(fewer):
                kept = fewer
            else:
                at += length
        length //= 2
    return kept


def main() -> int:
    """The long form."""
    words = parser(__doc__, actions=1_000_000, seed=1, sitting=400, solve_every=97, draw_every=389)
    words.add_argument("--replay", type=Path, default=Path("failing.yaml"), help="where a fault is written")
    asked = vars(words.parse_args())
    replay, plan, marks = asked.pop("replay"), Plan(**asked), Marks()

    def watch(tally: Tally) -> None:
        if tally.deeds % max(1, plan.actions // 20) == 0:
            marks.mark(f"{tally.deeds:>9} deeds, {tally.solved} solved")

    try:
        return marks.end(soak(plan, watch))
    except Found as found:
        print(found.what)
        short = shrunk(found.deeds) if fails(found.deeds) else found.deeds
        replay.write_text(replay_text(short, found.what[:2000]), encoding="utf-8")
        print(f"{len(found.deeds)} deeds shrunk to {len(short)}: hoofsim run {replay}")
        return 1


if __name__ == "__main__":
    sys.exit(main())
