"""Edits of a file's text: what changes, what stays, and what is refused."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rigmint.library.document import Document, Value
from rigmint.library.faults import FaultList
from rigmint.library.text_edits import TextEdit, apply_text_edits, plan_text_edits, reads_as
from rigmint.library.tree_edits import Edit, EditRefused, apply_edits
from rigmint.library.yaml import parse_yaml
from tests.library.layouts import KEYS, TREES, write_files


def read(text: str) -> Document:
    """The document of a text without faults."""
    faults = FaultList()
    document = parse_yaml(text, "x.rig.yaml", faults)
    assert document is not None
    assert faults.found == []
    return document


def edit(text: str, *edits: Edit) -> str:
    """The text with the edits made."""
    return apply_text_edits(text, plan_text_edits(read(text), edits))


def put(*path: str | int, value: Any) -> Edit:
    """Set a value."""
    return Edit("set", path, value)


def drop(*path: str | int) -> Edit:
    """Take something out."""
    return Edit("remove", path)


def add(*path: str | int, value: Any) -> Edit:
    """Append to a list."""
    return Edit("add", path, value)


@pytest.mark.parametrize(
    ("text", "edits", "after"),
    [
        # a scalar in its own manner
        ("a: on  # why\n", [put("a", value="off")], "a: off  # why\n"),
        ("a: 'on'\n", [put("a", value="it's")], "a: 'it''s'\n"),
        ('a: "on"\n', [put("a", value='"')], 'a: "\\""\n'),
        ("a: 24\n", [put("a", value="25")], "a: 25\n"),
        ("a: 24.5\n", [put("a", value="25.5")], "a: 25.5\n"),
        ("a: on\n", [put("a", value="25")], "a: 25\n"),
        ("a: on\n", [put("a", value="2.10")], 'a: "2.10"\n'),
        ("a: on\n", [put("a", value="true")], 'a: "true"\n'),
        ("a: on\n", [put("a", value="~")], 'a: "~"\n'),
        ("a: on\n", [put("a", value="")], 'a: ""\n'),
        ("a: on\n", [put("a", value="x: y")], 'a: "x: y"\n'),
        ("a: on\n", [put("a", value="x #y")], 'a: "x #y"\n'),
        ("a: on\n", [put("a", value="two\nlines")], 'a: "two\\u000alines"\n'),
        ("a: two\n  lines\nb: 1\n", [put("a", value="one")], "a: one\nb: 1\n"),
        ("a: |\n  block\n  text\n\nb: 1\n", [put("a", value="one")], "a: one\n\nb: 1\n"),
        ("{a: on, b: 1}\n", [put("a", value="x, y")], '{a: "x, y", b: 1}\n'),
        # into mappings in brackets
        ("a: {b: 1}  # why\n", [put("a", "c", value="x")], "a: {b: 1, c: x}  # why\n"),
        ("a: { b: 1 }\n", [put("a", "c", value="x")], "a: { b: 1, c: x }\n"),
        ("a: {}\n", [put("a", "c", value="x")], "a: {c: x}\n"),
        ("a: {b: 1}\n", [put("a", "P5:b", value="x")], 'a: {b: 1, "P5:b": x}\n'),
        ('{"a": {"b": "c"}}\n', [put("a", "d", value="x")], '{"a": {"b": "c", "d": "x"}}\n'),
        ("a: {\n  b: 1  # why\n}\n", [put("a", "c", value="x")], "a: {\n  b: 1,  # why\n  c: x\n}\n"),
        ("a: {\n  b: 1,  # why\n}\n", [put("a", "c", value="x")], "a: {\n  b: 1,  # why\n  c: x,\n}\n"),
        ("a: {x: 0,\n    b: 1}\n", [put("a", "c", value="x")], "a: {x: 0,\n    b: 1,\n    c: x}\n"),
        # into block mappings
        ("a:\n  b: 1  # why\n# end\n", [put("a", "c", value="x")], "a:\n  b: 1  # why\n  c: x\n# end\n"),
        ("a:\n    b: 1\n", [put("a", "c", "d", "e", value="x")], "a:\n    b: 1\n    c:\n        d: {e: x}\n"),
        ("a:\n  b: |\n    text\n\nc: 1\n", [put("a", "d", value="x")], "a:\n  b: |\n    text\n  d: x\n\nc: 1\n"),
        ("a: 1", [put("b", value="x")], "a: 1\nb: x"),
        ("a: 1\r\nb:\r\n  c: 2\r\n", [put("b", "d", value="x")], "a: 1\r\nb:\r\n  c: 2\r\n  d: x\r\n"),
        ("- a: 1\n  b: 2\n", [put(0, "c", value="x")], "- a: 1\n  b: 2\n  c: x\n"),
        # parents that are missing or empty
        ("a: 1\n", [put("settings", "head.mode", value="x")], "a: 1\nsettings: {head.mode: x}\n"),
        ("a: 1\n", [put("setups", "s", "set", "m", value="x")], "a: 1\nsetups:\n  s:\n    set: {m: x}\n"),
        ("a:\nb: 1\n", [put("a", "c", value="x")], "a: {c: x}\nb: 1\n"),
        ("a:  # why\nb: 1\n", [put("a", "c", "d", value="x")], "a:  # why\n  c: {d: x}\nb: 1\n"),
        ("a: null\n", [put("a", "c", value="x")], "a: {c: x}\n"),
        ("a: {b: , c: 1}\n", [put("a", "b", "d", value="x")], "a: {b: {d: x} , c: 1}\n"),
        # out of mappings
        ("a: {b: 1, c: 2, d: 3}\n", [drop("a", "b")], "a: {c: 2, d: 3}\n"),
        ("a: {b: 1, c: 2, d: 3}\n", [drop("a", "c")], "a: {b: 1, d: 3}\n"),
        ("a: {b: 1, c: 2, d: 3}\n", [drop("a", "d")], "a: {b: 1, c: 2}\n"),
        ("a: {b: 1, c: 2, d: 3}\n", [drop("a", "d"), drop("a", "b")], "a: {c: 2}\n"),
        ("a: {b: 1}  # why\n", [drop("a", "b")], "a: {}  # why\n"),
        ("a: {b: 1, c: 2}\n", [drop("a", "c"), put("a", "d", value="x")], "a: {b: 1, d: x}\n"),
        ("a: {b: 1}\n", [drop("a", "b"), put("a", "d", value="x")], "a: {d: x}\n"),
        ("a: {b: 1, # one\n    c: 2, # two\n    d: 3}\n", [drop("a", "c")], "a: {b: 1, # one\n    d: 3}\n"),
        ("a:\n  b: 1  # why\n  # of c\n  c: 2\n", [drop("a", "b")], "a:\n  # of c\n  c: 2\n"),
        ("a:\n  b: 1\n  c:\n    d: 2\n    e: 3\nf: 4\n", [drop("a", "c")], "a:\n  b: 1\nf: 4\n"),
        ("a:  # why\n  b: 1\nf: 4\n", [drop("a", "b")], "a: {}  # why\nf: 4\n"),
        ("a:\n  b: 1\n  c: 2", [drop("a", "c")], "a:\n  b: 1"),
        ("a:\n  b: 1", [drop("a", "b"), put("a", "c", value="x")], "a:\n  c: x"),
        ("- a: 1\n  b: 2\n", [drop(0, "a")], "- b: 2\n"),
        # lists
        ("a: [x, y]\n", [add("a", value="z")], "a: [x, y, z]\n"),
        ("a: ['x']\n", [add("a", value="z")], "a: ['x', 'z']\n"),
        ("a: []\n", [add("a", value="z")], "a: [z]\n"),
        ("a: x\n", [add("a", value="z")], "a: [x, z]\n"),
        ("a: 1\n", [add("b", value="z")], "a: 1\nb: [z]\n"),
        ("a: 1\n", [add("b", value={"c": "x"})], "a: 1\nb:\n  - {c: x}\n"),
        ("a:\n  - x  # why\nb: 1\n", [add("a", value="z")], "a:\n  - x  # why\n  - z\nb: 1\n"),
        ("a:\n- x\nb: 1\n", [add("a", value="z")], "a:\n- x\n- z\nb: 1\n"),
        ("a: [x, y, z]\n", [drop("a", 1)], "a: [x, z]\n"),
        ("a: [x, y, z]\n", [drop("a", 0), drop("a", 2)], "a: [y]\n"),
        ("a: [x]\n", [drop("a", 0)], "a: []\n"),
        ("a:\n  - x\n  - y  # why\n  - z\n", [drop("a", 1)], "a:\n  - x\n  - z\n"),
        ("a:\n  - x\nb: 1\n", [drop("a", 0)], "a: []\nb: 1\n"),
        ("a:\n  - {b: 1}\n  - {b: 2}\n", [put("a", 1, "b", value="x")], "a:\n  - {b: 1}\n  - {b: x}\n"),
        # another kind of value
        ("k:\n  s: generic/x  # why\n", [put("k", "s", value={"part": "generic/x"})], "k:\n  s: {part: generic/x}  # why\n"),
        ("a:\n  b: 1\n  c: 2\nd: 3\n", [put("a", value="x > y")], "a: x > y\nd: 3\n"),
        # what goes before and behind
        ("%YAML 1.2\n---\na: 1\n...\n", [put("b", value="x")], "%YAML 1.2\n---\na: 1\nb: x\n...\n"),
    ],
)  # fmt: skip
def test_what_an_edit_writes(text: str, edits: list[Edit], after: str) -> None:
    assert edit(text, *edits) == after


@pytest.mark.parametrize(
    ("text", "edits", "says"),
    [
        ("a: 1\n", [put("a", value="x"), put("a", value="y")], "two changes overlap at a"),
        ("a: {b: 1}\n", [put("a", "b", value="x"), drop("a")], "two changes overlap at a"),
        ("a: 1\n", [drop("b")], "b is not there"),
        ("a: {b: 1}\n", [add("a", value="x")], "a is no list"),
        ("a: x\n", [put("a", "b", value="x")], "nothing can stand below a"),
        ("a:\n  b: 1  # why\n  c: 2\n", [put("a", value="x")], "comments inside a, which would be lost"),
        ("a:\n  - - x\n    - y\n", [drop("a", 0, 0)], "a > 0 is laid out in a way that is left alone"),
        ("? a\n: 1\nb: 2\n", [drop("a")], "left alone|cannot be written safely|could not be read"),
        ("a: 1\n", [put("a", value="\ud800")], "half a letter"),
    ],
)
def test_what_is_refused(text: str, edits: list[Edit], says: str) -> None:
    with pytest.raises(EditRefused, match=says):
        edit(text, *edits)


def test_where_a_replacement_stands() -> None:
    text = "a: 1\r\nbé: {c: on}\r\n"

    assert plan_text_edits(read(text), [put("bé", "c", value="off")]) == (TextEdit(14, 16, "off", 2, 9, 2, 11),)


def find_paths(value: Value, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Every path of a tree but the root."""
    inner: list[tuple[str | int, Value]] = []
    if isinstance(value, dict):
        inner = list(value.items())
    elif isinstance(value, list):
        inner = list(enumerate(value))
    return [deeper for key, item in inner for deeper in ((*path, key), *find_paths(item, (*path, key)))]


