"""Builds the pin-level network of what is there in a setup."""

from __future__ import annotations

from dataclasses import dataclass, field

from rigmint.graph.pins import (
    BOND_OHMS,
    EARTH,
    GROUND,
    RAIL,
    Join,
    JoinKind,
    Load,
    Mate,
    OneWay,
    Pin,
    PinNetwork,
    Regulator,
    Source,
)
from rigmint.graph.presence import Presence
from rigmint.graph.signals import find_negotiated_volts
from rigmint.rig.connector import Connector, go_together
from rigmint.rig.electric import MINUS, BridgeKind, Port
from rigmint.rig.lead import Conductor
from rigmint.rig.rig import Dock, Item, Lead, PortRef, Rig


def build_pin_network(rig: Rig, presence: Presence) -> PinNetwork:
    """The network of the items, leads and docks in `presence`."""
    builder = _PinBuilder(rig, presence)
    return builder.build()


@dataclass(slots=True)
class _PinBuilder:
    rig: Rig
    presence: Presence
    pins: list[Pin] = field(default_factory=list)
    index: dict[Pin, int] = field(default_factory=dict)
    joins: list[Join] = field(default_factory=list)
    diodes: list[OneWay] = field(default_factory=list)
    regulators: list[Regulator] = field(default_factory=list)
    sources: list[Source] = field(default_factory=list)
    loads: list[Load] = field(default_factory=list)
    mates: list[Mate] = field(default_factory=list)
    misfits: list[Mate] = field(default_factory=list)

    def build(self) -> PinNetwork:
        for name in sorted(self.presence.items):
            self._add_item(self.rig.items[name])
        for label in sorted(self.presence.leads):
            self._add_lead(self.rig.leads[label])
        for index in sorted(self.presence.docks):
            self._add_dock(self.rig.docks[index])
        return PinNetwork(
            pins=tuple(self.pins),
            index=self.index,
            joins=tuple(self.joins),
            diodes=tuple(self.diodes),
            regulators=tuple(self.regulators),
            sources=tuple(self.sources),
            loads=tuple(self.loads),
            mates=tuple(self.mates),
            misfits=tuple(self.misfits),
        )

    def _pin(self, pin: Pin) -> int:
        number = self.index.get(pin)
        if number is None:
            number = self.index[pin] = len(self.pins)
            self.pins.append(pin)
        return number

    def _add_item(self, item: Item) -> None:
        part, name = item.part, item.name
        ground = self._pin(Pin(name, "", GROUND))
        if part.chassis == "earth":
            self.joins.append(Join(ground, self._pin(EARTH), JoinKind.BOND, name))
        rails = {rail: self._pin(Pin(name, "", RAIL + rail)) for rail in part.rails}
        for port in part.ports.values():
            self._add_port(name, port, ground, rails)
        self._add_bridges(item, rails)
        for cell in part.cells.values():
            fixed = self._negotiated(item, cell.rail)
            self.sources.append(Source(rails[cell.rail], self._return_of(item, cell.rail), name, cell, fixed))
        for rail in part.rails.values():
            if rail.load is not None:
                self.loads.append(Load(rails[rail.name], self._return_of(item, rail.name), name, rail, rail.load))

    def _return_of(self, item: Item, rail: str, seen: frozenset[str] = frozenset()) -> int:
        """Where current from a rail returns: the part's ground, or the minus of an isolated port where the rail has no
        other port, itself or through the bridges that feed it."""
        ports = [port for port in item.part.ports.values() if port.carries_power and rail in port.feeds.values()]
        if ports:
            isolated = ports[0].name if all(port.isolated for port in ports) else ""
            return self._pin(Pin(item.name, isolated, GROUND))
        feeding = [bridge.source for bridge in item.part.bridges if bridge.target == rail and bridge.source not in seen]
        return self._return_of(item, feeding[0], seen | {rail}) if feeding else self._pin(Pin(item.name, "", GROUND))

    def _add_port(self, item: str, port: Port, ground: int, rails: dict[str, int]) -> None:
        minus = self._pin(Pin(item, port.name, GROUND)) if port.isolated else ground
        for contact in port.connector.contacts:
            number = self._pin(Pin(item, port.name, contact))
            role = port.pins.get(contact)
            if role == MINUS:
                self.joins.append(Join(number, minus, JoinKind.INSIDE, item))
            elif contact in port.feeds:
                self.joins.append(Join(number, rails[port.feeds[contact]], JoinKind.INSIDE, item))

    def _add_bridges(self, item: Item, rails: dict[str, int]) -> None:
        for bridge in item.part.bridges:
            source, target = rails[bridge.source], rails[bridge.target]
            if bridge.kind is BridgeKind.DIODE:
                self.diodes.append(OneWay(source, target, bridge.drop, item.name, bridge=bridge))
            elif bridge.regulator is not None:
                negotiated = self._negotiated(item, bridge.target)
                out = bridge.regulator.out if negotiated is None else negotiated
                self.regulators.append(
                    Regulator(
                        source, target, self._return_of(item, bridge.target), bridge.regulator, out, item.name, bridge
                    )
                )
            else:
                ohms = bridge.resistance
                self.joins.append(Join(source, target, JoinKind.BRIDGE, item.name, ohms, bridge=bridge))

    def _negotiated(self, item: Item, rail: str) -> float | None:
        """What a rail gives after USB power delivery on the ports that offer it; None where no port does."""
        offering = [port for port in item.part.ports.values() if port.offers and port.rail == rail]
        if not offering:
            return None
        return max(find_negotiated_volts(self.rig, self.presence, PortRef(item.name, port.name)) for port in offering)

    def _add_lead(self, lead: Lead) -> None:
        for end in lead.body.ends.values():
            for contact in end.connector.contacts:
                self._pin(Pin(lead.label, end.name, contact, True))
        for conductor in lead.body.conductors:
            self._add_conductor(lead, conductor)
        for end_name, ref in lead.plugged.items():
            lead_end = lead.body.ends[end_name]
            port = self.rig.port(ref)
            mate = Mate(ref, lead.label, end_name, None)
            if not go_together(port, lead_end):
                self.misfits.append(mate)
                continue
            self.mates.append(mate)
            self._mate(
                [(Pin(ref.item, ref.port, c), Pin(lead.label, end_name, c, True)) for c in port.connector.contacts],
                port.connector,
                lead.label,
            )

    def _add_conductor(self, lead: Lead, conductor: Conductor) -> None:
        source = self._pin(Pin(lead.label, conductor.source.end, conductor.source.contact, True))
        target = self._pin(Pin(lead.label, conductor.target.end, conductor.target.contact, True))
        if conductor.regulator is not None and conductor.ground is not None:
            ground = self._pin(Pin(lead.label, conductor.ground.end, conductor.ground.contact, True))
            spec = conductor.regulator
            self.regulators.append(Regulator(source, target, ground, spec, spec.out, lead.label, conductor=conductor))
        elif conductor.diode is not None:
            self.diodes.append(OneWay(source, target, conductor.diode, lead.label, conductor=conductor))
        else:
            self.joins.append(Join(source, target, JoinKind.WIRE, lead.label, conductor=conductor))

    def _add_dock(self, dock: Dock) -> None:
        first, second = (self.rig.items[ref.item].part for ref in (dock.first, dock.second))
        near, far = first.ports[dock.first.port], second.ports[dock.second.port]
        mate = Mate(dock.first, None, None, dock.second)
        if first.chassis == second.chassis == MINUS:
            near_ground, far_ground = (self._pin(Pin(ref.item, "", GROUND)) for ref in (dock.first, dock.second))
            self.joins.append(Join(near_ground, far_ground, JoinKind.BOND, dock.first.item, BOND_OHMS))
        if not go_together(near, far):
            self.misfits.append(mate)
            return
        self.mates.append(mate)
        pairs = [
            (Pin(dock.first.item, near.name, c), Pin(dock.second.item, far.name, c)) for c in near.connector.contacts
        ]
        self._mate(pairs, near.connector, dock.first.item)

    def _mate(self, pairs: list[tuple[Pin, Pin]], connector: Connector, owner: str) -> None:
        for near, far in pairs:
            if near in self.index and far in self.index:
                ohms = connector.contact_ohms
                self.joins.append(Join(self.index[near], self.index[far], JoinKind.MATE, owner, ohms))
