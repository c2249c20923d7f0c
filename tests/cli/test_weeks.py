"""`hoofsim weeks`: the table, the files it writes, and its refusals."""

import json

import pytest

from hoofsim.cli import weeks as command
from hoofsim.cli.commands import COMMANDS
from hoofsim.cli.main import parser_of
from hoofsim.errors import BadInput


def run(*words):
    arguments = parser_of(COMMANDS["weeks"]).parse_args(list(words))
    return command.run(arguments)


def test_table_names_its_rates_and_their_status(capsys):
    assert run("--days", "14") == 0
    text = capsys.readouterr().out
    assert "Under a shoe, 14 days" in text
    assert "second-hand" in text
    assert "choice" in text
    assert "renewed in 11.6 months" in text


def test_json_has_one_entry_a_day(capsys):
    run("--days", "14", "--every", "7", "--json")
    days = json.loads(capsys.readouterr().out)["days"]
    assert [day["day"] for day in days] == [0, 7, 14]
    assert days[2]["measures"]["tendon_tension"] > days[0]["measures"]["tendon_tension"]


def test_files_are_written(tmp_path):
    run("--days", "7", "--csv", str(tmp_path / "w.csv"), "--figure", str(tmp_path / "w.png"))
    lines = (tmp_path / "w.csv").read_text().splitlines()
    assert lines[0].startswith("day,toe_change_mm,")
    assert len(lines) == 3
    assert (tmp_path / "w.png").read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--days", "0"), "--days must be 1 to 400"),
        (("--csv", "none/w.csv"), "there is no folder none"),
        (("--figure", "w.gif"), "must end in .png or .svg"),
        (("--keeping", "stabled"), "unknown keeping 'stabled'"),
        (("--trim", "x"), "expected DAY"),
    ],
)
def test_bad_input_writes_nothing(words, said, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(BadInput, match=said):
        run(*words)
    assert list(tmp_path.iterdir()) == []
