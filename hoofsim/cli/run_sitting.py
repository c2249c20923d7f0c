"""Run a sitting or a replay: every deed in order, each foot solved and drawn, with what must never be looked for."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hoofsim.cli.output import print_table, print_text, write_into
from hoofsim.cli.progress_bar import shown_when_slow
from hoofsim.cli.rows import measure_json
from hoofsim.cli.tables import USUAL_MEASURES, heading_with_unit
from hoofsim.errors import BadInput
from hoofsim.measures.table import MEASURES
from hoofsim.model import LoadedFoot
from hoofsim.plain_text import csv_lines
from hoofsim.reports.foot_files import heading, picture, png_bytes, svg_text
from hoofsim.reports.provenance import about
from hoofsim.session.replay import Deed, faults, faults_of, played
from hoofsim.session.session import Session
from hoofsim.units import show_number

MOST_ROWS = 40


@dataclass(frozen=True)
class Played:
    """One deed, and the foot, its baseline and the faults found after it."""

    sentence: str
    loaded: LoadedFoot
    baseline: LoadedFoot
    faults: tuple[str, ...]

    @property
    def measures(self) -> dict[str, float | None]:
        """Every measure; None throughout without rest."""
        return self.loaded.measures()


def deeds_of(session: Session) -> list[Deed]:
    """A sitting's commands in force, as deeds."""
    return [Deed(command) for command in session.commands[: session.position]]


def run_sitting(
    file: Path, kind: str, deeds: Sequence[Deed], out: Path | None, as_json: bool
) -> tuple[dict[str, Any], list[str]]:
    """Play, write and print; gives what to print as JSON, and a sentence for each fault."""
    steps = play(file, deeds)
    written = [] if out is None else _write(steps, file, kind, out)
    if not as_json:
        _print(file, kind, steps, written)
    late = [
        f"{file}: deed {number} ({step.sentence}): {fault}"
        for number, step in enumerate(steps)
        for fault in step.faults
    ]
    return _report(file, kind, steps, written), late


def play(file: Path, deeds: Sequence[Deed]) -> list[Played]:
    """The start and what stood after each deed; a deed that is refused is told with its number."""
    session = Session()
    steps = [_looked_at(session, "start")]
    with shown_when_slow(str(file)) as report:
        for number, deed in enumerate(deeds, start=1):
            try:
                session = played(session, deed)
                steps.append(_looked_at(session, deed.sentence()))
            except BadInput as error:
                raise BadInput(f"{file}: deed {number}: {error}") from None
            report(number, len(deeds))
    return steps


def _looked_at(session: Session, sentence: str) -> Played:
    loaded, baseline = session.loaded, session.baseline
    picture(loaded, baseline, "")
    found = [*faults(session), *faults_of(loaded), *faults_of(baseline)]
    return Played(sentence, loaded, baseline, tuple(found))


def _title(loaded: LoadedFoot) -> str:
    return heading(loaded.foot.preset, loaded.foot.changes, loaded.case, loaded.stance_percent)


def _write(steps: Sequence[Played], file: Path, kind: str, out: Path) -> list[Path]:
    """The table of all deeds, two pictures of the last foot, and what they were made from."""
    last, stem = steps[-1], file.stem
    title, foot = _title(last.loaded), last.loaded.foot
    contents: dict[str, bytes | str] = {
        f"{stem}.csv": _csv(steps),
        f"{stem}.svg": svg_text(last.loaded, last.baseline, title),
        f"{stem}.png": png_bytes(last.loaded, last.baseline, title),
        f"{stem}_about.json": about(file, kind, [step.sentence for step in steps], foot.preset),
    }
    return write_into(out, contents)


def _csv(steps: Sequence[Played]) -> str:
    rows: list[Sequence[object]] = [
        ["deed", "done", "status", *(heading_with_unit(name, name) for name in MEASURES)]
    ]
    for number, step in enumerate(steps):
        values = ("" if value is None else f"{value:.6g}" for value in step.measures.values())
        rows.append([number, step.sentence, step.loaded.status, *values])
    return csv_lines(rows)


def _print(file: Path, kind: str, steps: Sequence[Played], written: Sequence[Path]) -> None:
    print_text(f"A {kind} of {len(steps) - 1} deeds ({file})")
    print_text()
    print_table(
        _title(steps[-1].loaded) + ", at the end",
        [
            ("done", "left"),
            *((heading_with_unit(name, MEASURES[name].label), "right") for name in USUAL_MEASURES),
        ],
        [(_row(step), None) for step in steps[-MOST_ROWS:]],
    )
    if len(steps) > MOST_ROWS:
        print_text(f"(the last {MOST_ROWS} deeds; --out writes them all)")
    for path in written:
        print_text(f"wrote {path}")
    print_text()


def _row(step: Played) -> list[str]:
    if not step.loaded.at_rest:
        return [step.sentence, step.loaded.status, *("" for _ in USUAL_MEASURES[1:])]
    numbers = ((step.measures[name], MEASURES[name].unit) for name in USUAL_MEASURES)
    return [step.sentence, *("" if value is None else show_number(value, unit) for value, unit in numbers)]


def _report(file: Path, kind: str, steps: Sequence[Played], written: Sequence[Path]) -> dict[str, Any]:
    return {
        "file": str(file),
        "kind": kind,
        "holds": not any(step.faults for step in steps),
        "steps": [
            {
                "done": step.sentence,
                "status": step.loaded.status,
                "faults": list(step.faults),
                "measures": measure_json(step.measures, step.baseline.measures()),
            }
            for step in steps
        ],
        "written": [str(path) for path in written],
    }
