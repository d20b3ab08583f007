"""`like:`: start from another part or rig and override."""

from __future__ import annotations

from rigmint.library.document import Document, Value

_OWN_KEYS = frozenset({"id", "name", "figures", "like"})


def merge_documents(own: Document, base: Document) -> Document:
    """`own` laid over `base`: mappings merge key by key at every depth, anything else replaces, null removes."""
    inherited = {key: value for key, value in base.as_mapping().items() if key not in _OWN_KEYS}
    merged = _merge(inherited, {key: value for key, value in own.as_mapping().items() if key != "like"})
    return Document(own.file, merged, own.marks, own.prefix, base)


def _merge(base: Value, own: Value) -> Value:
    if not isinstance(base, dict) or not isinstance(own, dict):
        return own
    merged = dict(base)
    for key, value in own.items():
        if value is None:
            merged.pop(key, None)
        else:
            merged[key] = _merge(merged.get(key), value)
    return merged
