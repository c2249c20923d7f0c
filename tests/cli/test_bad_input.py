"""Bad files and words on the command line: exit code 2, one clear sentence, nothing written, never a traceback."""

from pathlib import Path

import pytest

from hoofsim.cli.main import main
from tests.files.bad_scenarios import BAD, GOOD


def everything_under(folder: Path) -> dict[Path, bytes]:
    """Every file with its content."""
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize(
    "command", [["check"], ["run", "--out", "results"], ["solve", "--foot"]], ids=lambda w: w[0]
)
@pytest.mark.parametrize("name", BAD)
def test_a_bad_file_is_refused_and_nothing_is_written(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    name: str,
    command: list[str],
) -> None:
    content, words = BAD[name]
    (tmp_path / "bad.yaml").write_bytes(content)
    monkeypatch.chdir(tmp_path)
    before = everything_under(tmp_path)
    assert main([*command, "bad.yaml"]) == 2
    said = capsys.readouterr()
    assert words in said.err
    assert "bad.yaml" in said.err
    assert "Traceback" not in said.err
    assert everything_under(tmp_path) == before
    assert not (tmp_path / "results").exists()


def test_a_good_file_after_a_bad_one_is_still_checked(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "bad.yaml").write_text("hoofsim: 1\n")
    (tmp_path / "good.yaml").write_text(GOOD)
    assert main(["check", str(tmp_path / "bad.yaml"), str(tmp_path / "good.yaml")]) == 2
    said = capsys.readouterr()
    assert "good.yaml: a well-written scenario" in said.out
    assert "'kind' is missing" in said.err


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (["slove"], "did you mean 'solve'"),
        (["check", "missing.yaml"], "missing.yaml: no such file"),
        (["check", "."], "is a folder"),
        (["run", "missing.yaml"], "missing.yaml: no such file"),
        (["solve", "--foot", "sonud"], "did you mean 'sound'"),
        (["solve", "--foot", "missing.yaml"], "no such file"),
        (["solve", "--set", "heel_change_mm"], "expected NAME=VALUE"),
        (["solve", "--set", "heel_chnage_mm=3"], "did you mean 'heel_change_mm'"),
        (["solve", "--set", "heel_change_mm=tall"], "'tall' is not a number"),
        (["solve", "--set", "heel_change_mm=nan"], "out of range"),
        (["solve", "--set", "heel_change_mm=300"], "allowed"),
        (["solve", "--set", "tendon_cut=0.5"], "0 (whole) or 1 (cut)"),
        (["solve", "--load", "standign"], "did you mean 'standing'"),
        (["solve", "--stance-percent", "50"], "belongs to walk and trot"),
        (["solve", "--load", "trot", "--stance-percent", "150"], "allowed 0 to 100"),
        (["draw", "foot.pdf"], "must end in .svg, .png, .txt"),
        (["draw", "nowhere/foot.svg"], "there is no folder nowhere"),
        (["draw", "."], "must end in"),
        (["open", "missing.hoofsim.yaml"], "no such file"),
        (["schema", "scenery"], "scenario"),
    ],
)
def test_bad_words_are_answered_in_one_sentence(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    words: list[str],
    complaint: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(words) == 2
    said = capsys.readouterr()
    assert complaint in said.err
    assert said.err.count("\n") == 1
    assert said.out == ""
    assert everything_under(tmp_path) == {}


@pytest.mark.parametrize("words", [["list", "horses"], ["solve", "--load"], ["--nonsense"], ["run"]])
def test_what_the_parser_refuses_is_also_exit_code_two(words: list[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(words)
    assert stopped.value.code == 2
