"""Reading the table of published values: what is wrong with a line is told by line."""

import pytest

from hoofsim.errors import BadInput
from hoofsim.verify.published import published, read

HEAD = "id,group,what,unit,value,low,high,spread,conditions,source,status,kind\n"
GOOD = "a,g,w,mm,1,0,2,range,c,F1,abstract,predicted\n"


def test_a_good_file_is_read(tmp_path):
    file = tmp_path / "p.csv"
    file.write_text(HEAD + GOOD)
    (one,) = read(file)
    assert (one.value, one.low, one.high) == (1.0, 0.0, 2.0)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (GOOD.replace("mm,1,", "mm,one,"), "line 2: value, low and high must be numbers"),
        (GOOD.replace("mm,1,", "mm,5,"), "value 5 must lie from low 0 to high 2"),
        (GOOD.replace("predicted", "guessed"), "kind 'guessed' must be one of calibrated, predicted"),
        (GOOD.replace("abstract", "hearsay"), "status 'hearsay' must be one of"),
        (GOOD.replace("F1", "F99"), "no source 'F99'"),
        (GOOD + GOOD, "the id 'a' stands there twice"),
    ],
)
def test_a_bad_line_is_told(tmp_path, line, words):
    file = tmp_path / "p.csv"
    file.write_text(HEAD + line)
    with pytest.raises(BadInput, match=words):
        read(file)


def test_a_missing_column_is_told(tmp_path):
    file = tmp_path / "p.csv"
    file.write_text(HEAD.replace(",kind", "") + GOOD)
    with pytest.raises(BadInput, match="line 1: no column kind; expected id, group"):
        read(file)


def test_the_carried_table_covers_what_must_agree():
    groups = {one.group for one in published()}
    assert {
        "standing",
        "trot",
        "walk",
        "raised heel",
        "long toe",
        "sound shape",
        "accounts",
        "weeks",
    } == groups
