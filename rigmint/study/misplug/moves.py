"""Ends moved: each lead's end in every other port that takes it. What was in that port then hangs loose, since a socket
takes one plug."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from rigmint.rig.connector import Half, Sex, go_together
from rigmint.rig.electric import Port
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.misplug.mistakes import LOOSE, How, Mistake, plug, pull_out
from rigmint.study.misplug.places import Places, Zone, are_near


@dataclass(frozen=True, slots=True)
class Move:
    """A lead's end and a port that takes it though it is not meant for it."""

    lead: Lead
    end: str
    into: PortRef


class Sockets:
    """The ports of a setup, by what goes into them, and what is in them."""

    def __init__(self, rig: Rig, setup: Setup) -> None:
        self._rig = rig
        self._places = Places(rig, setup)
        self._by_shape: dict[tuple[str, Sex], list[tuple[PortRef, Port]]] = defaultdict(list)
        self._taking: dict[tuple[str, Sex], list[PortRef]] = {}
        self._near: dict[tuple[str, Sex, frozenset[Zone]], list[PortRef]] = {}
        self._ends: dict[PortRef, list[tuple[str, str]]] = defaultdict(list)
        self._pulled: dict[tuple[str, str], Lead] = {}
        self._docks: dict[PortRef, set[int]] = defaultdict(set)
        for name in sorted(setup.items):
            for port in rig.items[name].part.ports.values():
                if not port.connector.is_mechanical:
                    self._by_shape[port.connector.id, port.sex].append((PortRef(name, port.name), port))
        self._zones = {self._places.zone_of(ref) for ports in self._by_shape.values() for ref, _ in ports}
        for label in sorted(setup.leads):
            for end, ref in rig.leads[label].plugged.items():
                self._ends[ref].append((label, end))
        for index in setup.docks:
            for ref in (rig.docks[index].first, rig.docks[index].second):
                self._docks[ref].add(index)

    def list_taking(self, half: Half) -> list[PortRef]:
        """The ports that take a lead's end, well or badly."""
        shape = half.connector.id, half.sex
        if shape not in self._taking:
            found = [ref for ports in self._by_shape.values() if go_together(ports[0][1], half) for ref, _ in ports]
            self._taking[shape] = sorted(found)
        return self._taking[shape]

    def list_moves(self, lead: Lead) -> Iterator[Move]:
        """Every port that takes an end of a lead and is not its own."""
        for end in sorted(lead.body.ends):
            meant = lead.plugged.get(end)
            for ref in self.list_taking(lead.body.ends[end]):
                if ref != meant:
                    yield Move(lead, end, ref)

    def list_near_moves(self, lead: Lead, end: str) -> Iterator[Move]:
        """The moves of an end that `is_in_reach` holds of."""
        half, meant = lead.body.ends[end], lead.plugged.get(end)
        zones = frozenset(self._places.zone_of(ref) for ref in lead.plugged.values())
        key = half.connector.id, half.sex, zones
        if key not in self._near:
            near = {zone for zone in self._zones if any(are_near(zone, one) for one in zones)}
            self._near[key] = [ref for ref in self.list_taking(half) if self._places.zone_of(ref) in near]
        return (Move(lead, end, ref) for ref in self._near[key] if ref != meant)

    def make_mistake(self, move: Move) -> Mistake:
        """What is plugged where once the move is made."""
        changed: dict[str, Lead] = {move.lead.label: move.lead}
        for label, end in self._ends.get(move.into, ()):
            changed[label] = self._pull_out(changed.get(label), label, end)
        moved = changed[move.lead.label]
        changed[move.lead.label] = plug(moved, {**moved.plugged, move.end: move.into})
        meant = move.lead.plugged.get(move.end)
        return Mistake(
            how=How.MOVED,
            lead=move.lead.label,
            end=move.end,
            meant=meant.place if meant is not None else LOOSE,
            into=move.into,
            same_place=self.is_in_reach(move),
            leads=changed,
            docks_out=frozenset(self._docks.get(move.into, ())),
        )

    def _pull_out(self, lead: Lead | None, label: str, end: str) -> Lead:
        """A lead with an end pulled out: of one that nothing else befell, always the same object."""
        if lead is not None:
            return pull_out(lead, end)
        if (label, end) not in self._pulled:
            self._pulled[label, end] = pull_out(self._rig.leads[label], end)
        return self._pulled[label, end]

    def is_in_reach(self, move: Move) -> bool:
        """Whether the wrong socket lies where an end of the lead is meant to be: that is as far as it is carried."""
        return any(self._places.are_near(ref, move.into) for ref in move.lead.plugged.values())
