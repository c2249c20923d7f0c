"""Everything written twice in two processes, from hostile words: same bytes, no formula, no markup, no address."""

import csv
import hashlib
import io
import json
import os
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest

from hoofsim import __version__
from hoofsim.foot.presets import preset
from hoofsim.plain_text import FORMULA_STARTS
from hoofsim.sources import SOURCES

ROOT = Path(__file__).resolve().parent.parent.parent
SCENARIO = """\
hoofsim: 1
kind: scenario
title: "<script>alert(1)</script> $x_{ \\\\frac & ]]> =1+1 \U0001f40e"
question: "=cmd|'/C calc'!A0 <img src=http://example.org/y onerror=alert(1)> $a^$"
changes: {heel_change_mm: 10}
"""
EXPERIMENT = """\
hoofsim: 1
kind: experiment
title: "$x_{ <b>"
question: "$\\\\frac{ <script>alert(1)</script>"
design: factorial
factors:
  - name: "=1+1 $x_{"
    levels:
      - {name: "@SUM(A1) $^", set: {heel_change_mm: 0}}
      - {name: "<b>\U0001f40e", set: {heel_change_mm: 8}}
  - control: laminae_percent
    values: [100, 40]
measures: [palmar_angle, tip_to_frog]
claim_plot: true
"""
WORDS = {"Bramble": "=1+1 $x_{", "Cinder": "<script>a</script>", "Pippin": "+2 <b> $^"}
COMMANDS = [
    ["run", "s.yaml", "e.yaml", "--out", "out"],
    ["evidence", "=ev $x_{.csv", "--out", "out"],
    ["evidence", "--generate", "sinking", "--seed", "3", "--out", "out"],
    ["trials", "log.yaml", "--keep", "--note", "=1+1 $x_{ <b>", "--predict", "\t=2 <script>a</script>",
     "--set", "wedge_deg=3"],
    ["trials", "log.yaml", "--keep", "--note", "$^", "--set", "laminae_percent=5"],
    ["trials", "log.yaml", "--out", "out"],
    ["run", "log.yaml", "--out", "out/sitting"],
    ["draw", "out/foot.svg", "--foot", "failed_laminae"],
    ["draw", "out/foot.png", "--foot", "failed_laminae"],
    ["draw", "out/foot.txt", "--foot", "failed_laminae"],
    ["weeks", "--days", "28", "--csv", "out/weeks.csv", "--figure", "out/weeks.svg"],
]  # fmt: skip
PLAY = """\
import json, sys
from hoofsim.cli.main import main
for words in json.loads(sys.argv[1]):
    assert main(words) == 0
"""


def written(folder: Path, hash_seed: str) -> tuple[dict[str, bytes], str]:
    """Name -> bytes of everything that the commands write in a process of its own, and what it complained."""
    folder.mkdir()
    (folder / "s.yaml").write_text(SCENARIO, encoding="utf-8")
    (folder / "e.yaml").write_text(EXPERIMENT, encoding="utf-8")
    table = (ROOT / "scenarios" / "evidence" / "invented_cases.csv").read_text(encoding="utf-8")
    for name, word in WORDS.items():
        table = table.replace(name, word)
    (folder / "=ev $x_{.csv").write_text(table, encoding="utf-8")
    env = {**os.environ, "PYTHONHASHSEED": hash_seed, "PYTHONPATH": str(ROOT)}
    words = [sys.executable, "-c", PLAY, json.dumps(COMMANDS)]
    done = subprocess.run(words, cwd=folder, env=env, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
    files = {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    return files, done.stderr.decode()


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, bytes], str]:
    """Everything, written once."""
    return written(tmp_path_factory.mktemp("one") / "a", "0")


@pytest.fixture(scope="module")
def files(once: tuple[dict[str, bytes], str]) -> dict[str, bytes]:
    """Name -> bytes."""
    return once[0]


def of(files: dict[str, bytes], ending: str) -> dict[str, str]:
    """The texts among them with that ending."""
    found = {name: content.decode("utf-8") for name, content in files.items() if name.endswith(ending)}
    assert found
    return found


