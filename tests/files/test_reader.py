"""The strict reader: what it gives back, and where it says each value stands."""

import re
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from hoofsim.errors import BadInput
from hoofsim.files import reader
from hoofsim.files.reader import read_file, read_text


def test_positions_of_keys_and_values_count_from_one() -> None:
    document = read_text("a: 1\nb:\n  - x\n  - c: 2.5\n", "f.yaml")
    assert document.data == {"a": 1, "b": ["x", {"c": 2.5}]}
    assert document.values[("b", 1, "c")] == (4, 8)
    assert document.keys[("b", 1, "c")] == (4, 5)
    assert document.position(("b", 1, "missing")) == (4, 5)
    assert str(document.error(("b", 0), "wrong")) == "f.yaml:3:5: wrong"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("yes", "yes"),
        ("on", "on"),
        ("No", "No"),
        ("12:30", "12:30"),
        ("2026-11-25", "2026-11-25"),
        ("0x10", "0x10"),
        ("012", 12),
        ("true", True),
        ("False", False),
        ("tRuE", "tRuE"),
        ("~", None),
        ("null", None),
        ("-3", -3),
        ("1e3", 1000.0),
        (".5", 0.5),
        ("'5'", "5"),
        ('"true"', "true"),
    ],
)
def test_plain_words_mean_what_they_look_like(text: str, value: object) -> None:
    assert read_text(f"a: {text}", "f.yaml").data == {"a": value}


def test_a_block_of_text_keeps_its_lines() -> None:
    assert read_text("a: |\n  one\n  two\n", "f.yaml").data == {"a": "one\ntwo\n"}


@pytest.mark.parametrize("name", ["missing.yaml", "."])
def test_what_is_no_file_is_named(tmp_path: Path, name: str) -> None:
    with pytest.raises(BadInput, match=r"no such file|is a folder"):
        read_file(tmp_path / name)


def test_byte_order_mark_is_forgiven(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_bytes(b"\xef\xbb\xbfa: 1\n")
    document = read_file(tmp_path / "a.yaml")
    assert document.data == {"a": 1}
    assert document.keys[("a",)] == (1, 1)


PLAIN = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**14), 10**14)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(codec="utf-8", exclude_categories=["C", "Zl", "Zp"]), max_size=12),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.from_regex(r"[a-z]{2,6}_k", fullmatch=True), inner)
    ),
    max_leaves=12,
)


@given(PLAIN)
def test_reads_back_what_the_library_wrote(value: object) -> None:
    """Whatever a plain value is, the text that the YAML library writes for it reads back as the same value."""
    assert read_text(yaml.safe_dump({"a": value}, allow_unicode=True), "f.yaml").data == {"a": value}


@given(
    st.text(max_size=60)
    | st.from_regex(re.compile(r"[-:{}\[\]&*!|>'\"%@a-c0-9 \n#?,.]{0,60}"), fullmatch=True)
)
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    try:
        complaint = ""
        read_text(text, "f.yaml")
    except BadInput as error:
        complaint = str(error)
    assert complaint == "" or re.match(r"f\.yaml:\d+:\d+: .", complaint)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('a: "\\ud800"', r"U\+D800"),
        ('a: "\\0"', r"U\+0000"),
        ('a: "\\e[31m"', r"U\+001B"),
        ("a: \ud800", "half a letter"),
        ("a: [" + "1," * 250_000 + "]", "more than 200000 values"),
        ('a: "' + "b\n" * 250_000, "the quoted text is never closed"),
        ("[" * 250_000, "nested deeper than 40 levels"),
        ("k" * 60 + ": 1\n" + "k" * 60 + ": 1", r"key 'k{37}\.\.\.' is given twice"),
        ("a: *" + "b" * 60, r"alias '\*b{37}\.\.\.'"),
    ],
    ids=[
        "half a letter",
        "zero",
        "escape",
        "raw half",
        "many",
        "never closed",
        "deep",
        "long key",
        "long alias",
    ],
)
def test_what_no_page_can_hold_and_no_memory_should_is_refused_in_a_short_sentence(
    text: str, words: str
) -> None:
    with pytest.raises(BadInput, match=rf"^f\.yaml:? ?.*{words}") as refused:
        read_text(text, "f.yaml")
    assert len(str(refused.value)) < 200


def test_both_parsers_give_the_same_document(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "a: {b: [1, 2.5, 'x']}\n\"\": >\n  two\n  lines\nc:\nd: [\n]\n"
    quick = read_text(text, "f.yaml")
    monkeypatch.setattr(reader, "_FAST", yaml.SafeLoader)
    assert read_text(text, "f.yaml") == quick
