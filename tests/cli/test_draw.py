"""`hoofsim draw`: a picture by its file's ending, the same bytes each time, changed when the foot is."""

from pathlib import Path

import pytest

from hoofsim.cli.main import main


@pytest.mark.parametrize("ending", ["svg", "png", "txt"])
def test_a_picture_is_drawn_and_repeats(tmp_path: Path, ending: str) -> None:
    first, again, other = (tmp_path / f"{name}.{ending}" for name in ("first", "again", "other"))
    assert main(["draw", str(first)]) == 0
    assert main(["draw", str(again)]) == 0
    assert main(["draw", str(other), "--set", "heel_change_mm=15"]) == 0
    assert len(first.read_bytes()) > 500
    assert first.read_bytes() == again.read_bytes()
    assert first.read_bytes() != other.read_bytes()


def test_the_file_may_be_named_by_an_option_instead(tmp_path: Path) -> None:
    plain, named = tmp_path / "plain.svg", tmp_path / "named.svg"
    assert main(["draw", str(plain), "--load", "walk"]) == 0
    assert main(["draw", "--load", "walk", "-o", str(named)]) == 0
    assert plain.read_bytes() == named.read_bytes()
    for words in (["draw", str(plain), "-o", str(named)], ["draw", "--load", "walk"]):
        with pytest.raises(SystemExit) as ended:
            main(words)
        assert ended.value.code == 2


def test_the_picture_says_which_foot_it_is(tmp_path: Path) -> None:
    file = tmp_path / "foot.svg"
    assert main(["draw", str(file), "--foot", "pony", "--load", "trot", "--stance-percent", "50"]) == 0
    assert "Pony, trot at 50 % of stance" in file.read_text(encoding="utf-8")


def test_a_screen_of_the_window_is_drawn(tmp_path: Path) -> None:
    file = tmp_path / "screen.png"
    assert main(["draw", str(file), "--screen", "settings", "--size", "800x600", "--text-scale", "1.4"]) == 0
    assert file.read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--screen", "setings"], "settings"),
        (["--screen", "settings", "--size", "wide"], "such as 1280x800"),
        (["--screen", "settings", "--size", "20x20"], "allowed 640x480"),
        (["--screen", "settings", "--text-scale", "5"], "allowed 0.8 to 2"),
    ],
)
def test_an_impossible_screen_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], options: list[str], words: str
) -> None:
    file = tmp_path / "screen.png"
    assert main(["draw", str(file), *options]) == 2
    assert words in capsys.readouterr().err
    assert not file.exists()
