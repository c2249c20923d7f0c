"""What several commands print and where they write: tables, JSON, the folder of results."""

import json
import os
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from rich.console import Console
from rich.table import Table

from hoofsim.cli.encoding import takes_every_letter
from hoofsim.errors import BadInput
from hoofsim.writing import write_whole

WIDTH_WITHOUT_TERMINAL = 110


class _Pipe(Console):
    """A console that leaves a closed pipe to the program's own door, which knows that it is no error."""

    def on_broken_pipe(self) -> None:
        """Say it as Python does."""
        raise BrokenPipeError


def console() -> Console:
    """Where tables go: as wide as the terminal, or a fixed width into a pipe so that its output is always the same."""
    plain = _Pipe(highlight=False, markup=False, emoji=False)
    if plain.is_terminal:
        return plain
    return _Pipe(highlight=False, markup=False, emoji=False, width=WIDTH_WITHOUT_TERMINAL)


def print_table(
    title: str, columns: Sequence[tuple[str, str]], rows: Iterable[tuple[Sequence[str], str | None]]
) -> None:
    """A titled table with `columns` (heading, "left" or "right") and `rows` of (cells, style or None)."""
    table = Table(box=None, pad_edge=False, header_style="bold", padding=(0, 2, 0, 0))
    for heading, side in columns:
        table.add_column(heading, justify="right" if side == "right" else "left", overflow="fold")
    for cells, style in rows:
        table.add_row(*cells, style=style)
    where = console()
    where.print(title, style="bold")
    if where.is_terminal:
        where.print(table)
        return
    with where.capture() as captured:
        where.print(table)
    print("\n".join(line.rstrip() for line in captured.get().splitlines()))


def print_text(text: str = "") -> None:
    """Lines of running text, wrapped to the width of the table above."""
    console().print(text)


def say_written(path: Path, as_json: bool) -> None:
    """Name a written file, except beside JSON, which other programs read."""
    if not as_json:
        print_text(f"wrote {path}")


def print_markdown(text: str) -> None:
    """A page of Markdown, laid out for the terminal."""
    from rich.markdown import Markdown

    console().print(Markdown(text))


def print_json(value: Any) -> None:
    """A value as JSON, one that other programs can read back (no NaN)."""
    print(json.dumps(value, indent=2, ensure_ascii=not takes_every_letter(), allow_nan=False))


def refuse_missing_folders(*files: Path | None) -> None:
    """BadInput when a file that is to be written has no folder to stand in, before any work is done."""
    for file in files:
        if file is not None and not file.parent.is_dir():
            raise BadInput(f"{file}: there is no folder {file.parent}")


def ready_folder(folder: Path) -> Path:
    """The folder, made when missing; BadInput when it cannot be made or written into."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise BadInput(f"{folder}: is a file; expected a folder to write into") from None
    except OSError as error:
        raise BadInput(f"{folder}: cannot be made: {error.strerror or error}") from None
    if not os.access(folder, os.W_OK):
        raise BadInput(f"{folder}: is not writable; choose another folder with --out")
    return folder


def write_into(folder: Path, contents: Mapping[str, bytes | str]) -> list[Path]:
    """Every file (name -> content) whole or not at all into a folder that is made when missing; gives the paths."""
    ready = ready_folder(folder)
    for name, content in contents.items():
        write_whole(ready / name, content)
    return [ready / name for name in contents]
