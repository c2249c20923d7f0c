"""A grammar of hostile files: good files of every kind, spoiled by seeded strokes that people and machines make.

Each stroke says whether what comes out must be refused (`must`), or may also turn out to be well written (a formula in
a title is a title). Strokes work on plain data, on the text, or on the bytes, in this order, so that they add up.
"""

import copy
import csv
import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any

import yaml

from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.files.reader import read_text
from hoofsim.lessons.progress import Progress, Record
from hoofsim.session.commands import BrushLaminae, ChoosePreset, CutTendon, KeepTrial, SetControl, SetLoad
from hoofsim.session.replay import Deed, replay_text
from hoofsim.session.sandbox_file import as_text
from hoofsim.session.session import Session
from hoofsim.session.store import plain_yaml
from tests.claims.evidence.tables import good_rows, text_of
from tests.hostile.table_strokes import ON_TABLE, ragged

ROOT = Path(__file__).resolve().parent.parent.parent

NASTY: tuple[Any, ...] = (
    None,
    True,
    -1,
    0,
    1e300,
    10**14,
    -0.0,
    "",
    " ",
    "x" * 5000,
    "=1+1",
    "+cmd|' /C calc'!A0",
    "@SUM(A1:A9)",
    "<script>alert(1)</script>",
    "<img src=http://example.org/x onerror=alert(1)>",
    "](javascript:alert(1))",
    "../../../etc/passwd",
    "C:\\Windows\\system32",
    "/dev/zero",
    "{measure:tip_to_frog.__class__}",
    "{measure:" + "x" * 300 + "}",
    "{0.__class__.__mro__}",
    "%s%n",
    "$(rm -rf .)",
    "\u202edrow sdrawkcab",
    "e\u0301" * 50,
    "\U0001f40e",
    "heel_change_mm",
    [],
    [None],
    [[[[[]]]]],
    {},
    {"a": 1},
    {"do": "undo"},
    {"from": []},
    list(range(3000)),
)
"""What may stand in place of any value."""

LITERALS = (".nan", ".inf", "-.inf", "1e999", "9" * 400, "0x7fffffff", "1_000", "1,5", "!!python/name:os.system", "*a",
            "&a 1", '"\\ud800"', '"\\0"', '"\\e[31m"', "'", '"', "[", "{", "]", "- -", "? ", "|2", "%TAG", "@x", "`x`",
            "!<tag:yaml.org,2002:float> 1", "<<", "\t1")  # fmt: skip
"""What may be written in place of a scalar in the text."""


@dataclass(frozen=True)
class Case:
    """One hostile file: kind, ending, bytes, what was done to it, and whether it must be refused."""

    kind: str
    ending: str
    content: bytes
    strokes: tuple[str, ...]
    must: bool


def _sandbox() -> str:
    session = Session()
    for command in (
        ChoosePreset("pony"),
        SetControl("heel_change_mm", 6.5),
        SetLoad("trot", 40),
        BrushLaminae("distal", 60),
        CutTendon(),
        KeepTrial("a note", "it falls", (("palmar_angle", 3.5),)),
    ):
        session.do(command)
    session.undo()
    return as_text(session)


def _replay() -> str:
    deeds = [Deed(SetControl("wedge_deg", 2.5), gesture="drag 1"), Deed(move="undo"), Deed(move="reopen")]
    return replay_text(deeds, "an example")


def _progress() -> str:
    record = Record(kind="predict", title="A forecast", answer="rises", tries=["falls", "rises"], marks=1.0)
    whole = Progress(learner="Ada", lesson="a-lesson", at="guess", records={"guess": record})
    return plain_yaml(whole.model_dump())


def good() -> dict[str, str]:
    """A good file of every kind, as text."""
    experiment = ROOT / "scenarios" / "experiments" / "07_heel_and_laminae.yaml"
    return {
        "scenario": (ROOT / "scenarios" / "wedge_at_trot.yaml").read_text(encoding="utf-8"),
        "experiment": experiment.read_text(encoding="utf-8"),
        "lesson": (ROOT / "assets" / "starter_lesson.yaml").read_text(encoding="utf-8"),
        "progress": _progress(),
        "sandbox": _sandbox(),
        "replay": _replay(),
    }


GOOD = good()
DATA = {kind: read_text(text, kind).data for kind, text in GOOD.items()}
TABLE = {name: good_rows(name, 2) for name in ACCOUNTS}


# Where a file may use names of its own: feet, steps with a record, measures of another version.
FREE_NAMES = (
    ("feet",),
    ("records",),
    ("records", "guess", "controls"),
    ("records", "guess", "found"),
    ("own",),
)


# -- strokes on plain data -------------------------------------------------------------------------------------------


