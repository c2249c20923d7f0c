"""Killed at random instants, the program loses nothing that it had acknowledged; and a writer that could is caught."""

from pathlib import Path

import pytest

from hoofsim import writing
from tests.kill import killing


@pytest.fixture(autouse=True)
def _home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("HOOFSIM_HOME", str(tmp_path))


def test_nothing_acknowledged_is_lost() -> None:
    assert killing.instants(16, seed=3) == []


def test_a_writer_that_writes_in_place_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    def in_place(path: Path, content: bytes | str) -> None:
        data = content.encode() if isinstance(content, str) else content
        with path.open("wb") as stream:
            for at in range(0, len(data), 100):
                stream.write(data[at : at + 100])
                stream.flush()

    monkeypatch.setattr(killing, "write_whole", in_place)
    monkeypatch.setattr(killing, "KINDS", {"report": killing.KINDS["report"]})
    assert killing.instants(40, seed=3)


def test_every_write_of_the_program_goes_through_the_one_door() -> None:
    package = Path(writing.__file__).parent
    doors = (
        "write_text(",
        "write_bytes(",
        '.open("w',
        ".open('w",
        'open(path, "w',
        ".savefig(path",
        "image.save(surface, str",
    )
    found = [
        f"{file.relative_to(package)}: {door}"
        for file in sorted(package.rglob("*.py"))
        for door in doors
        if door in file.read_text(encoding="utf-8")
    ]
    assert found == []
