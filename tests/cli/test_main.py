"""The door: help that teaches, the table of commands, pipes that close and Ctrl-C."""

import importlib
import subprocess
import sys
from pathlib import Path

import pytest

from hoofsim.cli import check
from hoofsim.cli.commands import COMMANDS
from hoofsim.cli.main import main
from hoofsim.errors import HoofsimError


def test_help_names_every_command_and_exit_code(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["--help"])
    text = capsys.readouterr().out
    assert stopped.value.code == 0
    assert all(f"  {name} " in text for name in COMMANDS)
    assert "exit codes" in text
    assert "call a veterinary surgeon" in text


@pytest.mark.parametrize("command", COMMANDS.values(), ids=lambda command: command.name)
def test_every_command_explains_itself_with_examples(
    command: object, capsys: pytest.CaptureFixture[str]
) -> None:
    name = vars(command)["name"]
    with pytest.raises(SystemExit) as stopped:
        main([name, "--help"])
    assert stopped.value.code == 0
    assert f"hoofsim {name}" in capsys.readouterr().out.split("examples:")[1]


@pytest.mark.parametrize("command", COMMANDS.values(), ids=lambda command: command.name)
def test_every_file_of_a_command_has_its_three_parts(command: object) -> None:
    module = vars(command)["module"]
    loaded = __import__(module, fromlist=["run"])
    assert callable(loaded.run)
    assert callable(loaded.add_arguments)
    assert loaded.__doc__


def test_a_reader_that_leaves_early_is_no_error() -> None:
    code = "import sys; from hoofsim.cli.main import main; sys.exit(main(['about']))"
    done = subprocess.run(
        f'{sys.executable} -c "{code}" | true; echo ${{PIPESTATUS[0]}}',
        shell=True,
        executable="/bin/bash",
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stderr == ""
    assert done.stdout.strip() == "0"


@pytest.mark.parametrize(
    ("failure", "code", "words"),
    [
        (KeyboardInterrupt(), 130, "stopped"),
        (PermissionError(13, "Permission denied", "a.csv"), 2, "a.csv: Permission denied"),
        (OSError(28, "No space left on device"), 2, "No space left on device"),
        (HoofsimError("one sentence"), 2, "one sentence"),
    ],
)
def test_a_failure_is_one_sentence_and_an_exit_code(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    failure: BaseException,
    code: int,
    words: str,
) -> None:
    def fail(*_: object) -> None:
        raise failure

    monkeypatch.setattr(check, "check", fail)
    assert main(["check", str(tmp_path)]) == code
    said = capsys.readouterr().err
    assert words in said
    assert said.count("\n") == 1


def test_a_library_that_a_plain_install_leaves_out_is_named_with_the_line_that_brings_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "scipy", None)
    monkeypatch.setattr("hoofsim.cli.solve.run", lambda _: importlib.import_module("scipy"))
    assert main(["solve"]) == 2
    said = capsys.readouterr().err
    assert "needs scipy" in said
    assert "pip install 'hoofsim[test]'" in said
    assert said.count("\n") == 1
