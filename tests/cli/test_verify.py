"""`hoofsim verify`: table, page, picture, data, bands, and its refusals."""

import json

import pytest

from hoofsim.cli import verify as command
from hoofsim.cli.commands import COMMANDS
from hoofsim.cli.main import parser_of
from hoofsim.errors import BadInput, ExpectationMissed
from hoofsim.verify.referees import registry
from hoofsim.verify.referees.referee import Referee


@pytest.fixture(autouse=True)
def quick(monkeypatch):
    """Two quick referees, one without its package; the real ones have tests of their own."""
    told = (Referee("a length", "somebody", "numpy", "numpy", "mm", 0.1, lambda: 0.01),
            Referee("an angle", "nobody", "no_such_package", "a-wheel", "deg", 0.1, lambda: 0.01))  # fmt: skip
    monkeypatch.setattr(command, "ask_all", lambda progress: registry.ask_all(told, progress))


def run(*words):
    return command.run(parser_of(COMMANDS["verify"]).parse_args(list(words)))


def test_table_says_what_is_outside_and_what_was_left_out(capsys):
    assert run() == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "predicted values inside" in text
    assert "OUTSIDE. peak moment at the coffin joint" in text
    assert "from memory" in text
    assert "practice" in text
    assert "Left out, because not installed: a-wheel" in text


def test_json_has_every_row_with_its_citation(capsys):
    run("--json")
    told = json.loads(capsys.readouterr().out)
    wedge = next(row for row in told["rows"] if row["id"] == "wedge_navicular_change")
    assert wedge["kind"] == "predicted"
    assert wedge["status"] == "memory"
    assert "Willemen" in wedge["citation"]
    assert [one["agrees"] for one in told["referees"]] == [True, None]


def test_page_and_picture_are_written(tmp_path, capsys):
    run("--html", str(tmp_path / "v.html"), "--figure", str(tmp_path / "v.png"))
    page = (tmp_path / "v.html").read_text()
    assert "data:image/png;base64" in page
    assert "Outside, and why" in page
    assert "no paragraph is kept" not in page
    assert (tmp_path / "v.png").read_bytes().startswith(b"\x89PNG")


def test_bands_are_printed_and_written(tmp_path, capsys):
    run("--uncertainty", "--samples", "16", "--bands", str(tmp_path / "b.json"))
    text = capsys.readouterr().out
    assert "Sound foot, standing" in text
    assert "matter most" in text
    assert json.loads((tmp_path / "b.json").read_text())["samples"] == 16


def test_a_referee_that_differs_is_an_error_after_everything_was_printed(monkeypatch, capsys):
    far = Referee("a length", "somebody", "numpy", "numpy", "mm", 0.1, lambda: 0.2)
    monkeypatch.setattr(command, "ask_all", lambda progress: registry.ask_all([far], progress))
    with pytest.raises(ExpectationMissed, match="differs by more than it may: a length"):
        run()
    assert "DIFFERS" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--html", "none/v.html"), "there is no folder none"),
        (("--figure", "v.gif"), "must end in .png or .svg"),
        (("--bands", "b.json"), "--bands needs --uncertainty"),
        (("--uncertainty", "--html", "v.html"), "--html cannot go with --uncertainty"),
        (("--uncertainty", "--samples", "2"), "--samples = 2: allowed 16 to 4096"),
    ],
)
def test_bad_input_writes_nothing(words, said, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(BadInput, match=said):
        run(*words)
    assert list(tmp_path.iterdir()) == []