def _places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(found for key, child in inner for found in _places(child, (*path, key)))]


def _parent(data: Any, path: tuple[Any, ...]) -> Any:
    for part in path[:-1]:
        data = data[part]
    return data


def _replace(data: Any, chance: Random) -> bool:
    path = chance.choice(_places(data)[1:])
    _parent(data, path)[path[-1]] = copy.deepcopy(chance.choice(NASTY))
    return False


def _take_away(data: Any, chance: Random) -> bool:
    path = chance.choice(_places(data)[1:])
    del _parent(data, path)[path[-1]]
    return False


def _unknown_key(data: Any, chance: Random) -> bool:
    path = chance.choice([path for path in _places(data) if isinstance(_at(data, path), dict)])
    key = chance.choice(
        ("__class__", "heel_chnage_mm", "=1+1", "<b>", "x" * 3000, "../up", "True", "hoofsim ")
    )
    _at(data, path)[key] = 1
    return path not in FREE_NAMES and path[-1:] != ("results",)


def _misspell(data: Any, chance: Random) -> bool:
    path = chance.choice(_places(data)[1:])
    parent, key = _parent(data, path), path[-1]
    if isinstance(key, str) and len(key) > 3:
        parent[key[0] + key[2] + key[1] + key[3:] + "x"] = parent.pop(key)
        return path[:-1] not in FREE_NAMES and path[-2:-1] != ("results",)
    return _replace(data, chance)


def _repeat(data: Any, chance: Random) -> bool:
    lists = [path for path in _places(data) if isinstance(_at(data, path), list) and _at(data, path)]
    if not lists:
        return _replace(data, chance)
    chosen = _at(data, chance.choice(lists))
    chosen.extend(copy.deepcopy(chosen[:1]) * chance.choice((1, 60, 2000)))
    return False


def _at(data: Any, path: tuple[Any, ...]) -> Any:
    for part in path:
        data = data[part]
    return data


ON_DATA: tuple[Callable[[Any, Random], bool], ...] = (
    _replace,
    _replace,
    _replace,
    _take_away,
    _unknown_key,
    _misspell,
    _repeat,
)


# -- strokes on the text ---------------------------------------------------------------------------------------------


def _literal(text: str, chance: Random) -> tuple[str, bool]:
    lines = text.splitlines()
    having = [at for at, line in enumerate(lines) if ": " in line and not line.lstrip().startswith("#")]
    at = chance.choice(having)
    lines[at] = f"{lines[at].split(': ', 1)[0]}: {chance.choice(LITERALS)}"
    return "\n".join(lines) + "\n", False


def _bomb(text: str, chance: Random) -> tuple[str, bool]:
    levels = "".join(f"l{n}: &l{n} [{', '.join(f'*l{n - 1}' for _ in range(9))}]\n" for n in range(1, 30))
    return f"l0: &l0 [x]\n{levels}{text}", True


def _deep(text: str, chance: Random) -> tuple[str, bool]:
    depth = chance.choice((41, 1000, 100_000))
    opened = chance.choice(("[", "{a: ", "- "))
    return f"{text}deep: {opened * depth}\n" if opened != "- " else f"{text}deep:\n{opened * depth}x\n", True


def _twice(text: str, chance: Random) -> tuple[str, bool]:
    return (
        f"{text}{chance.choice([line for line in text.splitlines() if line and line[0].isalpha()])}\n",
        True,
    )


def _second(text: str, chance: Random) -> tuple[str, bool]:
    return f"{text}---\n{text}", True


def _merge(text: str, chance: Random) -> tuple[str, bool]:
    return f"{text}<<: {{a: 1}}\n", True


def _tab(text: str, chance: Random) -> tuple[str, bool]:
    at = chance.randrange(len(text))
    return f"{text[:at]}\t{text[at:]}", True


def _other_version(text: str, chance: Random) -> tuple[str, bool]:
    version = chance.choice(("0", "2", "99999999999", "-1", "1.5", "'1'", "true", "null", "[1]", "1e3"))
    return text.replace("hoofsim: 1", f"hoofsim: {version}", 1), True


def _other_kind(text: str, chance: Random) -> tuple[str, bool]:
    kind = chance.choice(("scenery", "'='", "[scenario]", "null", "../kind", "x" * 3000))
    return "\n".join(
        f"kind: {kind}" if line.startswith("kind: ") else line for line in text.splitlines()
    ) + "\n", True


def _long_line(text: str, chance: Random) -> tuple[str, bool]:
    size = chance.choice((10_000, 4_100_000))
    return f"{text}more: {'x' * size}\n", True


def _many_keys(text: str, chance: Random) -> tuple[str, bool]:
    return text + "".join(f"key{number}: {number}\n" for number in range(chance.choice((100, 20_000)))), True


