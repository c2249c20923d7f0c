"""Show a learner's progress, or merge the progress files of a class into one table for the instructor."""

import argparse
from pathlib import Path

from hoofsim.cli.output import print_json, print_table, print_text
from hoofsim.errors import BadInput
from hoofsim.lessons.gradebook import Sheet, csv_text, rows, stuck_at
from hoofsim.lessons.progress import Progress
from hoofsim.lessons.store import Store, checked_learner, read_progress
from hoofsim.writing import write_whole

EXAMPLES = """\
  hoofsim progress
  hoofsim progress --learner Ada
  hoofsim progress --merge class/*.yaml --out class.csv"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Whose progress, or which files to merge into which table."""
    parser.add_argument(
        "--learner", metavar="NAME", help="only this learner's (default: everybody's on this computer)"
    )
    parser.add_argument(
        "--merge", nargs="+", type=Path, metavar="FILE", help="progress files of a class (.yaml)"
    )
    parser.add_argument("--out", type=Path, metavar="CSV", help="table to write (with --merge)")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(arguments: argparse.Namespace) -> int:
    """Show, or merge."""
    if arguments.merge is None:
        if arguments.out is not None:
            raise BadInput("--out belongs to --merge")
        return _show(arguments.learner, arguments.json)
    if arguments.out is None:
        raise BadInput("--merge needs --out, such as --out class.csv")
    if arguments.out.suffix != ".csv":
        raise BadInput(f"{arguments.out}: the table must end in .csv")
    return _merge(arguments.merge, arguments.out)


def _merge(files: list[Path], out: Path) -> int:
    """Every file is read before anything is written."""
    found, complaints = _read(files)
    if complaints:
        raise BadInput("\n".join(complaints))
    write_whole(out, csv_text(found))
    learners = len({one.learner for _, one in found})
    print(f"wrote {out}: {len(found)} files, {learners} learners, {len(rows(found))} rows")
    for where, count in stuck_at(found)[:10]:
        print(f"stuck: {where}: {count} of {len(found)}")
    return 0


def _show(learner: str | None, as_json: bool) -> int:
    store = Store.default()
    found, complaints = _read(store.files(None if learner is None else checked_learner(learner)))
    if as_json:
        print_json([one.model_dump() for _, one in found])
    elif not found:
        print_text("No lesson has been begun here. Play one with: hoofsim lesson 01")
    else:
        columns = (
            ("learner", "left"),
            ("lesson", "left"),
            ("steps done", "right"),
            ("minutes", "right"),
            ("state", "left"),
        )
        print_table("Progress", columns, [(_cells(one), None) for _, one in found])
    for complaint in complaints:
        print_text(f"not read: {complaint}")
    return 0


def _read(files: list[Path]) -> tuple[list[Sheet], list[str]]:
    """What could be read, with each file's name, and one complaint for each file that could not."""
    found: list[Sheet] = []
    complaints: list[str] = []
    for path in files:
        try:
            found.append((str(path), read_progress(path)))
        except BadInput as error:
            complaints.append(str(error))
    return found, complaints


def _cells(one: Progress) -> list[str]:
    done = sum(record.done for record in one.records.values())
    minutes = sum(record.seconds for record in one.records.values()) / 60.0
    state = "going on" if not one.finished else ("passed" if one.passed else "finished, not passed yet")
    return [one.learner, one.title or one.lesson, str(done), f"{minutes:.0f}", state]
