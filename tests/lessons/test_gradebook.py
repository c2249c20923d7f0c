"""The instructor's table: what stands in it, and that no cell of it is run by a spreadsheet."""

import csv
import io

import pytest

from hoofsim.lessons.gradebook import COLUMNS, Sheet, csv_text, rows, stuck_at
from hoofsim.lessons.progress import Progress, Record


def learner(name: str, **records: Record) -> Sheet:
    """One learner's file with these records."""
    return f"{name}.yaml", Progress(learner=name, lesson="small", at="a", records=records)


def test_every_step_of_every_learner_is_a_row() -> None:
    predict = Record(
        kind="predict",
        title="Way",
        answer="falls",
        tries=["falls"],
        marks=1,
        sure_before=2,
        sure_after=4,
        seconds=12.4,
    )
    table = rows([learner("Zed", way=predict), learner("Ada", way=predict, why=Record(kind="explain"))])
    assert [(row["learner"], row["step"]) for row in table] == [
        ("Ada", "way"),
        ("Ada", "why"),
        ("Zed", "way"),
    ]
    row = table[0]
    assert (row["answer"], row["sure_before"], row["sure_after"], row["seconds"]) == ("falls", "2", "4", "12")
    assert set(row) == set(COLUMNS)


def test_where_people_got_stuck_is_counted() -> None:
    gave_up = Record(kind="do", gave_up=True)
    hinted = Record(kind="do", hints=2)
    fine = Record(kind="do", tries=["a"])
    class_ = [learner("A", x=gave_up, y=fine), learner("B", x=hinted), learner("C", x=fine, y=gave_up)]
    assert stuck_at(class_) == [("small / x", 2), ("small / y", 1)]


@pytest.mark.parametrize("answer", ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "  =1"])
def test_an_answer_that_a_spreadsheet_would_run_is_made_plain(answer: str) -> None:
    (row,) = csv.DictReader(
        io.StringIO(csv_text([learner("Ada", why=Record(kind="explain", answer=answer))]))
    )
    assert not row["answer"].lstrip().startswith(("=", "+", "-", "@"))
    assert answer.strip() in row["answer"]


def test_a_hostile_answer_stays_in_its_cell() -> None:
    hostile = Record(
        kind="explain", answer='=HYPERLINK("http://x")\n"a",b', tries=["=1"], reason="@x", title="+1+1"
    )
    parsed = list(csv.DictReader(io.StringIO(csv_text([learner("=me()", why=hostile)]))))
    assert len(parsed) == 1
    assert parsed[0]["answer"] == '\'=HYPERLINK("http://x")\n"a",b'
    assert all(not value.startswith(("=", "+", "-", "@")) for value in parsed[0].values())


def test_namesakes_are_told_apart_by_their_files() -> None:
    one = Progress(learner="learner", lesson="small", at="a", records={"a": Record(kind="read")})
    assert [row["file"] for row in rows([("b.yaml", one), ("a.yaml", one)])] == ["a.yaml", "b.yaml"]
