"""Edits of a file's tree: set a value at a path, remove it, append to a list; and what they come to in the file itself
where part of the tree is inherited by `like:`."""

from __future__ import annotations

import copy
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from rigmint.library.document import Document, Value
from rigmint.library.like import list_inherited, merge_trees

Key: TypeAlias = str | int


@dataclass(frozen=True, slots=True)
class Edit:
    """`set` writes a value at a path, making what is missing on the way; `remove` takes it out; `add` appends."""

    do: Literal["set", "remove", "add"]
    path: tuple[Key, ...]
    value: Any = None


class EditRefused(ValueError):
    """An edit that does not fit the file; its message is for a person."""


def apply_edits(tree: Value, edits: Sequence[Edit]) -> Value:
    """A copy of a tree with the edits made. Raises EditRefused where one does not fit, or two of them overlap."""
    _refuse_overlaps(edits)
    changed = copy.deepcopy(tree)
    for edit in _last_entries_first(edits):
        _apply(changed, edit)
    return changed


def show_edit_path(path: Sequence[Key]) -> str:
    """A path as a person reads it: `setups > two_up > set`."""
    return " > ".join(str(key) for key in path)


def override_tree(document: Document, own: Value, wanted: Value) -> Value:
    """What the file itself must hold so that, laid over what it starts from, it gives `wanted`; `own` is what it holds
    now. Without a base that is `wanted`. Raises EditRefused where no override gives it."""
    if document.base is None:
        return wanted
    if not isinstance(own, dict) or not isinstance(wanted, dict):
        msg = "the file is no mapping"
        raise EditRefused(msg)
    inherited = list_inherited(document.base)
    kept = {key: value for key, value in own.items() if key != "like"}
    found = _override(inherited, kept, wanted)
    if not is_same(merge_trees(inherited, found), wanted):
        msg = "what the rig starts from by `like:` cannot be overridden so: change it there"
        raise EditRefused(msg)
    return {key: own[key] if key == "like" else found[key] for key in (*own, *found) if key == "like" or key in found}


def is_same(first: Value, second: Value) -> bool:
    """Equal in value and in kind: 1, 1.0 and true are three values."""
    if isinstance(first, dict) and isinstance(second, dict):
        return first.keys() == second.keys() and all(is_same(value, second[key]) for key, value in first.items())
    if isinstance(first, list) and isinstance(second, list):
        return len(first) == len(second) and all(map(is_same, first, second))
    return type(first) is type(second) and first == second


def _refuse_overlaps(edits: Sequence[Edit]) -> None:
    """Two edits overlap where one path holds the other. Several entries may be added to one list."""
    for index, one in enumerate(edits):
        for other in edits[index + 1 :]:
            length = min(len(one.path), len(other.path))
            if one.path[:length] == other.path[:length] and not (one.do == other.do == "add"):
                msg = f"two changes overlap at {show_edit_path(one.path[:length])}"
                raise EditRefused(msg)


def _last_entries_first(edits: Sequence[Edit]) -> list[Edit]:
    """Removals of entries of lists from the back, so that the other indices still hold; the rest keeps its order."""
    by_index = [edit for edit in edits if edit.do == "remove" and isinstance(edit.path[-1], int)]
    rest = [edit for edit in edits if edit not in by_index]
    return [*rest, *sorted(by_index, key=lambda edit: edit.path[-1], reverse=True)]


def _apply(tree: Value, edit: Edit) -> None:
    parent = _descend(tree, edit.path[:-1], make=edit.do != "remove")
    last = edit.path[-1]
    if isinstance(parent, list) and isinstance(last, int) and last < len(parent):
        _apply_to_entry(parent, last, edit)
        return
    if not isinstance(parent, dict):
        msg = f"nothing can stand below {show_edit_path(edit.path[:-1])}"
        raise EditRefused(msg)
    key = str(last)
    if edit.do == "set":
        parent[key] = edit.value
    elif edit.do == "add":
        parent[key] = _with_entry(parent.get(key), edit)
    elif key in parent:
        del parent[key]
    else:
        msg = f"{show_edit_path(edit.path)} is not there"
        raise EditRefused(msg)


def _apply_to_entry(entries: list[Value], index: int, edit: Edit) -> None:
    if edit.do == "set":
        entries[index] = edit.value
    elif edit.do == "add":
        entries[index] = _with_entry(entries[index], edit)
    else:
        del entries[index]


def _with_entry(held: Value, edit: Edit) -> list[Value]:
    """A list with the entry appended; a single word becomes a list first, as the format takes either."""
    if held is None:
        return [edit.value]
    if isinstance(held, str) and isinstance(edit.value, str):
        return [held, edit.value]
    if not isinstance(held, list):
        msg = f"{show_edit_path(edit.path)} is no list"
        raise EditRefused(msg)
    return [*held, edit.value]


def _descend(tree: Value, path: Sequence[Key], *, make: bool) -> Value:
    here = tree
    for key in path:
        if isinstance(here, dict):
            if here.get(str(key)) is None and make:
                here[str(key)] = {}
            here = here.get(str(key))
        elif isinstance(here, list) and isinstance(key, int) and key < len(here):
            here = here[key]
        else:
            return None
    return here


def _override(base: dict[str, Value], own: dict[str, Value], wanted: dict[str, Value]) -> dict[str, Value]:
    """The least change of `own` that gives `wanted` when laid over `base`."""
    merged = merge_trees(base, own)
    result: dict[str, Value] = {}
    for key in (*own, *(key for key in (*base, *wanted) if key not in own)):
        if key in result:
            continue
        stays = (key in merged) == (key in wanted) and is_same(merged.get(key), wanted.get(key))
        if stays:
            if key in own:
                result[key] = own[key]
        elif key not in wanted:
            if base.get(key) is not None:
                result[key] = None
        else:
            result[key] = _override_value(base.get(key), own.get(key), wanted[key])
    return result


def _override_value(base: Value, own: Value, wanted: Value) -> Value:
    if isinstance(base, dict) and isinstance(wanted, dict):
        return _override(base, own if isinstance(own, dict) else {}, wanted)
    return wanted
