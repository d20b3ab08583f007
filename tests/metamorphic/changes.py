"""Changes of a rig's tree that change nothing about the rig: names, order, units, where a lead is described."""

from __future__ import annotations

import copy
import random
import re
from collections.abc import Mapping
from typing import Any

Tree = dict[str, Any]
MARK = "zz_"
_PLAIN_PLACES = frozenset(
    {"crew", "out", "off", "stays_up", "timecode", "sync", "tally", "picture", "range", "marked", "fitted", "at"}
)
"""Keys below which a word alone may be an item."""
_TEXTS = frozenset({"says", "why", "notes", "house", "part", "lead", "by", "rig", "job"})
_UNITS = {"cm": ("mm", 10.0), "m": ("cm", 100.0), "min": ("s", 60.0), "h": ("min", 60.0), "kg": ("g", 1000.0)}
_QUANTITY = re.compile(r"([0-9]+(?:\.[0-9]+)?) (cm|m|min|h|kg)")


def rename_items(tree: Tree) -> Tree:
    """Every item under another name, which sorts as the old one does among items."""
    items = frozenset(tree["kit"])
    renamed = {key: _rename(value, items, key in _PLAIN_PLACES, key) for key, value in tree.items()}
    renamed["kit"] = {MARK + name: value for name, value in tree["kit"].items()}
    return renamed


def _rename(value: Any, items: frozenset[str], is_plain: bool, key: str) -> Any:
    if key in _TEXTS:
        return value
    if isinstance(value, dict):
        return {
            _rename_word(name, items, is_plain): _rename(
                inner, items, (is_plain and key != "fitted") or name in _PLAIN_PLACES, name
            )
            for name, inner in value.items()
        }
    if isinstance(value, list):
        return [_rename(inner, items, is_plain, key) for inner in value]
    if isinstance(value, str):
        return " > ".join(_rename_word(word, items, is_plain) for word in value.split(" > "))
    return value


def _rename_word(word: str, items: frozenset[str], is_plain: bool) -> str:
    first, dot, _ = word.partition(".")
    return MARK + word if first in items and (dot or is_plain) else word


def reorder_keys(tree: Tree, seed: int) -> Tree:
    """Every mapping in another order."""
    chance = random.Random(seed)

    def reorder(value: Any) -> Any:
        if isinstance(value, dict):
            names = list(value)
            chance.shuffle(names)
            return {name: reorder(value[name]) for name in names}
        return [reorder(inner) for inner in value] if isinstance(value, list) else value

    reordered: Tree = reorder(tree)
    return reordered


def change_units(tree: Tree) -> Tree:
    """Lengths, times and masses in a smaller unit."""

    def change(value: Any, key: str) -> Any:
        if isinstance(value, dict):
            return {name: change(inner, name) for name, inner in value.items()}
        if isinstance(value, list):
            return [change(inner, key) for inner in value]
        found = _QUANTITY.fullmatch(value) if isinstance(value, str) and key not in _TEXTS - {"lead"} else None
        if found is None:
            return value
        unit, factor = _UNITS[found[2]]
        return f"{float(found[1]) * factor:.12g} {unit}"

    changed: Tree = change(tree, "")
    return changed


def add_spare(tree: Tree) -> Tree:
    """A motor in the case, which nothing is plugged into."""
    return {**tree, "also": [*tree.get("also", ()), {"part": "generic/lens-motor", "count": 1, "why": "spare"}]}


def duplicate_setup(tree: Tree) -> Tree:
    """The last setup once more, under another name."""
    twice = copy.deepcopy(tree)
    name = list(twice["setups"])[-1]
    twice["setups"][MARK + name] = copy.deepcopy(twice["setups"][name])

    def add(value: Any, key: str) -> None:
        if isinstance(value, dict):
            for inner_key, inner in value.items():
                add(inner, inner_key)
        elif isinstance(value, list):
            if key == "in" and name in value:
                value.append(MARK + name)
            for inner in value:
                add(inner, key)

    add(twice["kit"], "")
    add(twice.get("leads", {}), "")
    return twice


def split_leads(tree: Tree, prefix: str) -> tuple[Tree, list[Mapping[str, Any]]]:
    """Leads that are described on the spot as parts of their own; the rig that names them, and the parts."""
    parts = []
    leads = copy.deepcopy(tree.get("leads") or {})
    for label, lead in leads.items():
        if isinstance(lead, dict) and isinstance(lead.get("lead"), dict) and "part" not in lead:
            name = f"{prefix}/{re.sub('[^a-z0-9-]', '-', str(label).lower())}-{len(parts)}"
            parts.append({"rigmint_part": 1, "id": name, "kind": "lead", **lead.pop("lead")})
            lead["part"] = name
    return {**tree, "leads": leads}, parts
