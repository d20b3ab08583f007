"""Finds the part that a table means: by its id, by its name, or by words that one part alone holds."""

from __future__ import annotations

from collections.abc import Callable

from rigmint.library.catalogue import GENERIC, Catalogue
from rigmint.rig.part import Part
from rigmint.start.tokens import split_tokens

_MOST_NAMED = 5


class PartNotFound(LookupError):
    """No part, or several; the message says which."""


class PartSearch:
    """Searches a catalogue; every part is read once, when words have to be compared."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._catalogue = catalogue
        self._words: dict[str, frozenset[str]] | None = None
        self._names: dict[tuple[str, ...], list[str]] = {}

    def find_device(self, text: str) -> Part:
        """The device that a text means. Raises PartNotFound."""
        return self._find(text, lambda part: part.lead is None, "part")

    def find_lead(self, text: str) -> Part:
        """The lead that a text means. Raises PartNotFound."""
        return self._find(text, lambda part: part.lead is not None, "lead")

    def _find(self, text: str, is_due: Callable[[Part], bool], what: str) -> Part:
        for part_id in (text, f"{GENERIC}{text}"):
            part = self._catalogue.part(part_id)
            if part is not None and is_due(part):
                return part
        found = [part for part_id in self._search(text) if (part := self._catalogue.part(part_id)) and is_due(part)]
        if len(found) == 1:
            return found[0]
        if not found:
            msg = f"no {what} of the catalogue is called `{text}`"
            raise PartNotFound(msg)
        listed = ", ".join(part.id for part in found[:_MOST_NAMED])
        more = f" and {len(found) - _MOST_NAMED} more" if len(found) > _MOST_NAMED else ""
        msg = f"`{text}` may be {listed}{more}"
        raise PartNotFound(msg)

    def _search(self, text: str) -> list[str]:
        """Ids of the parts of that very name, else of those that hold every word of the text."""
        words = self._read()
        tokens = split_tokens(text)
        if not tokens:
            return []
        return self._names.get(tokens) or [part_id for part_id, held in words.items() if held.issuperset(tokens)]

    def _read(self) -> dict[str, frozenset[str]]:
        if self._words is None:
            self._words = {}
            for part_id in self._catalogue.part_ids:
                part = self._catalogue.part(part_id)
                if part is None:
                    continue
                bare = split_tokens(part_id.rpartition("/")[2])
                self._words[part_id] = frozenset((*split_tokens(part_id), *split_tokens(part.name)))
                for name in {bare, split_tokens(part.name)}:
                    self._names.setdefault(name, []).append(part_id)
        return self._words
