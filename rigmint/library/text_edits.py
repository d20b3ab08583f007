"""Edits of a file's tree as replacements in its text, so that comments, order, quoting, indentation, line ends and
all that is not concerned stay as they are.

The tree that is wanted is compared with the tree that the file holds, and each difference becomes a replacement at the
marks of the nodes concerned. The new text is read again and must give the tree that is wanted, else the edit is
refused.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.library.document import Document, Path, Value
from rigmint.library.faults import FaultList
from rigmint.library.text_changes import find_replacements
from rigmint.library.text_replacement import Replacement
from rigmint.library.tree_edits import Edit, EditRefused, apply_edits, override_tree
from rigmint.library.yaml import parse_yaml
from rigmint.library.yaml_layout import Layout

_BREAK = re.compile(r"\r\n|\n|\r")


@dataclass(frozen=True, slots=True)
class TextEdit:
    """A replacement in a file's text. Offsets count characters behind a byte order mark, the end excluded; lines and
    columns count from 1, columns in characters."""

    start_offset: int
    end_offset: int
    text: str
    line: int
    column: int
    end_line: int
    end_column: int


def plan_text_edits(document: Document, edits: Sequence[Edit]) -> tuple[TextEdit, ...]:
    """The replacements in `document.text` that make the edits, in the order of the text, none overlapping another.

    The paths of the edits are those of `document.tree`, which may be inherited in part by `like:`; only the file itself
    is edited. Raises EditRefused where the edits do not fit, overlap, or cannot be written so that the file, read
    again, holds what they ask for.
    """
    own = _parse(document.text, document.file)
    wanted = override_tree(document, own.tree, apply_edits(document.tree, edits))
    replacements = find_replacements(Layout(own), wanted)
    changed = apply_replacements(document.text, replacements)
    if not reads_as(_parse(changed, document.file), wanted):
        msg = "the file is laid out in a way in which this cannot be written safely: change it by hand"
        raise EditRefused(msg)
    return tuple(_place(document.text, one) for one in replacements)


def apply_text_edits(text: str, edits: Sequence[TextEdit]) -> str:
    """The text with the replacements made."""
    return apply_replacements(text, [Replacement(one.start_offset, one.end_offset, one.text) for one in edits])


def apply_replacements(text: str, replacements: Sequence[Replacement]) -> str:
    """The text with the replacements made. Raises EditRefused where two of them overlap."""
    pieces = []
    done = 0
    for one in sorted(replacements, key=lambda one: (one.start, one.end)):
        if one.start < done:
            msg = "two changes overlap in the text of the file"
            raise EditRefused(msg)
        pieces += [text[done : one.start], one.text]
        done = one.end
    return "".join([*pieces, text[done:]])


def reads_as(document: Document, wanted: Value) -> bool:
    """Whether a file holds a tree. A number or a word such as true counts as the text that it is written as."""
    return _reads_as(document, (), document.tree, wanted)


def _reads_as(document: Document, path: Path, value: Value, wanted: Value) -> bool:
    if isinstance(value, dict) and isinstance(wanted, dict):
        return value.keys() == wanted.keys() and all(
            _reads_as(document, (*path, key), item, wanted[key]) for key, item in value.items()
        )
    if isinstance(value, list) and isinstance(wanted, list):
        return len(value) == len(wanted) and all(
            _reads_as(document, (*path, index), item, wanted[index]) for index, item in enumerate(value)
        )
    if isinstance(wanted, str) and isinstance(value, (bool, int, float)):
        return document.raw(path, value) == wanted
    return type(value) is type(wanted) and value == wanted


def _parse(text: str, name: str) -> Document:
    faults = FaultList()
    try:
        document = parse_yaml(text, name, faults)
    except UnicodeEncodeError:  # a key or a text from a command line with half a letter
        document = None
    if document is None or faults.found:
        said = faults.found[0].says if faults.found else "it holds letters that no text has"
        msg = f"the file could not be read any more: {said}"
        raise EditRefused(msg)
    return document


def _place(text: str, one: Replacement) -> TextEdit:
    return TextEdit(one.start, one.end, one.text, *_find_position(text, one.start), *_find_position(text, one.end))


def _find_position(text: str, offset: int) -> tuple[int, int]:
    breaks = [found.end() for found in _BREAK.finditer(text, 0, offset)]
    return len(breaks) + 1, offset - (breaks[-1] if breaks else 0) + 1
