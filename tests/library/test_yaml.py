"""The YAML reader: YAML 1.2 scalars, positions, what is refused, and the bounds of hostile files."""

from __future__ import annotations

import math
import os
import time
from pathlib import Path

import pytest
from ruamel.yaml.error import YAMLError

from rigmint.library import yaml
from rigmint.library.document import Document, Span, Value
from rigmint.library.faults import Fault, FaultList
from rigmint.library.yaml import MAX_BYTES, parse_yaml, read_text, resolve_scalar, uses_fast_parser
from rigmint.rig.place import Position

NAME = "a.rig.yaml"


def parse(text: str) -> tuple[Document | None, list[Fault]]:
    """The document in a text and its faults."""
    faults = FaultList()
    return parse_yaml(text, NAME, faults), faults.found


def parse_tree(text: str) -> Value:
    """The tree of a text without faults."""
    document, faults = parse(text)

    assert faults == []
    assert document is not None
    return document.tree


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("on", "on"),
        ("off", "off"),
        ("yes", "yes"),
        ("No", "No"),
        ("y", "y"),
        ("12:30", "12:30"),
        ("2026-05-02", "2026-05-02"),
        ("1_000", "1_000"),
        ("0b101", "0b101"),
        ("-", "-"),
        (".", "."),
        ("٣", "٣"),
        ("=", "="),
        ("true", True),
        ("True", True),
        ("FALSE", False),
        ("tRue", "tRue"),
        ("null", None),
        ("~", None),
        ("", None),
        ("nUll", "nUll"),
        ("12", 12),
        ("-7", -7),
        ("+7", 7),
        ("0777", 777),
        ("0o17", 15),
        ("0x1F", 31),
        ("-0x1F", "-0x1F"),
        ("9" * 60, 1e60),
        ("1.5", 1.5),
        (".5", 0.5),
        ("2.", 2.0),
        ("1e3", 1000.0),
        ("-1.5E-3", -0.0015),
        ("1.2.3", "1.2.3"),
        (".inf", math.inf),
        ("-.INF", -math.inf),
        ("+.Inf", math.inf),
        ("inf", "inf"),
        ("nan", "nan"),
    ],
)
def test_plain_scalars_by_the_core_schema_of_yaml_1_2(text: str, value: object) -> None:
    found = resolve_scalar(text)

    assert (found, type(found)) == (value, type(value))


@pytest.mark.parametrize("text", [".nan", ".NaN", ".NAN"])
def test_not_a_number(text: str) -> None:
    found = resolve_scalar(text)

    assert isinstance(found, float)
    assert math.isnan(found)


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("a: 'on'", {"a": "on"}),
        ('a: "12"', {"a": "12"}),
        ("a: |\n  one\n  two\n", {"a": "one\ntwo\n"}),
        ("1: x\n2.0: y\ntrue: z", {"1": "x", "2.0": "y", "true": "z"}),
        ("a: !!str 5", {"a": "5"}),
        ("%YAML 1.1\n---\na: on", {"a": "on"}),
        ("- a\n- [b, {c: }]", ["a", ["b", {"c": None}]]),
        ("\ufeffa: b", {"a": "b"}),
        ("a: b\r\nc: d\r\n", {"a": "b", "c": "d"}),
        ("{at: 12:30, a: b:c}", {"at": "12:30", "a": "b:c"}),
        ("<<: {a: b}", {"<<": {"a": "b"}}),
        ("---\n", None),
    ],
)
def test_trees(text: str, tree: Value) -> None:
    assert parse_tree(text) == tree


def test_the_fast_parser_is_in_use() -> None:
    assert uses_fast_parser()


def test_what_the_fast_parser_refuses_of_yaml_1_2_is_read_by_the_pure_one() -> None:
    text = "{a: b:c}"

    with pytest.raises(YAMLError):
        list(yaml._events(text, is_fast=True))
    assert parse_tree(text) == {"a": "b:c"}


@pytest.mark.parametrize("is_fast", [True, False])
def test_both_parsers_give_the_same_document(monkeypatch: pytest.MonkeyPatch, is_fast: bool) -> None:
    text = "a: {b: [1, 'two', 3.50], on: ~}\nc: |\n  text\nd:\n  - e: f\n  - g\n"
    both = parse(text)
    monkeypatch.setattr(yaml, "uses_fast_parser", lambda: is_fast)

    assert parse(text) == both


def test_what_only_the_pure_parser_reads_has_right_positions() -> None:
    document, faults = parse("a: 1\nb: {c: d:e, f: 2}\n")

    assert faults == []
    assert document is not None
    assert document.position(("b", "f")) == Position(2, 13)


