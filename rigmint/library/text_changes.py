"""What must be replaced in a file's text so that it holds another tree."""

from __future__ import annotations

import json
from collections.abc import Iterator
from difflib import SequenceMatcher

from rigmint.library.document import Path, Value
from rigmint.library.text_blocks import change_block_list, change_block_mapping
from rigmint.library.text_flows import change_flow_list, change_flow_mapping
from rigmint.library.text_replacement import Replacement
from rigmint.library.text_values import write_value
from rigmint.library.tree_edits import is_same
from rigmint.library.yaml_layout import Layout


def find_replacements(layout: Layout, wanted: Value) -> list[Replacement]:
    """The replacements, in the order of the text. Raises EditRefused where the layout does not allow one."""
    found = _change(layout, (), layout.tree, wanted)
    changing = [one for one in found if layout.text[one.start : one.end] != one.text]
    return sorted(changing, key=lambda one: (one.start, one.end))


def _change(layout: Layout, path: Path, held: Value, wanted: Value) -> Iterator[Replacement]:
    if is_same(held, wanted):
        return
    if isinstance(held, dict) and isinstance(wanted, dict):
        yield from _change_mapping(layout, path, held, wanted)
    elif isinstance(held, list) and isinstance(wanted, list):
        yield from _change_list(layout, path, held, wanted)
    else:
        yield from write_value(layout, path, held, wanted)


def _change_mapping(
    layout: Layout, path: Path, held: dict[str, Value], wanted: dict[str, Value]
) -> Iterator[Replacement]:
    for key in held:
        if key in wanted:
            yield from _change(layout, (*path, key), held[key], wanted[key])
    removed = {key for key in held if key not in wanted}
    added = {key: value for key, value in wanted.items() if key not in held}
    if not removed and not added:
        return
    change = change_flow_mapping if layout.is_flow(path) else change_block_mapping
    yield from change(layout, path, list(held), removed, added)


def _change_list(layout: Layout, path: Path, held: list[Value], wanted: list[Value]) -> Iterator[Replacement]:
    """Entries that stay are left alone; of those that differ, as many as possible are changed in place."""
    if len(held) == len(wanted):
        for index, (before, after) in enumerate(zip(held, wanted, strict=True)):
            yield from _change(layout, (*path, index), before, after)
        return
    removed: set[int] = set()
    added: dict[int, list[Value]] = {}
    shown, new = ([json.dumps(item, sort_keys=True) for item in items] for items in (held, wanted))
    for kind, first, last, to_first, to_last in SequenceMatcher(None, shown, new, autojunk=False).get_opcodes():
        if kind == "equal":
            continue
        common = min(last - first, to_last - to_first)
        for offset in range(common):
            index = first + offset
            yield from _change(layout, (*path, index), held[index], wanted[to_first + offset])
        removed.update(range(first + common, last))
        if to_first + common < to_last:
            added[first + common] = wanted[to_first + common : to_last]
    if not removed and not added:
        return
    change = change_flow_list if layout.is_flow(path) else change_block_list
    yield from change(layout, path, len(held), removed, added)
