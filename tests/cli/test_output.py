"""The folder of results: made when missing, and told in words when it cannot be used."""

import os
from pathlib import Path

import pytest

from hoofsim.cli.output import ready_folder
from hoofsim.errors import BadInput


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


def test_a_missing_folder_is_made(tmp_path: Path) -> None:
    assert ready_folder(tmp_path / "a" / "b").is_dir()
