"""Carried files are found in the checkout, and a missing folder is told in words."""

import pytest

from hoofsim.errors import BadInput
from hoofsim.resources import assets_folder, carried_folder, scenario_files, scenarios_folder


def test_the_folders_of_the_checkout_are_found() -> None:
    assert (assets_folder() / "README.md").is_file()
    assert scenarios_folder().is_dir()


def test_scenarios_come_in_the_order_of_their_names() -> None:
    names = [file.name for file in scenario_files()]
    assert names == sorted(names)
    assert len(names) >= 6


def test_a_folder_that_is_not_carried_is_told_in_words() -> None:
    with pytest.raises(BadInput, match="carries no 'nothing'"):
        carried_folder("nothing")
