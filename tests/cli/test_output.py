"""Files appear whole or not at all, and folders that cannot be written are told in words."""

import os
from pathlib import Path

import pytest

from hoofsim.cli import output
from hoofsim.cli.output import ready_folder, write_whole
from hoofsim.errors import BadInput


def test_a_file_is_written_and_replaced(tmp_path: Path) -> None:
    file = tmp_path / "a.txt"
    write_whole(file, "one µ")
    write_whole(file, b"two")
    assert file.read_bytes() == b"two"
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]


def test_an_interrupted_write_leaves_the_old_file_and_no_rest(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "a.txt"
    write_whole(file, "old")

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(output.Path, "replace", stop)
    with pytest.raises(KeyboardInterrupt):
        write_whole(file, "new")
    assert file.read_text() == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]


def test_a_folder_in_place_of_the_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="is a folder"):
        write_whole(tmp_path, "text")


def test_a_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="cannot be written"):
        write_whole(tmp_path / "none" / "a.txt", "text")


def test_a_file_in_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("")
    with pytest.raises(BadInput, match="is a file"):
        ready_folder(tmp_path / "out")


def test_a_folder_below_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("")
    with pytest.raises(BadInput, match="cannot be made"):
        ready_folder(tmp_path / "out" / "in")


def test_a_folder_without_permission_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The system's answer is replaced, because a test that runs as root may write anywhere."""
    monkeypatch.setattr(os, "access", lambda path, mode: False)
    with pytest.raises(BadInput, match="not writable"):
        ready_folder(tmp_path)