def test_every_node_has_its_place() -> None:
    document, _ = parse("kit:\n  a: house/x\n  'b': {part: house/y, set: [1, 2]}\n- z".partition("\n- z")[0])

    assert document is not None
    assert document.marks.keys == {
        ("kit",): Span(0, 3, 1, 1),
        ("kit", "a"): Span(7, 8, 2, 3),
        ("kit", "b"): Span(20, 23, 3, 3),
        ("kit", "b", "part"): Span(26, 30, 3, 9),
        ("kit", "b", "set"): Span(41, 44, 3, 24),
    }
    assert {path: span.position for path, span in document.marks.values.items()} == {
        (): Position(1, 1),
        ("kit",): Position(2, 3),
        ("kit", "a"): Position(2, 6),
        ("kit", "b"): Position(3, 8),
        ("kit", "b", "part"): Position(3, 15),
        ("kit", "b", "set"): Position(3, 29),
        ("kit", "b", "set", 0): Position(3, 30),
        ("kit", "b", "set", 1): Position(3, 33),
    }


def test_a_scalar_keeps_its_source_text() -> None:
    document, _ = parse("firmware: 2.10\nsays: 'x'\nflies: TRUE\n")

    assert document is not None
    assert document.raw(("firmware",), 2.1) == "2.10"
    assert document.raw(("says",), "x") == "x"
    assert document.raw(("flies",), True) == "TRUE"


def test_what_is_absent_stands_where_its_holder_stands() -> None:
    document, _ = parse("kit:\n  a: x\n")

    assert document is not None
    assert document.position(("kit", "zz", "set")) == Position(1, 1)
    assert document.position(("kit", "a", "set")) == Position(2, 3)


ANCHOR = "write it out, or use `like:`"


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("", [(1, 1, "file:wrong-kind", "the file is empty")]),
        (" \n\n", [(1, 1, "file:wrong-kind", "the file is empty")]),
        ("# nothing but words\n", [(1, 1, "file:wrong-kind", "the file is empty")]),
        ("a: 1\nb: 2\na: 3", [(3, 1, "file:duplicate-key", "`a` stands here twice")]),
        ("1: x\n'1': y", [(2, 1, "file:duplicate-key", "`1` stands here twice")]),
        ("x: {a: {b: 1}, a: {b: 2}}", [(1, 16, "file:duplicate-key", "`a` stands here twice")]),
        (
            "a: &x 1\nb: *x",
            [
                (1, 4, "file:anchor", f"`&x` is an anchor: {ANCHOR}"),
                (2, 4, "file:anchor", f"`*x` is an alias: {ANCHOR}"),
            ],
        ),
        ("&k a: 1", [(1, 1, "file:anchor", f"`&k` is an anchor: {ANCHOR}")]),
        ("a: !own x", [(1, 4, "file:not-yaml", "`!own` is a tag, which is not read here: take it out")]),
        ("a: !!binary aGk=", [(1, 4, "file:not-yaml", "`!!binary` is a tag, which is not read here: take it out")]),
        (
            "a: !!python/object:os.system x",
            [(1, 4, "file:not-yaml", "`!!python/object:os.system` is a tag, which is not read here: take it out")],
        ),
        ("a: b\n---\nc: d", [(2, 1, "file:not-yaml", "a file holds one document: take out what follows `---`")]),
        ("? [a]\n: b", [(1, 3, "file:not-yaml", "a key must be one word or number")]),
        ("{{{a: b}: c}: d}", [(1, 2, "file:not-yaml", "a key must be one word or number")]),
        (
            "a: 1\na: *x\nb: !t y\nb: 2",
            [
                (2, 1, "file:duplicate-key", "`a` stands here twice"),
                (2, 4, "file:anchor", f"`*x` is an alias: {ANCHOR}"),
                (3, 4, "file:not-yaml", "`!t` is a tag, which is not read here: take it out"),
                (4, 1, "file:duplicate-key", "`b` stands here twice"),
            ],
        ),
    ],
)
def test_what_is_refused(text: str, faults: list[tuple[int, int, str, str]]) -> None:
    _, found = parse(text)

    assert [(fault.line, fault.column, fault.code, fault.says) for fault in found] == faults


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        ("kit:\n  a: b: c", 2, 7, "a colon too many"),
        ("a: [1, 2\nb: 3", 2, 2, "without its `]`"),
        ("a: 'open", 1, 9, "never closed"),
        ("\ta: b", 1, 1, "a tab where spaces are due"),
        ("a: b\n- c", 2, 1, "not indented as its neighbours"),
        ("a: \x00\x01\x02", 1, 1, "a character that no text has"),
    ],
)
def test_what_is_no_yaml(text: str, line: int, column: int, says: str) -> None:
    document, faults = parse(text)

    assert document is None
    assert [(fault.line, fault.column, fault.code) for fault in faults] == [(line, column, "file:not-yaml")]
    assert faults[0].says.startswith("this is not YAML: ")
    assert says in faults[0].says


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        ("30,000 brackets that nobody closes", "[" * 30_000, "file:too-deep"),
        ("30,000 brackets, closed", "[" * 30_000 + "]" * 30_000, "file:too-deep"),
        ("60,000 braces", "{" * 60_000, "file:too-deep"),
        ("60,000 levels of lists", "- " * 60_000 + "x", "file:too-deep"),
        ("60,000 levels of keys", "? " * 60_000 + "x", "file:too-deep"),
        ("levels of mappings", "".join(f"{' ' * level}a:\n" for level in range(900)), "file:too-deep"),
        ("depth 51", "[" * 51 + "x" + "]" * 51, "file:too-deep"),
        ("50,001 nodes", "[" + "x," * 50_000 + "]", "file:too-many"),
        ("50,001 nodes with keys", "".join(f"k{n}: x\n" for n in range(25_000)), "file:too-many"),
    ],
)
def test_bounds_stop_the_reading_at_once(name: str, text: str, code: str) -> None:
    started = time.process_time()
    document, faults = parse(text)
    took = time.process_time() - started

    assert (name, document, faults[-1].code) == (name, None, code)
    assert took < 1.0


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("depth 50", "[" * 50 + "x" + "]" * 50),
        ("50,000 nodes", "[" + "x," * 49_999 + "]"),
    ],
)
def test_what_is_just_within_the_bounds_is_read(name: str, text: str) -> None:
    _, faults = parse(text)

    assert (name, faults) == (name, [])


