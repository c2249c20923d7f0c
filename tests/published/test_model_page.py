"""The model's page says what the comparison says today, names every point of the standard, and hides nothing outside."""

import json
import re

from hoofsim.cli.main import main
from hoofsim.resources import model_page
from hoofsim.sources import SOURCES
from hoofsim.verify.compare import compare
from hoofsim.verify.wording import tally, with_unit


def test_tally_and_every_row_outside_stand_on_the_page():
    page, rows = model_page(), compare()
    assert tally(rows) in page
    for row in rows:
        line = f"- {row.published.what}: {with_unit(row.model, row.published.unit)}, published"
        assert (line in page) == (not row.inside), line


def test_all_ten_rules_are_answered():
    answers = re.findall(
        r"^(\d+)\. \*\*(.+?)\.\*\* (.+)$", model_page().split("public standard")[1], re.MULTILINE
    )
    assert [int(number) for number, _, _ in answers] == list(range(1, 11))
    assert "Not done." in {int(number): text for number, _, text in answers}[8]


def test_every_cited_id_is_a_source():
    cited = set(re.findall(r"\b([FR]\d+[bc]?)\b", model_page()))
    assert {"F7", "F9", "F5c", "R8"} <= cited <= set(SOURCES)


def test_about_model_prints_the_page(capsys):
    assert main(["about", "model"]) == 0
    text = capsys.readouterr().out
    assert "What it cannot say" in text
    assert "ten simple rules" in text
    assert main(["about", "model", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["model"] == model_page()
