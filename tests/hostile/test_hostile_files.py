"""A thousand hostile files a run: each is refused in words with nothing written, or turns out to be well written."""

from collections import Counter
from pathlib import Path

import pytest

from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.reader import read_table
from hoofsim.cli.check import check
from hoofsim.cli.main import main
from hoofsim.errors import BadInput
from tests.hostile.grammar import Case, cases
from tests.hostile.refusing import amiss, command, everything_under

COUNT, PARTS, SEED = 1000, 20, 20261125


def is_well_written(case: Case, file: Path) -> bool:
    """Whether the file is read: then it is not run here, which would take long and is not the question."""
    try:
        if case.kind == "evidence":
            paired(read_table(file), file.name)
        else:
            check(file)
    except BadInput:
        return False
    return True


@pytest.mark.parametrize("part", range(PARTS))
def test_hostile_files_are_refused_in_words_and_nothing_is_written(
    part: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOOFSIM_HOME", str(tmp_path / "home"))
    wrong = []
    for number, case in enumerate(cases(COUNT // PARTS, SEED + part)):
        file = tmp_path / f"bad{case.ending}"
        file.write_bytes(case.content)
        if is_well_written(case, Path(file.name)):
            if case.must:
                wrong.append(f"{number} {case.kind} {case.strokes}: was taken")
            continue
        before = everything_under(tmp_path)
        code = main(command(case))
        after = everything_under(tmp_path)
        said = amiss(case, code, capsys.readouterr().err, set(after) - set(before))
        if said or any(after[name] != content for name, content in before.items()):
            wrong.append(f"{number} {case.kind} {case.strokes}: {said or 'changed a file'}")
        file.unlink()
    assert wrong == []


def test_the_grammar_reaches_every_kind_and_most_of_it_is_bad() -> None:
    kinds, must = Counter[str](), 0
    for case in cases(COUNT, SEED):
        kinds[case.kind] += 1
        must += case.must
    assert len(kinds) == 7
    assert min(kinds.values()) > COUNT / 20
    assert must > COUNT / 4
    assert list(cases(30, 3)) == list(cases(30, 3))