def test_a_fault_in_a_large_file_is_found_without_the_fast_parser_in_seconds() -> None:
    started = time.process_time()
    _, faults = parse("".join(f"k{n}: x\n" for n in range(24_000)) + "x: [")
    took = time.process_time() - started

    assert [fault.code for fault in faults] == ["file:not-yaml"]
    assert took < 5.0


def read(path: Path) -> tuple[str | None, list[tuple[int, str, str]]]:
    """The text of a file and its faults."""
    faults = FaultList()
    text = read_text(path, NAME, faults)
    return text, [(fault.line, fault.code, fault.says) for fault in faults.found]


def test_a_mark_of_byte_order_is_left_out(tmp_path: Path) -> None:
    path = tmp_path / NAME
    path.write_bytes(b"\xef\xbb\xbfrig: \xc3\xa9")

    assert read(path) == ("rig: é", [])


def test_a_file_of_2_mib_is_read(tmp_path: Path) -> None:
    path = tmp_path / NAME
    path.write_bytes(b"#" * MAX_BYTES)

    assert read(path) == ("#" * MAX_BYTES, [])


@pytest.mark.parametrize("size", [MAX_BYTES + 1, 3 * 1024 * 1024])
def test_a_larger_file_is_not(tmp_path: Path, size: int) -> None:
    path = tmp_path / NAME
    path.write_bytes(b"#" * size)

    assert read(path) == (None, [(1, "file:too-big", "the file is larger than 2 MiB, the most that is read")])


@pytest.mark.parametrize(
    ("data", "line"),
    [(b"\xff\xfea\x00:\x00", 1), (b"a: b\nc: \xe9\n", 2), (bytes(range(256)), 2), (b"a: \xed\xa0\x80", 1)],
)
def test_what_is_not_utf_8(tmp_path: Path, data: bytes, line: int) -> None:
    path = tmp_path / NAME
    path.write_bytes(data)

    assert read(path) == (None, [(line, "file:not-yaml", "the file is not UTF-8 text")])


def test_a_pipe_is_refused_without_waiting(tmp_path: Path) -> None:
    path = tmp_path / NAME
    os.mkfifo(path)

    assert read(path) == (None, [(1, "file:unreadable", "this is no regular file")])


def test_a_device_is_refused() -> None:
    assert read(Path("/dev/zero")) == (None, [(1, "file:unreadable", "this is no regular file")])


def test_a_folder_is_refused_and_leaves_no_file_open(tmp_path: Path) -> None:
    before = len(os.listdir("/proc/self/fd"))
    found = read(tmp_path)

    assert found == (None, [(1, "file:unreadable", "the file cannot be read: is a directory")])
    assert len(os.listdir("/proc/self/fd")) == before


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    says = "the file cannot be read: no such file or directory"

    assert read(tmp_path / NAME) == (None, [(1, "file:unreadable", says)])


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # The rights of a file do not hold for root, as whom tests may run.
    def refuse(path: Path, _flags: int) -> int:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(os, "open", refuse)

    assert read(tmp_path / NAME) == (None, [(1, "file:unreadable", "the file cannot be read: permission denied")])
