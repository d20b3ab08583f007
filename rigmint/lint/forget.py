"""What a rig file says of a lead elsewhere goes with the lead: marks, ties, readings, setups in which it is out."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from rigmint.library.document import Value
from rigmint.library.tree_edits import Edit, Key


def forget_lead(label: str, tree: Value) -> tuple[Edit, ...]:
    """The edits that take out what names a lead. Its acceptances stay: whoever signed for it takes them out."""
    root = as_mapping(tree)

    def names_it(place: Value) -> bool:
        return isinstance(place, str) and place.partition(":")[0] == label

    edits = [
        *_forget_keys(("marked",), root.get("marked"), names_it),
        *_forget_keys(("metered",), root.get("metered"), names_it),
        *_forget_entries(("tied",), root.get("tied"), names_it),
    ]
    for name, body in as_mapping(root.get("setups")).items():
        for key in ("out", "unplugged"):
            edits += _forget_entries(("setups", name, key), as_mapping(body).get(key), names_it)
    return tuple(edits)


def as_mapping(value: Value) -> dict[str, Value]:
    """A value as a mapping; an empty one where it is something else."""
    return value if isinstance(value, dict) else {}


def _forget_keys(path: tuple[Key, ...], held: Value, is_it: Callable[[Value], bool]) -> Iterator[Edit]:
    entries = as_mapping(held)
    gone = [key for key in entries if is_it(key)]
    if gone and len(gone) == len(entries):
        yield Edit("remove", path)
    else:
        yield from (Edit("remove", (*path, key)) for key in gone)


def _forget_entries(path: tuple[Key, ...], held: Value, is_it: Callable[[Value], bool]) -> Iterator[Edit]:
    entries = held if isinstance(held, list) else [held]
    gone = [index for index, entry in enumerate(entries) if is_it(entry)]
    if gone and len(gone) == len(entries):
        yield Edit("remove", path)
    else:
        yield from (Edit("remove", (*path, index)) for index in gone)
