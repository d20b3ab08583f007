"""The names that a rig file and its catalogue know, as far as they can be read."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.library.catalogue import Catalogue
from rigmint.library.document import Document, Value
from rigmint.lint.forget import as_mapping
from rigmint.rig.axes import rings_of
from rigmint.rig.part import Part
from rigmint.words import AUTOMATIC, AXES, NOBODY


class Known:
    """The names of one file. `document`: the last of its texts that could be parsed."""

    def __init__(self, document: Document | None, catalogue: Catalogue) -> None:
        self._tree = as_mapping(document.tree) if document is not None else {}
        self.catalogue = catalogue

    @property
    def items(self) -> list[str]:
        """The items of the kit."""
        return list(as_mapping(self._tree.get("kit")))

    @property
    def labels(self) -> list[str]:
        """The labels of the leads."""
        return list(as_mapping(self._tree.get("leads")))

    def part_of(self, item: str) -> Part | None:
        """The part of an item, where both are known."""
        entry = as_mapping(self._tree.get("kit")).get(item)
        part_id = as_mapping(entry).get("part") if isinstance(entry, dict) else entry
        return self.catalogue.part(part_id) if isinstance(part_id, str) else None

    def list_names(self, kind: str, keys: tuple[str, ...], word: str) -> Iterator[str]:
        """The names of a kind that may stand behind `keys`, where `word` is typed so far."""
        item, dot, _ = word.partition(".")
        match kind:
            case "item":
                yield from self.items
            case "lead":
                yield from self.labels
            case "port" | "radio" | "ring" | "place" if dot:
                yield from (f"{item}.{name}" for name in self._list_inner(kind, self.part_of(item)))
            case "port" | "radio" | "ring":
                yield from (f"{one}." for one in self.items if self._list_inner(kind, self.part_of(one)))
            case "place":
                yield from (*self.labels, *self.items)
            case "setting" if dot:
                part = self.part_of(item)
                yield from (f"{item}.{name}" for name in (part.settings if part is not None else ()))
            case "setting":
                yield from (
                    f"{one}." for one in self.items if (part := self.part_of(one)) is not None and part.settings
                )
            case "own setting":
                part = self.part_of(keys[1])
                yield from part.settings if part is not None else ()
            case "setup":
                yield from as_mapping(self._tree.get("setups"))
            case "person":
                yield from (*self._list_crew(), NOBODY, AUTOMATIC)
            case "axis":
                yield from AXES
            case "connector":
                yield from self.catalogue.tokens.connectors
            case "protocol":
                yield from self.catalogue.tokens.protocols
            case "part":
                yield from self._list_parts(is_lead=keys[:1] == ("leads",))

    def list_values(self, keys: tuple[str, ...]) -> list[str]:
        """The options of the setting whose value is due behind `keys`."""
        if len(keys) == 4 and keys[0] == "kit" and keys[2] == "set":
            item, setting = keys[1], keys[3]
        elif keys[:1] == ("settings",) or (len(keys) == 4 and keys[0] == "setups" and keys[2] == "set"):
            item, _, setting = keys[-1].partition(".")
        else:
            return []
        part = self.part_of(item)
        known = part.settings.get(setting) if part is not None else None
        return list(known.values) if known is not None else []

    def _list_inner(self, kind: str, part: Part | None) -> list[str]:
        if part is None:
            return []
        ports, radios = list(part.ports), list(part.radios)
        return {"port": ports, "radio": radios, "ring": list(rings_of(part)), "place": [*ports, *radios]}[kind]

    def _list_crew(self) -> list[str]:
        crews: list[Value] = [self._tree.get("crew")]
        crews += [as_mapping(setup).get("crew") for setup in as_mapping(self._tree.get("setups")).values()]
        return list(dict.fromkeys(person for crew in crews for person in as_mapping(crew)))

    def _list_parts(self, *, is_lead: bool) -> Iterator[str]:
        for part_id in self.catalogue.part_ids:
            part = self.catalogue.part(part_id)
            if part is not None and (part.lead is not None) == is_lead:
                yield part_id
