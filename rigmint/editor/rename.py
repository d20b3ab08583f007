"""Renames an item or a lead: every place of the file that names it, by what the schema says stands there."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from rigmint.editor.schema_walk import find_place
from rigmint.library.document import Document, Path, Span
from rigmint.lint.forget import as_mapping

_ITEMS = frozenset({"item", "port", "radio", "ring", "place", "setting"})
_LEADS = frozenset({"lead", "item", "place"})
"""A place may be a lead, and a setup leaves leads out beside items."""
_ITEM_NAME = re.compile(r"[a-z][a-z0-9_]*")
_LABEL = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")


class NotRenamed(Exception):
    """Why something cannot be renamed."""


@dataclass(frozen=True, slots=True)
class Renaming:
    """What is renamed, and where its name stands: from one character offset to another."""

    name: str
    places: tuple[tuple[int, int], ...]


def find_renaming(document: Document, offset: int) -> Renaming | None:
    """The item or the lead whose name stands at an offset of a rig file; None where none does."""
    tree = as_mapping(document.tree)
    for section, kinds in (("kit", _ITEMS), ("leads", _LEADS)):
        for name in as_mapping(tree.get(section)):
            places = tuple(sorted(set(_list_places(document, name, kinds))))
            if any(start <= offset <= end for start, end in places):
                return Renaming(name, places)
    return None


def rename(document: Document, renaming: Renaming, new: str) -> str:
    """The text with the new name. Raises NotRenamed where it is no name, or is taken."""
    tree = as_mapping(document.tree)
    items, labels = as_mapping(tree.get("kit")), as_mapping(tree.get("leads"))
    form, said = (_ITEM_NAME, "an item's name") if renaming.name in items else (_LABEL, "a lead's label")
    if form.fullmatch(new) is None:
        msg = f"`{new}` is not {said}: {'small ' if form is _ITEM_NAME else ''}letters, digits and `_`, a letter first"
        raise NotRenamed(msg)
    taken = {name.casefold() for name in (*items, *labels)} - {renaming.name.casefold()}
    if new.casefold() in taken:
        msg = f"`{new}` is taken in this file"
        raise NotRenamed(msg)
    text = document.text
    for start, end in reversed(renaming.places):
        text = text[:start] + new + text[end:]
    return text


def _list_places(document: Document, name: str, kinds: frozenset[str]) -> Iterator[tuple[int, int]]:
    found = re.compile(rf"(?<![\w./:-]){re.escape(name)}(?![\w/-])")
    for spans, is_key in ((document.marks.keys, True), (document.marks.values, False)):
        for span in _list_naming(spans, kinds, is_key=is_key):
            text = document.text[span.start : span.end]
            yield from ((span.start + one.start(), span.start + one.end()) for one in found.finditer(text))


def _list_naming(spans: Mapping[Path, Span], kinds: frozenset[str], *, is_key: bool) -> Iterator[Span]:
    """The spans of keys, or of values, that hold a name of these kinds."""
    inner = {path[:-1] for path in spans}
    for path, span in spans.items():
        keys = tuple(key for key in path if isinstance(key, str))
        if is_key:
            if find_place("rig", keys[:-1]).key_names in kinds:
                yield span
        elif path not in inner and find_place("rig", keys).names & kinds:
            yield span
