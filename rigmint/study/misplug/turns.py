"""Leads turned round, and plugs forced into their own socket the wrong way round."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import combinations
from types import MappingProxyType

from rigmint.rig.connector import go_together
from rigmint.rig.electric import Port
from rigmint.rig.lead import Carry, Conductor, EndContact, LeadBody
from rigmint.rig.rig import Dock, Item, Rig, Setup
from rigmint.study.misplug.mistakes import How, Mistake, plug


def list_turns(rig: Rig, setup: Setup) -> Iterator[Mistake]:
    """Every two ends of a lead exchanged that go into each other's ports, unless the lead is the same either way."""
    for label in sorted(setup.leads):
        lead = rig.leads[label]
        for one, other in combinations(sorted(lead.plugged), 2):
            refs = lead.plugged[one], lead.plugged[other]
            ends = lead.body.ends[one], lead.body.ends[other]
            goes_in = go_together(rig.port(refs[1]), ends[0]) and go_together(rig.port(refs[0]), ends[1])
            if goes_in and not (ends[0].tag == ends[1].tag and is_same_turned(lead.body, one, other)):
                turned = plug(lead, {**lead.plugged, one: refs[1], other: refs[0]})
                yield Mistake(How.TURNED, label, one, refs[0].place, refs[1], True, {label: turned})


def list_forced(rig: Rig, setup: Setup) -> Iterator[Mistake]:
    """Every plug that can be forced into its socket turned round, and every such dock. What goes in either way round by
    design is none."""
    for label in sorted(setup.leads):
        lead = rig.leads[label]
        for end, ref in sorted(lead.plugged.items()):
            port, half = rig.port(ref), lead.body.ends[end]
            forces = _find_forces(port)
            if forces and go_together(port, half):
                forced = replace(lead, body=_turn_end(lead.body, end, forces))
                yield Mistake(How.FORCED, label, end, ref.place, ref, True, {label: forced})
    for index in sorted(setup.docks):
        dock = rig.docks[index]
        forces = _find_forces(rig.port(dock.first))
        if forces and go_together(rig.port(dock.first), rig.port(dock.second)):
            items = {dock.second.item: _turn_port(rig.items[dock.second.item], dock, forces)}
            yield Mistake(How.FORCED, None, None, dock.first.place, dock.second, True, {}, items=items)


def _find_forces(port: Port) -> Mapping[str, str]:
    return {} if port.connector.reversible else port.connector.forces


def is_same_turned(body: LeadBody, one: str, other: str) -> bool:
    """Whether a lead is the same with two of its ends exchanged."""
    exchanged = {one: other, other: one}

    def turn(contact: EndContact) -> EndContact:
        return EndContact(exchanged.get(contact.end, contact.end), contact.contact)

    wires = sorted(_describe(wire) for wire in body.conductors)
    turned = sorted(
        _describe(
            replace(
                wire,
                source=turn(wire.source),
                target=turn(wire.target),
                ground=turn(wire.ground) if wire.ground is not None else None,
            )
        )
        for wire in body.conductors
    )
    return wires == turned and _turn_carries(body.carries, exchanged) == _turn_carries(body.carries, {})


def _describe(wire: Conductor) -> str:
    """A wire in words that do not say in which order it was written; one that conducts one way keeps its direction."""
    sides = [f"{wire.source}", f"{wire.target}"]
    if wire.diode is None and wire.regulator is None:
        sides.sort()
    return f"{sides} {wire.gauge} {wire.area} {wire.fuse} {wire.diode} {wire.regulator} {wire.ground}"


def _turn_carries(
    carries: tuple[Carry, ...] | None, exchanged: Mapping[str, str]
) -> frozenset[tuple[str, frozenset[str] | None]] | None:
    if carries is None:
        return None
    return frozenset(
        (one.protocol, None if one.ends is None else frozenset(exchanged.get(end, end) for end in one.ends))
        for one in carries
    )


def _turn_end(body: LeadBody, end: str, forces: Mapping[str, str]) -> LeadBody:
    """The lead as if one of its ends were soldered the way in which it is forced in: a contact that then touches
    nothing is left out, and so is the wire on it."""

    def turn(contact: EndContact) -> EndContact | None:
        if contact.end != end:
            return contact
        return EndContact(end, forces[contact.contact]) if contact.contact in forces else None

    wires = []
    for wire in body.conductors:
        source, target = turn(wire.source), turn(wire.target)
        ground = turn(wire.ground) if wire.ground is not None else None
        if source is not None and target is not None and (wire.ground is None or ground is not None):
            wires.append(replace(wire, source=source, target=target, ground=ground))
    return replace(body, conductors=tuple(wires))


def _turn_port(item: Item, dock: Dock, forces: Mapping[str, str]) -> Item:
    """The item as if a port of it were wired the way in which it is forced in."""
    port = item.part.ports[dock.second.port]
    turned = replace(
        port,
        pins=MappingProxyType({forces[contact]: role for contact, role in port.pins.items() if contact in forces}),
        feeds=MappingProxyType({forces[contact]: rail for contact, rail in port.feeds.items() if contact in forces}),
    )
    return replace(item, part=replace(item.part, ports=MappingProxyType({**item.part.ports, port.name: turned})))
