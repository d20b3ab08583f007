"""Signal nets: the signal contacts of ports that a lead or a dock joins end to end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint.graph.presence import Presence
from rigmint.rig.electric import Level, Port
from rigmint.rig.lead import LeadBody
from rigmint.rig.rig import Lead, PortRef, Rig

SIGNAL_SURVIVES = 3.6
"""V that a signal contact survives where its part does not say: the default of the format."""


@dataclass(frozen=True, slots=True)
class SignalContact:
    """A contact that a part uses for a signal. `level`: None where the part states none."""

    ref: PortRef
    signal: str
    level: Level | None

    @property
    def survives(self) -> float:
        """The highest V that it survives; where the part states none, a tenth over the volts that it takes, and never
        below the default."""
        if self.level is not None and self.level.survives is not None:
            return self.level.survives.high
        takes = self.level.takes if self.level is not None else None
        return max(SIGNAL_SURVIVES, takes * 1.1) if isinstance(takes, float) else SIGNAL_SURVIVES

    @property
    def is_assumed(self) -> bool:
        """Whether what it survives is a default."""
        return self.level is None or self.level.survives is None


@dataclass(frozen=True, slots=True)
class JoinedContacts:
    """Two signal contacts of two ports, joined by a lead, or docked (None)."""

    first: SignalContact
    second: SignalContact
    lead: str | None


def list_joined_contacts(rig: Rig, presence: Presence) -> tuple[JoinedContacts, ...]:
    """Every pair of signal contacts that is joined, each once."""
    found: dict[JoinedContacts, None] = {}
    for label in sorted(presence.leads):
        found |= dict.fromkeys(_join_by_lead(rig, rig.leads[label]))
    for index in sorted(presence.docks):
        dock = rig.docks[index]
        near, far = _port(rig, dock.first), _port(rig, dock.second)
        if near.connector.enters(far.connector) and near.sex.mates(far.sex):
            for contact in near.signals:
                if contact in far.signals:
                    pair = (_contact(rig, dock.first, contact), _contact(rig, dock.second, contact))
                    found[JoinedContacts(*pair, None)] = None
    return tuple(found)


def _join_by_lead(rig: Rig, lead: Lead) -> Iterator[JoinedContacts]:
    ends = [end for end in sorted(lead.plugged) if _mates(rig, lead, end)]
    for position, near in enumerate(ends):
        for far in ends[position + 1 :]:
            for contact in _port(rig, lead.plugged[near]).signals:
                reached = _reach(lead.body, (near, contact))
                for other in _port(rig, lead.plugged[far]).signals:
                    if (far, other) in reached:
                        first = _contact(rig, lead.plugged[near], contact)
                        yield JoinedContacts(first, _contact(rig, lead.plugged[far], other), lead.label)


def _mates(rig: Rig, lead: Lead, end: str) -> bool:
    port, plug = _port(rig, lead.plugged[end]), lead.body.ends[end]
    return port.connector.enters(plug.connector) and port.sex.mates(plug.sex)


def _reach(body: LeadBody, start: tuple[str, str]) -> set[tuple[str, str]]:
    """The contacts of a lead's ends that its conductors join to one; what passes a regulator is no signal."""
    reached, frontier = {start}, [start]
    while frontier:
        here = frontier.pop()
        for conductor in body.conductors:
            if conductor.regulator is not None:
                continue
            one = (conductor.source.end, conductor.source.contact)
            two = (conductor.target.end, conductor.target.contact)
            for near, far in ((one, two), (two, one)):
                if near == here and far not in reached:
                    reached.add(far)
                    frontier.append(far)
    return reached


def _contact(rig: Rig, ref: PortRef, contact: str) -> SignalContact:
    port = _port(rig, ref)
    signal = port.signals[contact]
    return SignalContact(ref, signal, port.levels.get(signal))


def _port(rig: Rig, ref: PortRef) -> Port:
    return rig.items[ref.item].part.ports[ref.port]
