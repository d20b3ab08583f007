"""What the schemas say of a place in a file, which may be half typed: what keys are due, what values, what names."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from rigmint.library.schemas import load_schema

_KEYS_OF = {
    ("kit",): "item",
    ("leads",): "lead",
    ("fitted",): "item",
    ("crew",): "person",
    ("settings",): "setting",
    ("marked",): "place",
    ("metered",): "lead",
    ("setups",): "setup",
    ("setups", "*", "set"): "setting",
    ("setups", "*", "crew"): "person",
    ("setups", "*", "who"): "place",
    ("kit", "*", "set"): "own setting",
    ("requires", "when"): "setting",
    ("requires", "set"): "setting",
}
"""Keys of a rig file that are names, by where they stand."""


@dataclass(frozen=True, slots=True)
class Key:
    """A key that a mapping may have, and what it is for."""

    name: str
    title: str
    says: str


@dataclass(frozen=True, slots=True)
class Place:
    """What is due somewhere. `names`: the kinds of names that a value may be; `words`: the values of a closed list."""

    keys: tuple[Key, ...]
    key_names: str | None
    names: frozenset[str]
    words: tuple[str, ...]
    says: str


@cache
def find_place(kind: str, keys: tuple[str, ...]) -> Place:
    """What is due behind a path of keys, entries of lists left out of it. `kind`: of file, as the schemas are named."""
    root = load_schema(kind)
    found = list(_expand(root, root))
    said = ""
    for key in keys:
        stepped = [inner for schema in found for inner in _step(schema, key)]
        said = next((str(one["description"]) for one in stepped if "description" in one), "")
        found = [one for schema in stepped for one in _expand(schema, root)]
    due = {
        name: Key(name, str(body.get("title", name)), str(body.get("description", "")))
        for schema in found
        for name, body in schema.get("properties", {}).items()
    }
    return Place(
        keys=tuple(due.values()),
        key_names=_find_key_names(keys) if kind == "rig" else None,
        names=frozenset(str(schema["x-name"]) for schema in found if "x-name" in schema),
        words=tuple(dict.fromkeys(str(word) for schema in found for word in _list_words(schema))),
        says=said,
    )


def _find_key_names(keys: Sequence[str]) -> str | None:
    for pattern, name in _KEYS_OF.items():
        if len(pattern) == len(keys) and all(one in ("*", key) for one, key in zip(pattern, keys, strict=True)):
            return name
    return None


def _list_words(schema: Mapping[str, Any]) -> Iterator[object]:
    yield from schema.get("enum", ())
    if "const" in schema:
        yield schema["const"]
    if schema.get("type") == "boolean":
        yield from ("true", "false")


def _expand(schema: Mapping[str, Any], root: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """A schema with its references followed, its alternatives one by one, and the entries of a list for the list."""
    if "$ref" in schema:
        target: Any = root
        for step in str(schema["$ref"]).removeprefix("#/").split("/"):
            target = target[step]
        yield from _expand(target, root)
    for word in ("anyOf", "oneOf", "allOf"):
        for branch in schema.get(word, ()):
            yield from _expand(branch, root)
    if isinstance(schema.get("items"), Mapping):
        yield from _expand(schema["items"], root)
    yield schema


def _step(schema: Mapping[str, Any], key: str) -> Iterator[Mapping[str, Any]]:
    if key in schema.get("properties", {}):
        yield schema["properties"][key]
        return
    for pattern, inner in schema.get("patternProperties", {}).items():
        if re.search(pattern, key):
            yield inner
