"""Catalogue files as they were parsed before: what a run needs of a sound one, without reading its YAML again."""

from __future__ import annotations

from typing import Any

from rigmint.library.document import Document, Marks
from rigmint.library.faults import FaultList
from rigmint.library.yaml import parse_yaml
from rigmint.lint.cache_store import CacheStore, digest, make_key


class ParsedFiles:
    """The parsed files in a store, by their text and by the code that parsed them."""

    def __init__(self, store: CacheStore, code: str) -> None:
        self._store = store
        self._code = code

    def parse(self, text: str, name: str, faults: FaultList) -> Document | None:
        """As `parse_yaml`. A file with faults is parsed each time, since they stand at places."""
        key = make_key("parsed", self._code, digest(text.encode("utf-8", "surrogatepass")))
        known = _read(self._store.find(key), text, name)
        if known is not None:
            return known
        found = FaultList()
        document = parse_yaml(text, name, found)
        if document is not None and not found.found:
            raw = [[*path, written] for path, written in document.marks.raw.items()]
            self._store.keep(key, {"tree": document.tree, "raw": raw})
        faults.found += found.found
        return document


def _read(value: Any, text: str, name: str) -> Document | None:
    def find_marks() -> Marks:
        document = parse_yaml(text, name, FaultList())
        return document.marks if document is not None else Marks()

    try:
        raw = {tuple(path): written for *path, written in value["raw"]}
        return Document(name, value["tree"], Marks(raw=raw, find=find_marks), text=text)
    except (TypeError, ValueError, KeyError):
        return None
