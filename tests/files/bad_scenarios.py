"""Scenarios that must be refused: a name, the file's content, and words that the refusal must hold."""

GOOD = """\
hoofsim: 1
kind: scenario
title: Heel raised
question: What does a raised heel do?
foot:
  preset: sound
  set:
    body_mass_kg: 450
changes:
  toe_change_mm: 5
load:
  case: standing
sweep:
  control: heel_change_mm
  from: 0
  to: 10
  steps: 3
expect:
  - measure: tendon_tension
    change: falls
    at: 5
  - status: converged
"""


def _with(old: str, new: str) -> bytes:
    """The good scenario with one piece replaced, which must be there."""
    assert old in GOOD, old
    return GOOD.replace(old, new).encode()


BAD: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "no hoofsim file"),
    "only a comment": (b"# nothing\n", "no hoofsim file"),
    "a list": (b"- 1\n- 2\n", "no hoofsim file"),
    "a sentence": (b"heel raised\n", "no hoofsim file"),
    "no header": (_with("hoofsim: 1\n", ""), "hoofsim: 1"),
    "newer version": (_with("hoofsim: 1", "hoofsim: 2"), "newer hoofsim"),
    "version as text": (_with("hoofsim: 1", "hoofsim: '1'"), "expected 1"),
    "version true": (_with("hoofsim: 1", "hoofsim: true"), "expected 1"),
    "no kind": (_with("kind: scenario\n", ""), "'kind' is missing"),
    "unknown kind": (_with("kind: scenario", "kind: scenaro"), "did you mean 'scenario'"),
    "unknown key": (_with("title:", "titel:"), "did you mean 'title'"),
    "missing question": (_with("question: What does a raised heel do?\n", ""), "'question' is missing"),
    "title not text": (_with("title: Heel raised", "title: 12"), "expected text"),
    "title empty": (_with("title: Heel raised", "title: ''"), "title"),
    "title too long": (_with("title: Heel raised", "title: " + "a" * 121), "120"),
    "title null": (_with("title: Heel raised", "title: null"), "expected text, not nothing"),
    "unknown foot": (_with("preset: sound", "preset: sonud"), "did you mean 'sound'"),
    "unknown control": (_with("toe_change_mm: 5", "toe_chnage_mm: 5"), "did you mean 'toe_change_mm'"),
    "control out of range": (_with("body_mass_kg: 450", "body_mass_kg: 5000"), "allowed 100 to 900 kg"),
    "control as text": (_with("body_mass_kg: 450", "body_mass_kg: heavy"), "expected a number"),
    "control as truth": (_with("body_mass_kg: 450", "body_mass_kg: true"), "expected a number"),
    "changes as a list": (
        _with("changes:\n  toe_change_mm: 5", "changes:\n  - toe_change_mm"),
        "keys and values",
    ),
    "unknown load": (_with("case: standing", "case: galloping"), "standing"),
    "stance while standing": (
        _with("case: standing", "case: standing\n  stance_percent: 40"),
        "only walk and trot",
    ),
    "stance beyond the end": (_with("case: standing", "case: walk\n  stance_percent: 140"), "100"),
    "stance as a change": (_with("toe_change_mm: 5", "stance_percent: 5"), "under 'load'"),
    "sweep incomplete": (_with("  steps: 3\n", ""), "'from', 'to' and 'steps'"),
    "sweep both ways": (_with("  steps: 3\n", "  steps: 3\n  values: [1]\n"), "'from', 'to' and 'steps'"),
    "sweep of one step": (_with("steps: 3", "steps: 1"), "2"),
    "sweep of a million steps": (_with("steps: 3", "steps: 1000000"), "1001"),
    "half a step": (_with("steps: 3", "steps: 2.5"), "whole number"),
    "sweep out of range": (_with("to: 10", "to: 100"), "allowed"),
    "swept and changed": (_with("toe_change_mm: 5", "heel_change_mm: 5"), "also swept"),
    "unknown measure": (_with("tendon_tension", "tendon_tenson"), "did you mean 'tendon_tension'"),
    "nothing expected of it": (_with("    change: falls\n", ""), "'value' with 'tolerance'"),
    "two expectations in one": (
        _with("change: falls", "change: falls\n    low: 3"),
        "'value' with 'tolerance'",
    ),
    "value without tolerance": (_with("change: falls", "value: 500"), "'tolerance' is missing"),
    "negative tolerance": (
        _with("change: falls", "value: 500\n    tolerance: -1"),
        "greater than or equal to 0",
    ),
    "unchanged without tolerance": (_with("change: falls", "change: unchanged"), "'tolerance' is missing"),
    "low above high": (_with("change: falls", "low: 5\n    high: 4"), "above high"),
    "unknown direction": (_with("change: falls", "change: fals"), "did you mean 'falls'"),
    "at least of a range": (_with("change: falls", "low: 1\n    at_least: 2"), "'at_least'"),
    "at a value not swept": (_with("at: 5", "at: 4"), "nearest 5"),
    "unknown status": (_with("status: converged", "status: convergd"), "did you mean 'converged'"),
    "status and number": (_with("status: converged", "status: converged\n    value: 3"), "stands alone"),
    "unknown source": (_with("change: falls", "change: falls\n    source: F99"), "unknown source"),
    "expect not a list": (GOOD[: GOOD.index("expect:")].encode() + b"expect: 3\n", "expected a list"),
    "key twice": (_with("title: Heel raised", "title: Heel raised\ntitle: Again"), "given twice"),
    "nested key twice": (_with("preset: sound", "preset: sound\n  preset: pony"), "given twice"),
    "anchor": (_with("preset: sound", "preset: &foot sound"), "anchor"),
    "alias": (_with("preset: sound", "preset: *foot"), "alias"),
    "alias bomb": (b"a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\n", "anchor '&a'"),
    "merge key": (_with("  preset: sound", "  <<: {preset: sound}"), "merge key"),
    "code in a tag": (_with("title: Heel raised", "title: !!python/object/apply:os.getcwd []"), "tag"),
    "own tag": (_with("preset: sound", "preset: !foot sound"), "tag"),
    "two documents": (GOOD.encode() + b"---\n" + GOOD.encode(), "single document"),
    "tab": (_with("  preset: sound", "\tpreset: sound"), "tab"),
    "not a number": (_with("body_mass_kg: 450", "body_mass_kg: .nan"), "not a finite number"),
    "infinite": (_with("body_mass_kg: 450", "body_mass_kg: -.inf"), "not a finite number"),
    "beyond a float": (_with("body_mass_kg: 450", "body_mass_kg: 1e999"), "not a finite number"),
    "endless digits": (_with("body_mass_kg: 450", "body_mass_kg: " + "9" * 400), "digits"),
    "key is a number": (_with("toe_change_mm: 5", "5: 5"), "a key must be a word"),
    "key is a list": (_with("toe_change_mm: 5", "[a, b]: 5"), "a key must be a word"),
    "unclosed bracket": (_with("preset: sound", "preset: [sound"), "bad.yaml:7"),
    "unclosed quote": (_with("preset: sound", "preset: 'sound"), "never closed"),
    "bad indentation": (_with("  preset: sound", " preset: sound"), "indent"),
    "nested too deep": (b"hoofsim: 1\nkind: " + b"[" * 5000, "nested deeper than 40"),
    "not UTF-8": (b"hoofsim: 1\ntitle: \xff\xfe\n", "not UTF-8"),
    "UTF-16": (GOOD.encode("utf-16"), "not UTF-8"),
    "a zero byte": (_with("title: Heel raised", "title: Heel\x00raised"), "U+0000"),
    "too large": (GOOD.encode() + b"#" * 4_000_001, "larger than 4000000 bytes"),
}
