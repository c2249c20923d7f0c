"""List what there is: ready feet, controls, measures, load cases, sources, scenarios, lessons, or trade terms."""

import argparse
from collections.abc import Callable, Mapping
from typing import Any

from hoofsim.cli.about import print_sources
from hoofsim.cli.output import print_json, print_table
from hoofsim.files.scenario import read_scenario
from hoofsim.foot.parameters import PARAMETERS
from hoofsim.foot.presets import PRESETS
from hoofsim.lessons.glossary import glossary
from hoofsim.lessons.loader import lesson_files, read_lesson
from hoofsim.measures.table import MEASURES
from hoofsim.mechanics.loads import CASES
from hoofsim.resources import scenario_files
from hoofsim.sources import SOURCES
from hoofsim.units import shown_unit

EXAMPLES = """\
  hoofsim list controls
  hoofsim list measures --json"""


def _presets() -> None:
    rows = [((one.name, one.label, one.sentence), None) for one in PRESETS.values()]
    print_table("Ready feet (invented)", [("name", "left"), ("label", "left"), ("what it is", "left")], rows)


def _controls() -> None:
    rows = [
        (
            (one.name, shown_unit(one.unit), f"{one.default:g}", f"{one.low:g}", f"{one.high:g}", one.meaning,
             " ".join(filter(None, (one.source, one.status)))),
            None,
        )
        for one in PARAMETERS
    ]  # fmt: skip
    print_table(
        "Controls",
        [("name", "left"), ("unit", "left"), ("sound", "right"), ("low", "right"), ("high", "right"),
         ("meaning", "left"), ("source", "left")],
        rows,
    )  # fmt: skip


def _measures() -> None:
    rows = []
    for one in MEASURES.values():
        reference = "" if one.reference is None else f"{one.reference.low:g} to {one.reference.high:g}"
        source = "" if one.reference is None else f"{one.reference.source} {one.reference.status}"
        rows.append(
            ((one.name, shown_unit(one.unit), f"{one.definition} {one.sign}", reference, source), None)
        )
    print_table(
        "Measures",
        [
            ("name", "left"),
            ("unit", "left"),
            ("definition and sign", "left"),
            ("sound", "right"),
            ("source", "left"),
        ],
        rows,
    )


def _loads() -> None:
    rows = [((one.name, one.label, one.sentence, one.source), None) for one in CASES.values()]
    print_table(
        "Loads", [("name", "left"), ("label", "left"), ("what it is", "left"), ("source", "left")], rows
    )


def _scenarios() -> None:
    rows = [
        ((file.name, read_scenario(file).title, read_scenario(file).question), None)
        for file in scenario_files()
    ]
    print_table("Scenarios", [("file", "left"), ("title", "left"), ("question", "left")], rows)


def _lessons() -> None:
    lessons = [(file, read_lesson(file)) for file in lesson_files()]
    rows = [((file.name, f"{one.minutes}", one.title), None) for file, one in lessons]
    columns = [("file", "left"), ("minutes", "right"), ("title", "left")]
    print_table("Lessons", columns, rows)


def _terms() -> None:
    rows = [((one.id, one.heading, one.meaning), None) for one in glossary().values()]
    print_table("Trade terms", [("term", "left"), ("names", "left"), ("meaning", "left")], rows)


def _fields(thing: Any, *names: str) -> dict[str, Any]:
    """The named fields of a table entry, for JSON."""
    return {name: getattr(thing, name) for name in names}


def _measure_fields(measure: Any) -> dict[str, Any]:
    fields = _fields(
        measure, "name", "label", "definition", "sign", "unit", "source", "readable", "smallest_readable"
    )
    reference = measure.reference
    words = ("low", "high", "source", "status", "words")
    return {**fields, "reference": None if reference is None else _fields(reference, *words)}


TABLES: Mapping[str, tuple[Callable[[], None], Callable[[], list[dict[str, Any]]]]] = {
    "presets": (_presets, lambda: [{**vars(one), "changes": dict(one.changes)} for one in PRESETS.values()]),
    "controls": (_controls, lambda: [vars(one) for one in PARAMETERS]),
    "measures": (_measures, lambda: [_measure_fields(one) for one in MEASURES.values()]),
    "loads": (
        _loads,
        lambda: [_fields(one, "name", "label", "sentence", "source") for one in CASES.values()],
    ),
    "sources": (print_sources, lambda: [vars(one) for one in SOURCES.values()]),
    "scenarios": (
        _scenarios,
        lambda: [
            {"file": str(file), **_fields(read_scenario(file), "title", "question")}
            for file in scenario_files()
        ],
    ),
    "lessons": (
        _lessons,
        lambda: [
            {"file": str(file), **_fields(read_lesson(file), "title", "summary", "minutes")}
            for file in lesson_files()
        ],
    ),
    "terms": (
        _terms,
        lambda: [_fields(one, "id", "names", "meaning", "measure", "see") for one in glossary().values()],
    ),
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which table."""
    parser.add_argument("what", choices=TABLES, help="what to list")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print the table."""
    as_table, as_json = TABLES[arguments.what]
    if arguments.json:
        print_json(as_json())
    else:
        as_table()
    return 0
