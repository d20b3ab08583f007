"""The keys of each kind of file, from the schemas: a table a mapping, each mapping told once."""

from __future__ import annotations

import json
from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from rigmint.library.schemas import KINDS, load_schema

_BRANCHES = ("anyOf", "oneOf", "allOf")
_MOST_EXAMPLE = 60
_LITERAL = "\\"

Node = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class _Table:
    """A mapping to tell: where it stands, and its node with all its own keys."""

    where: str
    node: Node


def list_keys() -> Iterator[str]:
    """Lines of Markdown: a section a kind of file."""
    yield "# Files"
    for kind in KINDS:
        yield from _describe_file(load_schema(kind))


def _describe_file(schema: Node) -> Iterator[str]:
    yield from ("", f"## {schema['title']}", "", str(schema["description"]))
    told: set[int] = set()
    waiting = deque(_open("", schema, schema))
    while waiting:
        table = waiting.popleft()
        if id(table.node) in told:
            continue
        told.add(id(table.node))
        if "properties" in table.node:
            yield from _describe_table(table, schema)
        waiting += _list_inner(table, schema)


def _describe_table(table: _Table, schema: Node) -> Iterator[str]:
    if table.node is not schema:
        named = [table.node["title"]] if "title" in table.node else []
        placed = [f"`{table.where}`"] if table.where else []
        yield from ("", f"### {': '.join([*named, *placed])}")
        yield from ("", table.node["description"]) if "description" in table.node else ()
    required = set(table.node.get("required", ()))
    yield from ("", "| key | meaning | example |", "| --- | --- | --- |")
    for key, inner in table.node["properties"].items():
        node = _resolve(inner, schema)
        says = inner.get("description") or node.get("description", "")
        must = " **Required.**" if key in required else ""
        example = next(iter(inner.get("examples") or node.get("examples") or ()), None)
        yield f"| `{key}` | {_cell(says)}{must} | {_show(example)} |"


def _list_inner(table: _Table, schema: Node) -> Iterator[_Table]:
    """The mappings inside one, through lists, choices and references."""
    for key, inner in table.node.get("properties", {}).items():
        yield from _open(f"{table.where}.{key}".lstrip("."), inner, schema)
    for inner in table.node.get("patternProperties", {}).values():
        yield from _open(f"{table.where}.NAME".lstrip("."), inner, schema)
    if isinstance(table.node.get("additionalProperties"), Mapping):
        yield from _open(f"{table.where}.NAME".lstrip("."), table.node["additionalProperties"], schema)


def _open(where: str, inner: Node, schema: Node) -> Iterator[_Table]:
    node = _resolve(inner, schema)
    if "properties" in node or "patternProperties" in node or isinstance(node.get("additionalProperties"), Mapping):
        yield _Table(where, node)
    if isinstance(node.get("items"), Mapping):
        yield from _open(f"{where}[]", node["items"], schema)
    for branch in _BRANCHES:
        for choice in node.get(branch, ()):
            yield from _open(where, choice, schema)


def _resolve(node: Node, schema: Node) -> Node:
    while "$ref" in node:
        inner = schema
        for step in node["$ref"].removeprefix("#/").split("/"):
            inner = inner[step]
        node = inner
    return node


def _cell(text: str) -> str:
    return text.replace("|", f"{_LITERAL}|").replace("\n", " ")


def _show(example: object) -> str:
    if example is None:
        return ""
    text = example if isinstance(example, str) else json.dumps(example, ensure_ascii=False)
    return f"`{_cell(text)}`" if len(text) <= _MOST_EXAMPLE else ""
