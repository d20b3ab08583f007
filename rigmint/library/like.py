"""`like:`: start from another part or rig and override."""

from __future__ import annotations

from rigmint.library.document import Document, Value

_OWN_KEYS = frozenset({"id", "name", "figures", "like"})


def merge_documents(own: Document, base: Document) -> Document:
    """`own` laid over `base`: mappings merge key by key at every depth, anything else replaces, null removes."""
    merged = merge_trees(list_inherited(base), {key: value for key, value in own.as_mapping().items() if key != "like"})
    return Document(own.file, merged, own.marks, own.prefix, base, own.text)


def list_inherited(base: Document) -> dict[str, Value]:
    """What a file that starts from `base` takes over."""
    return {key: value for key, value in base.as_mapping().items() if key not in _OWN_KEYS}


def merge_trees(base: dict[str, Value], own: dict[str, Value]) -> dict[str, Value]:
    """One mapping laid over another."""
    merged = dict(base)
    for key, value in own.items():
        held = merged.get(key)
        if value is None:
            merged.pop(key, None)
        elif isinstance(held, dict) and isinstance(value, dict):
            merged[key] = merge_trees(held, value)
        else:
            merged[key] = value
    return merged
