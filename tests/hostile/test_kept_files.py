"""Files that the program keeps for itself, spoiled in every way: it starts all the same, and loses none of them."""

from pathlib import Path

import pytest

from hoofsim.app.settings import load_settings, settings_path
from hoofsim.lessons.store import Store
from hoofsim.session.recovery import Recovery
from tests.hostile.grammar import cases


@pytest.mark.parametrize("seed", [1, 2])
def test_spoiled_kept_files_never_stop_the_program(
    seed: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOOFSIM_HOME", str(tmp_path))
    store, recovery = Store.default(), Recovery.take()
    record = store.path("Ada", "small")
    record.parent.mkdir(parents=True)
    for number, case in enumerate(cases(150, seed)):
        for path in (settings_path(), recovery.path, record):
            path.write_bytes(case.content)
        _, trouble = load_settings()
        assert trouble is None or "\n" not in trouble.split(": ")[0]
        told: list[str] = []
        sitting, kept = recovery.last(told.append), store.open("Ada", "small")
        assert (sitting is None) == bool(told), (number, case.strokes)
        assert (kept.progress is None) == bool(kept.told), (number, case.strokes)
        for path, lost in ((recovery.path, sitting is None), (record, kept.progress is None)):
            asides = list(path.parent.glob(f"{path.stem}.damaged-*"))
            assert [aside.read_bytes() for aside in asides] == ([case.content] if lost else []), case.strokes
            for aside in asides:
                aside.unlink()