def test_another_process_in_another_folder_writes_the_same_bytes(
    files: dict[str, bytes], tmp_path: Path
) -> None:
    again, _ = written(tmp_path / "somewhere else", "77")
    assert sorted(again) == sorted(files)
    assert [name for name, content in files.items() if again[name] != content] == []
    assert {Path(name).suffix for name in files} >= {
        ".csv",
        ".svg",
        ".png",
        ".html",
        ".pdf",
        ".json",
        ".txt",
        ".yaml",
    }


def test_nothing_is_complained_about_on_the_way(once: tuple[dict[str, bytes], str]) -> None:
    assert once[1] == ""


def test_no_cell_of_a_table_is_a_formula(files: dict[str, bytes]) -> None:
    cells = [
        (name, cell)
        for name, text in of(files, ".csv").items()
        if name.startswith("out")
        for row in csv.reader(io.StringIO(text))
        for cell in row
        if cell.startswith(FORMULA_STARTS) and not re.fullmatch(r"[-+]?[0-9.]+(e[-+]?[0-9]+)?", cell)
    ]
    assert cells == []
    assert any("'=1+1" in text for text in of(files, ".csv").values()), "the words did get there"


class Elements(HTMLParser):
    """Every element with its attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


def test_pages_have_no_markup_of_the_users_no_address_and_a_strict_policy(files: dict[str, bytes]) -> None:
    for name, text in of(files, ".html").items():
        elements = Elements(text).found
        tags = {tag for tag, _ in elements}
        assert not tags & {"script", "iframe", "object", "embed", "link", "base", "form", "b", "a"}, name
        assert not [key for _, attributes in elements for key in attributes if key.startswith("on")], name
        sources = [attributes["src"] or "" for _, attributes in elements if "src" in attributes]
        assert sources
        assert all(source.startswith("data:image/png;base64,") for source in sources), name
        policy = next(
            str(attributes["content"])
            for tag, attributes in elements
            if tag == "meta" and attributes.get("http-equiv") == "Content-Security-Policy"
        )
        assert policy.startswith("default-src 'none'")
        assert "unsafe" not in policy
        assert "*" not in policy
        assert re.search(r"(https?:)?//", text.split("<style>")[0]) is None
        assert "url(" not in text
        assert "&lt;script&gt;" in text, "the words did get there"


def test_pictures_are_well_formed_and_hold_no_script_and_no_address(files: dict[str, bytes]) -> None:
    for name, text in of(files, ".svg").items():
        assert "<!DOCTYPE" not in text, name
        for element in ElementTree.fromstring(text).iter():
            tag = element.tag.rpartition("}")[2]
            assert tag not in ("script", "foreignObject", "a", "iframe", "b"), name
            for key, value in element.attrib.items():
                assert not key.rpartition("}")[2].startswith("on"), name
                if key.endswith("href"):
                    assert value.startswith(("#", "data:")), name
        addresses = set(re.findall(r"https?://[^\"<> ]*", text))
        assert addresses <= {"http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"}, name


def test_results_say_what_made_them_from_what(files: dict[str, bytes]) -> None:
    origins = {name: json.loads(text) for name, text in of(files, "_about.json").items()}
    assert {one["kind"] for one in origins.values()} == {
        "scenario",
        "experiment",
        "evidence",
        "trials",
        "sandbox",
    }
    for origin in origins.values():
        assert origin["made_with"] == f"hoofsim {__version__}"
        assert origin["from"]["sha256"] == hashlib.sha256(files[origin["from"]["name"]]).hexdigest()
        assert set(origin["sources"]) <= set(SOURCES)
        assert origin["cautions"]
    scenario = origins["out/s_about.json"]
    assert scenario["content"]["changes"] == {"heel_change_mm": 10.0}
    values = {name: one["value"] for name, one in scenario["unchanged_values"].items()}
    assert values == dict(preset("sound").values)
