"""Killing the writing program at random instants: what it had acknowledged is there, whole, and reads as it was.

Long form: `python -m tests.kill.killing --instants 200 --seed 1`. Each instant starts a process that writes one kind of
file over and over and acknowledges every write that returned; it is killed without warning (SIGKILL) after a random
few milliseconds, and the file is opened as the program itself would open it.
"""

import argparse
import os
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from random import Random

from hoofsim.lessons.progress import Progress, Record
from hoofsim.lessons.store import Store
from hoofsim.plain_text import csv_lines
from hoofsim.reports.html_page import html
from hoofsim.reports.page import Page, Paragraph, Section
from hoofsim.session.commands import KeepTrial
from hoofsim.session.recovery import Recovery
from hoofsim.session.sandbox_file import open_file, save
from hoofsim.session.session import Session
from hoofsim.session.store import HOME_VARIABLE
from hoofsim.writing import write_whole

FILLER = "a line that takes its place on the page and in the file, over and over again. " * 40
LONGEST_WAIT = 0.05


@dataclass(frozen=True)
class Written:
    """One kind of file: `write(folder, n)` writes the n-th version, `read(folder)` gives the version that is there."""

    write: Callable[[Path, int], None]
    read: Callable[[Path], int]


SITTING = Session()


def _write_log(folder: Path, number: int) -> None:
    SITTING.do(KeepTrial(f"{number} {FILLER[:300]}"))
    save(SITTING, folder / "log.yaml")


def _read_log(folder: Path) -> int:
    return len(open_file(folder / "log.yaml").state.trials)


def _write_autosave(folder: Path, number: int) -> None:
    SITTING.do(KeepTrial(f"{number} {FILLER[:300]}"))
    recovery = Recovery.take()
    recovery.keep(SITTING)
    recovery.release()


def _read_autosave(folder: Path) -> int:
    recovery = Recovery.take()
    found = recovery.last()
    recovery.release()
    assert found is not None, "the kept sitting cannot be read"
    return len(found.state.trials)


def _write_record(folder: Path, number: int) -> None:
    record = Record(kind="predict", answer="rises", tries=["rises"] * (number % 50 + 1), reason=FILLER[:2000])
    Store(folder).save(
        Progress(learner="Ada", lesson="small", at="guess", events=number, records={"guess": record})
    )


def _read_record(folder: Path) -> int:
    kept = Store(folder).open("Ada", "small")
    assert kept.progress is not None, kept.told
    assert kept.told == ""
    return kept.progress.events


def _write_report(folder: Path, number: int) -> None:
    page = Page(f"{number}", [Section("Words", [Paragraph(FILLER) for _ in range(20)])])
    write_whole(folder / "report.html", html(page))
    write_whole(
        folder / "table.csv", csv_lines([["number", "words"], *([number, FILLER] for _ in range(50))])
    )


def _read_report(folder: Path) -> int:
    text = (folder / "report.html").read_text(encoding="utf-8")
    assert text.endswith("</html>\n"), "the page is cut short"
    table = (folder / "table.csv").read_text(encoding="utf-8").splitlines()
    assert len(table) == 51, "the table is cut short"
    assert len({line.split(",")[0] for line in table[1:]}) == 1, "the table is of two versions"
    return int(table[-1].split(",")[0])


KINDS: Mapping[str, Written] = {
    "log": Written(_write_log, _read_log),
    "autosave": Written(_write_autosave, _read_autosave),
    "record": Written(_write_record, _read_record),
    "report": Written(_write_report, _read_report),
}


def killed(kind: str, folder: Path, chance: Random) -> tuple[int, int]:
    """Write in a process of its own and kill it; gives the last version acknowledged and the version that is there."""
    os.environ[HOME_VARIABLE] = str(folder)
    ours, theirs = os.pipe()
    process = os.fork()
    if process == 0:
        try:
            number = 0
            while True:
                number += 1
                KINDS[kind].write(folder, number)
                os.write(theirs, b".")
        finally:
            os._exit(1)
    os.close(theirs)
    with os.fdopen(ours, "rb") as acknowledged:
        first = acknowledged.read(1)
        assert first, "the writer stopped by itself"
        time.sleep(chance.uniform(0, LONGEST_WAIT))
        os.kill(process, signal.SIGKILL)
        os.waitpid(process, 0)
        count = 1 + len(acknowledged.read())
    return count, KINDS[kind].read(folder)


def instants(count: int, seed: int) -> list[str]:
    """What was lost at so many instants, over all kinds in turn; empty when nothing was."""
    chance, lost = Random(seed), []
    for number in range(count):
        kind = list(KINDS)[number % len(KINDS)]
        with tempfile.TemporaryDirectory() as name:
            try:
                acknowledged, found = killed(kind, Path(name), chance)
            except Exception as problem:
                lost.append(f"instant {number}, {kind}: {problem!r}")
                continue
            if not acknowledged <= found <= acknowledged + 1:
                lost.append(f"instant {number}, {kind}: {acknowledged} acknowledged, {found} found")
    return lost


def main() -> int:
    """The long form."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--instants", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    lost = instants(arguments.instants, arguments.seed)
    print("\n".join([*lost, f"{arguments.instants} instants, {len(lost)} lost"]))
    return 1 if lost else 0


if __name__ == "__main__":
    sys.exit(main())