def look_up(value: Value, path: tuple[str | int, ...]) -> Value:
    """What stands at a path of a tree."""
    for key in path:
        if isinstance(value, dict):
            value = value[str(key)]
        elif isinstance(value, list) and isinstance(key, int):
            value = value[key]
    return value


@st.composite
def choose_edits(draw: st.DrawFn) -> tuple[str, list[Edit]]:
    """A text and edits of what is in it, or may be put into it."""
    tree, text = draw(write_files())
    paths = find_paths(tree)
    edits = []
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from(paths))
        held = look_up(tree, path)
        do = draw(st.sampled_from(["set", "remove", "add"]))
        if do == "set" and isinstance(held, dict) and draw(st.booleans()):
            edits.append(Edit("set", (*path, draw(KEYS)), draw(TREES)))
        elif do == "add" and isinstance(held, list):
            edits.append(Edit("add", path, draw(TREES)))
        elif do == "remove":
            edits.append(Edit("remove", path))
        else:
            edits.append(Edit("set", path, draw(TREES)))
    return text, edits


COMMENT = re.compile(r"# (?:note \d+|first line|last line)")


@settings(max_examples=600, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(choose_edits())
def test_whatever_is_written_holds_what_was_asked_for(chosen: tuple[str, list[Edit]]) -> None:
    """Each edit is written so, or refused; lines that no edit touches stay to the byte; nothing is done twice."""
    text, edits = chosen
    document = read(text)
    try:
        planned = plan_text_edits(document, edits)
    except EditRefused:
        return
    after = apply_text_edits(text, planned)

    assert reads_as(read(after), apply_edits(document.tree, edits))
    starts = [one.start_offset for one in planned]
    assert starts == sorted(starts)
    assert all(one.end_offset <= two.start_offset for one, two in pairwise(planned))
    if "\r\n" in text:
        assert "\n" not in after.replace("\r\n", "")
    wanted = [one for one in edits if one.do == "set"]
    if len(wanted) == len(edits):
        assert plan_text_edits(read(after), wanted) == ()


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(write_files(), st.data())
def test_one_more_entry_is_seldom_refused_and_keeps_every_comment(
    written: tuple[dict[str, Value], str], data: st.DataObject
) -> None:
    tree, text = written
    mappings = [(), *(path for path in find_paths(tree) if isinstance(look_up(tree, path), dict))]
    path = data.draw(st.sampled_from(mappings))
    after = edit(text, Edit("set", (*path, "new_key"), "on"))

    assert COMMENT.findall(after) == COMMENT.findall(text)
    assert len(after) - len(text) <= 80
