"""YAML without its traps: what is refused, on which line, and how lines are known."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.errors import InputError
from generator.reading.source import DEEPEST, LARGEST, parse_document

TRAPS = {
    "an anchor": (b"a: 1\nb: &x 2\n", 2, "anchor"),
    "an alias": (b"a: 1\nb: *x\n", 2, "alias"),
    "a bomb": (b"a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", 1, "anchor"),
    "a tag": (b"a: !!python/object/apply:os.system ['x']\n", 1, "tag"),
    "a private tag": (b"a: !thing 1\n", 1, "tag"),
    "a directive": (b"%YAML 1.1\n---\na: 1\n", 2, "directive"),
    "a tag directive": (b"%TAG ! tag:x.example,2000:\n---\na: 1\n", 2, "directive"),
    "too deep": (b"[" * 2000, 1, "20 levels"),
    "too deep in blocks": (b"".join(b"  " * i + b"a:\n" for i in range(40)), 22, "20 levels"),
    "too large": (b"#" * (LARGEST + 1), 0, "256 kB"),
    "two documents": (b"a: 1\n---\nb: 2\n", 2, "second document"),
    "a tab": (b"a:\n\tb: 1\n", 2, "tab"),
    "a tab after spaces": (b"a:\n  \tb: 1\n", 2, "tab"),
    "another encoding": ("a: 1\nb: \xe4\n".encode("latin-1"), 2, "UTF-8"),
    "UTF-16": ("a: 1\n".encode("utf-16"), 1, "UTF-8"),
    "a NUL": (b"a: 1\nb: \0\n", 2, "NUL"),
    "a control character": (b"a: \x07\n", 0, "not valid YAML"),
    "a list as a key": (b"? [a, b]\n: 1\n", 1, "a key must be a word"),
    "an open quote": (b'a: 1\nb: "x\n', 3, "not valid YAML"),
    "a colon too many": (b"a: 1\nb: c: d\n", 2, "not valid YAML"),
    "an open list": (b"a: [1, 2\nb: 3\n", 2, "not valid YAML"),
}


@pytest.mark.parametrize(("raw", "line", "words"), TRAPS.values(), ids=TRAPS)
def test_a_trap_is_refused_on_its_line(raw: bytes, line: int, words: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_document(raw, "f.yaml")
    (problem,) = caught.value.problems
    assert words in problem.message
    assert problem.line == line
    assert "\n" not in problem.message


def test_scalars_stay_as_written() -> None:
    text = "a: 010\nb: 1_000\nc: 0x10\nd: .nan\ne: 2026-11-24\nf: yes\ng: 60 1/4\nh: 5' 0-1/4\"\ni: 1.10\nj: 1e3\n"
    data = parse_document(text.encode(), "f.yaml").data
    assert list(data.values()) == [
        "010",
        "1_000",
        "0x10",
        ".nan",
        "2026-11-24",
        "yes",
        "60 1/4",
        "5' 0-1/4\"",
        "1.10",
        "1e3",
    ]


def test_nothing_is_nothing_only_where_it_is_plain() -> None:
    data = parse_document(b"a:\nb: ~\nc: null\nd: ''\ne: 'null'\n", "f.yaml").data
    assert data == {"a": None, "b": None, "c": None, "d": "", "e": "null"}


def test_every_key_and_item_knows_its_line() -> None:
    document = parse_document(b"\xef\xbb\xbfa: 1\nb:\n  - c: 2\n    d: [x,\n      y]\n", "f.yaml")
    assert document.data == {"a": "1", "b": [{"c": "2", "d": ["x", "y"]}]}
    assert document.lines == {"a": 1, "b": 2, "b.0": 3, "b.0.c": 3, "b.0.d": 4, "b.0.d.0": 4, "b.0.d.1": 5}


def test_all_repeated_keys_are_collected() -> None:
    document = parse_document(b"a: 1\nb: {c: 1, c: 2}\na: 3\na: {x: 1}\n", "f.yaml")
    assert document.data == {"a": "1", "b": {"c": "1"}}
    assert [issue.message for issue in document.issues] == [
        "`c` is given twice, first on line 2; keep one",
        "`a` is given twice, first on line 1; keep one",
        "`a` is given twice, first on line 1; keep one",
    ]


def test_the_deepest_nesting_allowed_is_read() -> None:
    raw = b"[" * DEEPEST + b"]" * DEEPEST
    assert parse_document(raw, "f.yaml").data is not None


@given(st.binary(max_size=200) | st.text("abc:-[]{}&*!%#|>'\"?,\n\t 01/.~", max_size=80).map(str.encode))
def test_any_bytes_are_read_or_refused_in_one_line(raw: bytes) -> None:
    try:
        document = parse_document(raw, "f.yaml")
    except InputError as error:
        assert all(problem.message and "\n" not in problem.message for problem in error.problems)
    else:
        assert all(line >= 1 for line in document.lines.values())
