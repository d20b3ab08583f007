"""A rig file while it is built: references to items and ports, and the side table of positions."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from rigmint.library.catalogue import Catalogue
from rigmint.library.document import Document, Path
from rigmint.library.faults import Fault, FaultList, find_nearest, suggest
from rigmint.rig.part import Part
from rigmint.rig.place import Position
from rigmint.rig.rig import Item, PortRef

_MATE = re.compile(r"\s*(\S+)\s*>\s*(\S+)\s*")


@dataclass(slots=True)
class RigScope:
    """What the builders of a rig share."""

    document: Document
    faults: FaultList
    catalogue: Catalogue
    positions: dict[str, Position] = field(default_factory=dict)
    broken: set[str] = field(default_factory=set)
    """Items that could not be read: what refers to them is not held against the file again."""

    def __post_init__(self) -> None:
        """Every item that the file names counts as broken until it is built."""
        kit = self.document.as_mapping().get("kit")
        self.broken |= set(kit) if isinstance(kit, dict) else set()

    def fault(self, path: Path, code: str, says: str) -> None:
        """Record a fault at a path, in the file that wrote it."""
        file, position = self.document.locate(path)
        self.faults.add(file, position, code, says)

    def note(self, place: str, path: Path) -> None:
        """Remember where a place stands. What is inherited stands where the file says `like:`."""
        if self.document.base is not None and not self.document.owns(path):
            path = ("like",)
        self.positions[place] = self.document.position(path)

    def part(self, path: Path, part_id: str) -> Part | None:
        """The part of an id; None after recording why there is none."""
        part = self.catalogue.part(part_id)
        if part is not None:
            return part
        found = self.catalogue.faults_of(part_id)
        if found:
            self._add_all(found)
            return None
        near = self.catalogue.nearest(part_id)
        meant = f": did you mean `{near}`?" if near else ""
        unread = len({fault.file for fault in self.catalogue.faults.found})
        hint = f" ({unread} file{'s' if unread > 1 else ''} of the library could not be read)" if unread else ""
        self.fault(path, "file:unknown-name", f"there is no part `{part_id}`{meant}{hint}")
        return None

    def _add_all(self, faults: Collection[Fault]) -> None:
        for fault in faults:
            self.faults.add(fault.file, Position(fault.line, fault.column), fault.code, fault.says)

    def split_mate(self, path: Path, text: str) -> tuple[str, str] | None:
        """The two ends of `a.b > c.d`."""
        match = _MATE.fullmatch(text)
        if match is None:
            self.fault(path, "file:bad-value", f"`{text}`: two places with `>` between are due: `a.out > b.in`")
            return None
        return match[1], match[2]

    def port(self, path: Path, place: str, items: Mapping[str, Item]) -> PortRef | None:
        """The port at a place; None after recording why there is none."""
        item_name, _, port_name = place.partition(".")
        item = self.item(path, item_name, items, place)
        if item is None:
            return None
        if port_name in item.part.ports:
            return PortRef(item_name, port_name)
        self._say_unknown(path, place, item, item.part.ports, "port")
        return None

    def radio(self, path: Path, place: str, items: Mapping[str, Item]) -> PortRef | None:
        """The radio at a place; a bare item means its only radio."""
        item_name, _, radio_name = place.partition(".")
        item = self.item(path, item_name, items, place)
        if item is None:
            return None
        if not radio_name and len(item.part.radios) == 1:
            return PortRef(item_name, next(iter(item.part.radios)))
        if radio_name in item.part.radios:
            return PortRef(item_name, radio_name)
        self._say_unknown(path, place, item, item.part.radios, "radio")
        return None

    def item(self, path: Path, name: str, items: Mapping[str, Item], place: str | None = None) -> Item | None:
        """The item of a name; None after recording that there is none."""
        if name in items:
            return items[name]
        if name not in self.broken:
            shown = place or name
            near = suggest(name, items)
            self.fault(path, "file:unknown-name", f"`{shown}`: there is no item `{name}`{near}")
        return None

    def _say_unknown(self, path: Path, place: str, item: Item, known: Mapping[str, object], what: str) -> None:
        near = find_nearest(place.partition(".")[2], known)
        if near is not None:
            says = f"`{place}`: did you mean `{item.name}.{near}`?"
        else:
            listed = ", ".join(f"`{name}`" for name in known) or "none"
            says = f"`{place}`: `{item.part.id}` has no such {what}; it has {listed}"
        self.fault(path, "file:unknown-name", says)
