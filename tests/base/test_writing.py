"""Files appear whole or not at all."""

from pathlib import Path

import pytest

from hoofsim import writing
from hoofsim.errors import BadInput
from hoofsim.writing import write_whole


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

    monkeypatch.setattr(writing.Path, "replace", stop)
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


def test_a_new_file_has_the_permissions_of_any_other(tmp_path: Path) -> None:
    (tmp_path / "usual").write_text("")
    write_whole(tmp_path / "whole", "")
    assert (tmp_path / "whole").stat().st_mode == (tmp_path / "usual").stat().st_mode
