"""The README tells the truth: its two lines are what `.ci/run` runs; its limits and output are the program's own."""

import re
import shlex
from pathlib import Path
from typing import Any

import pytest

from hoofsim.cautions import LIMITS
from hoofsim.cli.main import main

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"```console\n\$ hoofsim (.*?)\n(.*?)```", README, flags=re.DOTALL)
NOTEBOOK = re.findall(r"```python\n(.*?)```", README, flags=re.DOTALL)
TWO_LINES = [
    "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && .venv/bin/hoofsim",
    ".venv/bin/python -m pytest",
]


@pytest.mark.parametrize("line", TWO_LINES)
def test_the_two_lines_are_in_the_readme_and_are_run(line: str) -> None:
    assert f"\n{line}\n" in README
    assert f"\n{line}\n" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_the_limits_are_in_the_programs_own_words() -> None:
    words = re.sub(r"\s+", " ", README)
    assert LIMITS.removeprefix("The model is ") in words


@pytest.mark.parametrize(("words", "output"), EXAMPLES)
def test_the_output_shown_is_real(
    words: str, output: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    assert main(shlex.split(words)) == 0
    said = "\n".join(line.rstrip() for line in capsys.readouterr().out.splitlines())
    assert said.strip() == output.strip()


def test_there_is_an_example() -> None:
    assert EXAMPLES


@pytest.mark.parametrize("code", NOTEBOOK)
def test_the_notebook_lines_run(code: str) -> None:
    names: dict[str, Any] = {}
    exec(code, names)
    assert names["table"]["tendon_tension"].shape == (16,)