ON_TEXT: tuple[Callable[[str, Random], tuple[str, bool]], ...] = (
    _literal, _literal, _literal, _bomb, _deep, _twice, _second, _merge, _tab, _other_version, _other_kind, _long_line,
    _many_keys,
)  # fmt: skip


# -- strokes on the bytes --------------------------------------------------------------------------------------------


def _truncate(content: bytes, chance: Random) -> tuple[bytes, bool]:
    return content[: chance.randrange(len(content))], False


def _flip(content: bytes, chance: Random) -> tuple[bytes, bool]:
    spoiled = bytearray(content)
    for _ in range(chance.choice((1, 3, 30))):
        spoiled[chance.randrange(len(spoiled))] = chance.randrange(256)
    return bytes(spoiled), False


def _random_bytes(content: bytes, chance: Random) -> tuple[bytes, bool]:
    return chance.randbytes(chance.choice((1, 100, 10_000))), True


def _utf16(content: bytes, chance: Random) -> tuple[bytes, bool]:
    return content.decode("utf-8", "replace").encode(chance.choice(("utf-16", "utf-16-le", "utf-32"))), True


def _latin1(content: bytes, chance: Random) -> tuple[bytes, bool]:
    return content + "# Zoë\n".encode("latin-1"), True


def _mark_and_windows_lines(content: bytes, chance: Random) -> tuple[bytes, bool]:
    return b"\xef\xbb\xbf" + content.replace(b"\n", chance.choice((b"\r\n", b"\r"))), False


def _zero(content: bytes, chance: Random) -> tuple[bytes, bool]:
    at = chance.randrange(len(content))
    return content[:at] + b"\0" + content[at:], True


def _empty(content: bytes, chance: Random) -> tuple[bytes, bool]:
    return chance.choice(
        (b"", b"\n", b"\xef\xbb\xbf", b"---\n", b"null\n", b"[]\n", b"x\n", b"# only a remark\n")
    ), True


ON_BYTES: tuple[Callable[[bytes, Random], tuple[bytes, bool]], ...] = (
    _truncate, _flip, _random_bytes, _utf16, _latin1, _mark_and_windows_lines, _zero, _empty,
)  # fmt: skip


def _table_case(chance: Random) -> Case:
    rows = copy.deepcopy(TABLE[chance.choice(list(TABLE))])
    stroke = chance.choice(ON_TABLE)
    must = stroke(rows, chance)
    text, strokes = text_of(rows), [stroke.__name__]
    if stroke is ragged:
        text = text.replace('""', '"')
    content = text.encode("utf-8")
    if chance.random() < 0.25:
        content, spoiled, name = _spoiled(content, chance)
        strokes.append(name)
        must = (must or spoiled) and name not in ("_truncate", "_flip", "_mark_and_windows_lines")
    elif chance.random() < 0.1:
        semicolons = io.StringIO()
        csv.writer(semicolons, delimiter=";").writerows(csv.reader(io.StringIO(text)))
        content, must = semicolons.getvalue().encode(), True
        strokes.append("semicolons")
    elif chance.random() < 0.05:
        content, must = content + b"x" * 5_100_000, True
        strokes.append("long line")
    return Case("evidence", ".csv", content, tuple(strokes), must)


def _spoiled(content: bytes, chance: Random) -> tuple[bytes, bool, str]:
    stroke = chance.choice(ON_BYTES)
    spoiled, must = stroke(content, chance)
    return spoiled, must, stroke.__name__


def one(chance: Random) -> Case:
    """One hostile file."""
    kind = chance.choice((*GOOD, "evidence"))
    if kind == "evidence":
        return _table_case(chance)
    text, strokes, must, sure = GOOD[kind], list[str](), False, False
    level = chance.randrange(10)
    if level < 5:
        data = copy.deepcopy(DATA[kind])
        for _ in range(chance.choice((1, 1, 1, 2, 4))):
            stroke = chance.choice(ON_DATA)
            sure = stroke(data, chance)
            strokes.append(stroke.__name__)
        text = yaml.safe_dump(data, sort_keys=False, allow_unicode=True)
        must = sure and len(strokes) == 1
    elif level < 8:
        on_text = chance.choice(ON_TEXT)
        text, must = on_text(text, chance)
        strokes.append(on_text.__name__)
    content = text.encode("utf-8", "surrogatepass")
    if level >= 8:
        content, must, name = _spoiled(content, chance)
        strokes.append(name)
    return Case(kind, ".yaml", content, tuple(strokes), must)


def cases(count: int, seed: int) -> Iterator[Case]:
    """So many hostile files of one seed, each made when asked for (some are large)."""
    chance = Random(seed)
    return (one(chance) for _ in range(count))
