"""The names that a notebook may rely on. A change here is a change for users and belongs in CHANGELOG.md."""

import tomllib
from pathlib import Path

import pytest

import hoofsim

ROOT = Path(__file__).resolve().parent.parent


def test_public_names_of_the_package() -> None:
    assert hoofsim.__all__ == ["Foot", "LoadedFoot", "__version__", "sweep"]
    assert all(hasattr(hoofsim, name) for name in hoofsim.__all__)
    assert set(hoofsim.__all__) <= set(dir(hoofsim))


def test_an_unknown_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="Hoof"):
        _ = hoofsim.Hoof


def test_the_version_is_the_packaged_one() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert hoofsim.__version__ == project["version"]


def test_the_facade_answers_in_plain_values() -> None:
    measures = hoofsim.Foot("sound", heel_change_mm=10).load("standing").measures()
    assert all(value is None or type(value) is float for value in measures.values())
    assert measures["palmar_angle"] is not None
