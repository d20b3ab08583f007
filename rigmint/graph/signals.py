"""Which protocols pass between two ports: both speak it, the lead carries it, and its wires are joined."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations

from rigmint.graph.lead_contacts import spread_contacts
from rigmint.graph.presence import Presence
from rigmint.rig.connector import Protocol, go_together
from rigmint.rig.electric import Port
from rigmint.rig.lead import LeadBody
from rigmint.rig.rig import Lead, PortRef, Rig

USB_PD = "usb-pd"
USB_VOLTS = 5.0


@dataclass(frozen=True, slots=True)
class Stop:
    """Why a protocol does not pass over a mating: `by` is the lead or the port."""

    by: str
    says: str


@dataclass(frozen=True, slots=True)
class Connection:
    """Two ports joined by a lead (None: docked), the protocols that pass, and why others do not."""

    first: PortRef
    second: PortRef
    lead: str | None
    protocols: frozenset[str]
    stops: tuple[tuple[str, Stop], ...]
    """(protocol, reason) for protocols that at least one of the ports speaks and that do not pass."""


def connect_ports(rig: Rig, presence: Presence) -> tuple[Connection, ...]:
    """Every pair of ports that a lead or a dock joins."""
    found = []
    for label in sorted(presence.leads):
        found += connect_lead(rig, rig.leads[label])
    for index in sorted(presence.docks):
        dock = rig.docks[index]
        near_port, far_port = rig.port(dock.first), rig.port(dock.second)
        if go_together(near_port, far_port):
            shared = frozenset(near_port.speaks) & frozenset(far_port.speaks)
            passing = {name for name in shared if _docked_wires_meet(near_port, far_port, rig.protocols[name])}
            found.append(Connection(dock.first, dock.second, None, frozenset(passing), ()))
    return tuple(found)


def find_negotiated_volts(rig: Rig, presence: Presence, ref: PortRef) -> float:
    """The volts that a USB power-delivery source settles on: the highest offer not above what the sink wants, and
    5 V where one end does not speak it or the lead does not carry it (USB Power Delivery, IEC 62680-1-2)."""
    return settle_volts(rig, ref, connect_ports(rig, presence))


def settle_volts(rig: Rig, ref: PortRef, connections: Iterable[Connection]) -> float:
    """The same, over connections that are known."""
    offers = rig.port(ref).offers
    for connection in connections:
        if USB_PD not in connection.protocols or ref not in (connection.first, connection.second):
            continue
        other = connection.second if connection.first == ref else connection.first
        wants = rig.port(other).wants
        if wants is not None:
            return max((offer for offer in offers if offer <= wants), default=USB_VOLTS)
    return USB_VOLTS


def connect_lead(rig: Rig, lead: Lead) -> list[Connection]:
    """Every pair of ports that a lead joins."""
    return [_connect_by_lead(rig, lead, near, far) for near, far in combinations(sorted(lead.plugged), 2)]


def _connect_by_lead(rig: Rig, lead: Lead, near: str, far: str) -> Connection:
    refs = lead.plugged[near], lead.plugged[far]
    ports = rig.port(refs[0]), rig.port(refs[1])
    passing: set[str] = set()
    stops: list[tuple[str, Stop]] = []
    spoken = sorted(set(ports[0].speaks) | set(ports[1].speaks))
    for name in spoken:
        stop = _find_stop(rig, lead, (near, far), refs, ports, name)
        if stop is None:
            passing.add(name)
        else:
            stops.append((name, stop))
    return Connection(*refs, lead.label, frozenset(passing), tuple(stops))


def _find_stop(
    rig: Rig,
    lead: Lead,
    ends: tuple[str, str],
    refs: tuple[PortRef, PortRef],
    ports: tuple[Port, Port],
    name: str,
) -> Stop | None:
    protocol = rig.protocols[name]
    for ref, port in zip(refs, ports, strict=True):
        if name not in port.speaks:
            return Stop(ref.place, f"{ref.place} does not speak {protocol.name}")
    for ref, port, end in zip(refs, ports, ends, strict=True):
        if not go_together(port, lead.body.ends[end]):
            return Stop(lead.label, f"{lead.label} does not go into {ref.place}")
    if not _carries(lead.body, name, ends, protocol):
        return Stop(lead.label, f"{lead.label} does not carry {protocol.name}")
    missing = find_missing_wires(lead.body, ends, ports, protocol)
    if missing:
        return Stop(lead.label, f"no conductor of {lead.label} joins {' or '.join(missing)}")
    return None


def find_missing_wires(
    body: LeadBody, ends: tuple[str, str], ports: tuple[Port, Port], protocol: Protocol
) -> tuple[str, ...]:
    """The wires of a protocol that no conductor joins between two ends of a lead in two ports."""
    return tuple(wire for wire in protocol.wires if not _is_wire_joined(body, ends, ports, wire))


def _carries(body: LeadBody, name: str, ends: tuple[str, str], protocol: Protocol) -> bool:
    if body.carries is None:
        return body.straight or bool(protocol.wires)
    return any(carry.protocol == name and (carry.ends is None or carry.ends.issuperset(ends)) for carry in body.carries)


def _is_wire_joined(body: LeadBody, ends: tuple[str, str], ports: tuple[Port, Port], wire: str) -> bool:
    near = {(ends[0], contact) for contact in contacts_of(ports[0], wire)}
    far = {(ends[1], contact) for contact in contacts_of(ports[1], wire)}
    if not near or not far:  # a port whose pin-out nobody stated is not held against the lead
        return all(found or not is_pinned(port) for found, port in zip((near, far), ports, strict=True))
    return bool(spread_contacts(near, body.conductors) & far)


def _docked_wires_meet(first: Port, second: Port, protocol: Protocol) -> bool:
    for wire in protocol.wires:
        near, far = contacts_of(first, wire), contacts_of(second, wire)
        if not near & far and (is_pinned(first) or near) and (is_pinned(second) or far):
            return False
    return True


def contacts_of(port: Port, wire: str) -> set[str]:
    """The contacts of a port that carry a wire: those pinned to it, or one that is called so and has no other role."""
    named = {contact for contact, role in port.pins.items() if role == wire}
    if not named and wire in port.connector.contacts and wire not in port.pins:
        return {wire}
    return named


def is_pinned(port: Port) -> bool:
    """Whether the part states the port's pin-out."""
    return bool(port.pins) and "pins" not in port.assumed
